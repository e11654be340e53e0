import { basename, isAbsolute, relative, resolve, sep } from 'node:path';
import { Readable } from 'node:stream';
import { impossibleFigures } from '../../contract/figure-limit.js';
import { bytesHash, contentHash, openCache } from '../../host/cache.js';
import { openOuting, sheetRowOf } from '../../outing/index.js';
import type { LogFault } from '../../recording/index.js';
import { type LogSummary, logSummaryOf, renamed } from '../../season/index.js';
import { folderCraft } from '../../units/folder-craft.js';
import { UserError } from '../../units/user-error.js';
import { columnsOf, madeOfSource, outingAsk } from '../join-log.js';
import type { LogOptions } from '../log-options.js';
import { type LogSource, logSource } from '../log-source.js';
import { possibleAnswer } from '../possible-answer.js';

/** What `thole season` is asked of each log. */
export interface SeasonOptions extends LogOptions {
  readonly bands: readonly number[] | null;
  /** Folders named on the command line. */
  readonly folders: readonly string[];
  /** Where summaries are kept; null where none are. */
  readonly kept: string | null;
  /** Hash of the program. */
  readonly program: string;
}

/** The folders by which a log may be distinguished: those below the folder that was named, then that one's own name. */
const foldersOf = (file: string, folders: readonly string[]): readonly string[] => {
  for (const folder of folders) {
    const below = relative(folder, file);
    if (below !== '' && !below.startsWith('..') && !isAbsolute(below))
      return [...below.split(sep).slice(0, -1), basename(resolve(folder))];
  }
  return [];
};

/** A folder named by numbers alone is a year, a month or a day. */
const isDate = (folder: string): boolean => /^[\d\s._-]+$/.test(folder);

/** The crew that folders name: the one that names a craft too, else the first below the one that was given. */
const crewOf = (folders: readonly string[]): string | null =>
  folders.find((folder) => folderCraft(folder) !== null) ??
  folders.slice(0, -1).find((folder) => !isDate(folder)) ??
  null;

const damage = (file: string, path: string): LogSummary['warnings'][number] => ({
  code: 'cache-entry-damaged',
  file,
  where: null,
  message: `What was kept of this log (${path}) was damaged; it has been made again.`,
});

/** Why something could not be kept, for the reader; a season is reported without it. */
const notKept = (file: string, error: unknown): LogSummary['warnings'][number] => {
  if (!(error instanceof UserError)) throw error;
  return {
    code: 'cache-not-written',
    file,
    where: null,
    message: `What was made of this log could not be kept for the next run (${error.message}): name another folder with --cache, or give --no-cache.`,
  };
};

/** A summary without the figures that no craft can reach. */
const possibleSummary = async (file: string, summary: LogSummary): Promise<LogSummary | LogFault> => {
  const { outing, warnings } = summary;
  const result = await possibleAnswer(file, {
    schema: 'thole/outing/1',
    files: [],
    warnings,
    error_model: [],
    sheet: [],
    outings: [outing],
  });
  if ('fault' in result) return result;
  const pieces = summary.pieces.filter((piece) => impossibleFigures(piece).length === 0);
  return { ...summary, outing: result.outings[0]!, warnings: result.warnings, pieces };
};

const summaryOf = async (source: LogSource, options: SeasonOptions): Promise<LogSummary | LogFault> => {
  const { file } = source;
  const ask = await outingAsk(file, options);
  const folders = foldersOf(file, options.folders);
  const sheet = sheetRowOf(ask.sheet ?? [], file);
  const craft = ask.craft ?? sheet?.craft ?? ask.boat?.craft ?? folders.map(folderCraft).find(Boolean);
  const outing = await madeOfSource(source, options, (logs) =>
    openOuting(logs, { ...ask, craft: craft ?? undefined }),
  );
  if ('fault' in outing) return outing;
  const made = logSummaryOf(outing, options.bands === null ? {} : { boundsSpm: options.bands });
  const summary = await possibleSummary(file, made);
  if ('fault' in summary) return summary;
  const crew = summary.outing.crew ?? crewOf(folders);
  return { ...summary, outing: { ...summary.outing, crew } };
};

/** All that decides a summary: the program, what was given, and the hashes of the logs. */
const keyOf = async ({ file, logs, warnings }: LogSource, options: SeasonOptions): Promise<string> => {
  const { boat, usual, craft, placement, stream, imuStart, sheet } = await outingAsk(file, options);
  const given = {
    boat,
    usual,
    craft,
    placement,
    stream,
    imuStart,
    sheet: sheetRowOf(sheet ?? [], file),
    columns: await columnsOf(options.columns),
    bands: options.bands,
    folders: foldersOf(file, options.folders),
    leftOut: warnings.map(({ code, message }) => [code, message]),
  };
  return contentHash([options.program, JSON.stringify(given), ...logs.map(({ raw }) => bytesHash(raw))]);
};

/** What is kept of one log; null where nothing is, or where something is to be said of it, which is the job's to do. */
export const keptSummary = async (file: string, options: SeasonOptions): Promise<LogSummary | null> => {
  const source = await logSource(file, options, Readable.from([]));
  if (options.kept === null || 'fault' in source) return null;
  const kept = await openCache<LogSummary>(options.kept).get(await keyOf(source, options));
  return kept.state === 'kept' ? renamed(kept.value, namesOf(source)) : null;
};

const namesOf = ({ logs }: LogSource): readonly string[] => logs.map(({ file }) => file);

/** All that a season needs of one log: what is kept of it, else made and kept. The log is read once. */
export const seasonJob = async (
  file: string,
  options: SeasonOptions,
  stdin: Readable,
): Promise<LogSummary | LogFault> => {
  const source = await logSource(file, options, stdin);
  if ('fault' in source) return source;
  if (options.kept === null) return summaryOf(source, options);
  const cache = openCache<LogSummary>(options.kept);
  const key = await keyOf(source, options);
  const before = await cache.get(key);
  if (before.state === 'kept') return renamed(before.value, namesOf(source));
  const summary = await summaryOf(source, options);
  if ('fault' in summary) return summary;
  const failure = await cache.put(key, summary).then(
    () => null,
    (error: unknown) => notKept(file, error),
  );
  return {
    ...summary,
    warnings: [
      ...(before.state === 'damaged' ? [damage(file, before.path)] : []),
      ...(failure === null ? [] : [failure]),
      ...summary.warnings,
    ],
  };
};
