import { sweepCache } from '../../host/cache.js';
import { cacheFolder } from '../../host/cache-folder.js';
import { programHash } from '../../host/program-hash.js';
import { seasonView } from '../../report/season.js';
import { seasonOf } from '../../season/index.js';
import { UserError } from '../../units/user-error.js';
import { command } from '../command.js';
import { foldersLogs } from '../folders-logs.js';
import { SEASON } from '../season-flags.js';
import { seasonSummaries } from '../season-summaries.js';
import { zoneOf } from '../session.js';
import { BATCH, LOGS, REPORTING } from '../shared-flags.js';

const { imu: _, imuStart: __, join: ___, ...LISTED } = LOGS;

export const season = command({
  name: 'season',
  summary: 'totals, bests and rate bands, week by week',
  operands: ['<FOLDER...>'],
  flags: { ...SEASON, ...REPORTING, ...LISTED, ...BATCH },
  about:
    'Every log below the folders is one outing; an outing that two devices logged counts once, whatever the logs are called; a log of another sport, or one without a clock, is listed and not counted. Progress is speed at like rate, for each crew in each craft: a change is shown only where its 98 % interval excludes zero. Crew and craft come from the outing sheet, else from the names of the folders. The results of each log are kept, so the next run is fast. Rate is not intensity.',
  examples: [
    { line: 'thole season samples', does: 'add up every log below a folder' },
    {
      line: 'thole season 2026 --rows weeks --format csv --out weeks.csv',
      does: 'write one line a week for a spreadsheet',
    },
  ],
  run: async (session, options, folders) => {
    if (options.since !== null && options.until !== null && options.since > options.until)
      throw new UserError(`--since ${options.since} is after --until ${options.until}`);
    if (options.rows === 'zones' && options.zones === null)
      throw new UserError('--rows zones needs their bounds: give --zones 140,165');
    const { files, skipped } = await foldersLogs(folders);
    const kept = options.noCache ? null : cacheFolder(session.streams.env, options.cache);
    if (kept !== null) await sweepCache(kept);
    const asked = {
      ...options,
      imu: null,
      join: null,
      imuStart: null,
      folders,
      kept,
      program: await programHash(import.meta.url),
    };
    const summaries = await seasonSummaries(session, files, asked);
    if (summaries.length === 0) return;
    const { since, until, seasonFrom, sport, groupBy, last, zones: zonesBpm } = options;
    const zone = zoneOf(session.streams, options);
    const drawn = options.format === 'html';
    const sums = { zone, since, until, seasonFrom, sport, groupBy, last, zonesBpm, drawn };
    const made = seasonOf(summaries, sums);
    const result = { ...made, warnings: [...skipped, ...made.warnings] };
    await session.report(seasonView(options.rows), result, options);
  },
});
