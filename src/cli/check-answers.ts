import { checkFile, commandsOf } from '../checks/index.js';
import { settle } from '../contract/decimals.js';
import { cacheFolder } from '../host/cache-folder.js';
import { isFolder } from '../host/folder-logs.js';
import { programHash } from '../host/program-hash.js';
import { seasonOf } from '../season/index.js';
import { batched } from './batch.js';
import { foldersLogs } from './folders-logs.js';
import type { CheckAnswer, CheckOptions } from './jobs/check-job.js';
import { seasonSummaries } from './season-summaries.js';
import type { Session } from './session.js';

type Options = CheckOptions &
  Readonly<Record<string, unknown>> & { readonly jobs: number | null; readonly tz: string | null };

/** What the rules say of the season of a folder: its logs as one. */
const seasonAnswer = async (session: Session, folder: string, options: Options): Promise<CheckAnswer> => {
  const { files, skipped } = await foldersLogs([folder]);
  const summaries = await seasonSummaries(session, files, {
    ...options,
    bands: null,
    folders: [folder],
    kept: cacheFolder(session.streams.env, null),
    program: await programHash(import.meta.url),
  });
  const zone = options.tz ?? 'UTC';
  const whole = {
    since: null,
    until: null,
    seasonFrom: null,
    sport: 'boats',
    groupBy: null,
    last: null,
    zonesBpm: null,
  } as const;
  const season = settle(seasonOf(summaries, { zone, ...whole }));
  return {
    files: [folder],
    warnings: [...skipped, ...season.warnings],
    results: checkFile(options.rules, folder, { season }),
    commands: ['season'],
  };
};

/** What the rules say of logs, stored results and folders: of each file, then of the season of each folder. */
export const checkAnswers = async (
  session: Session,
  paths: readonly string[],
  options: Options,
): Promise<CheckAnswer[]> => {
  const ofSeason = (command: string) => command === 'season';
  const anySeason = options.rules.some((rule) => commandsOf(rule).every(ofSeason));
  const anyOther = options.rules.some((rule) => !commandsOf(rule).some(ofSeason));
  const answers: CheckAnswer[] = [];
  const files: string[] = [];
  for (const path of paths) {
    const folder = await isFolder(path);
    if (folder && anySeason) answers.push(await seasonAnswer(session, path, options));
    if (!folder) files.push(path);
    else if (anyOther) {
      const below = await foldersLogs([path]);
      files.push(...below.files);
      if (below.skipped.length > 0)
        answers.push({ files: [], warnings: below.skipped, results: [], commands: [] });
    }
  }
  return [...(await batched<CheckAnswer>(session, 'check', [...new Set(files)], options)), ...answers];
};
