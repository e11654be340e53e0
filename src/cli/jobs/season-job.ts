import { isAbsolute, relative, sep } from 'node:path';
import type { Readable } from 'node:stream';
import { contentHash, openCache } from '../../host/cache.js';
import { openOuting, sheetRowOf } from '../../outing/index.js';
import type { LogFault } from '../../recording/index.js';
import { type LogSummary, logSummaryOf, renamed } from '../../season/index.js';
import { folderCraft } from '../../units/folder-craft.js';
import { columnsOf, type LogOptions, type LogSource, logSource, outingAsk, readSource } from '../open-log.js';

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

/** The folders between the one that was named and the log. */
const foldersOf = (file: string, folders: readonly string[]): string[] => {
  const below = folders
    .map((folder) => relative(folder, file))
    .find((path) => !path.startsWith('..') && !isAbsolute(path));
  return (below ?? '').split(sep).slice(0, -1);
};

const damage = (file: string, path: string): LogSummary['warnings'][number] => ({
  code: 'cache-entry-damaged',
  file,
  where: null,
  message: `What was kept of this log (${path}) was damaged; it has been made again.`,
});

const summaryOf = async (source: LogSource, options: SeasonOptions): Promise<LogSummary | LogFault> => {
  const { file } = source;
  const ask = await outingAsk(file, options);
  const folders = foldersOf(file, options.folders);
  const sheet = sheetRowOf(ask.sheet ?? [], file);
  const craft = ask.craft ?? sheet?.craft ?? ask.boat?.craft ?? folders.map(folderCraft).find(Boolean);
  const logs = await readSource(source, options);
  if (!Array.isArray(logs)) return logs;
  const outing = openOuting(logs, { ...ask, craft: craft ?? undefined });
  const summary = logSummaryOf(outing, options.bands === null ? {} : { boundsSpm: options.bands });
  const crew = summary.outing.crew ?? folders[0] ?? null;
  return { ...summary, outing: { ...summary.outing, crew } };
};

/** All that decides a summary: the program, what was told, and the bytes of the logs. */
const keyOf = async (source: LogSource, options: SeasonOptions): Promise<string> => {
  const { boat, craft, placement, stream, imuStart, sheet } = await outingAsk(source.file, options);
  const told = {
    boat,
    craft,
    placement,
    stream,
    imuStart,
    sheet: sheetRowOf(sheet ?? [], source.file),
    columns: await columnsOf(options.columns),
    bands: options.bands,
    folders: foldersOf(source.file, options.folders),
  };
  return contentHash([options.program, JSON.stringify(told), ...source.logs.map(({ bytes }) => bytes)]);
};

/** All that a season needs of one log: from the cache where it is kept, else made and kept. */
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
  const found = await cache.get(key);
  const names = source.logs.map((log) => log.file);
  if (found.state === 'kept') return renamed(found.value, names);
  const summary = await summaryOf(source, options);
  if ('fault' in summary) return summary;
  await cache.put(key, summary);
  return found.state === 'damaged'
    ? { ...summary, warnings: [damage(file, found.path), ...summary.warnings] }
    : summary;
};
