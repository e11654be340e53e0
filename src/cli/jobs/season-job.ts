import { isAbsolute, relative, sep } from 'node:path';
import type { Readable } from 'node:stream';
import { bytesHash, contentHash, fileHash, openCache } from '../../host/cache.js';
import { STANDARD_INPUT } from '../../host/log-bytes.js';
import { openOuting, sheetRowOf } from '../../outing/index.js';
import type { LogFault } from '../../recording/index.js';
import { type LogSummary, logSummaryOf, renamed } from '../../season/index.js';
import { folderCraft } from '../../units/folder-craft.js';
import {
  columnsOf,
  type LogOptions,
  type LogSource,
  logNames,
  logSource,
  outingAsk,
  readSource,
} from '../open-log.js';

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

/** All that decides a summary: the program, what was told, and the hashes of the logs. */
const keyOf = async (file: string, hashes: readonly string[], options: SeasonOptions): Promise<string> => {
  const { boat, craft, placement, stream, imuStart, sheet } = await outingAsk(file, options);
  const told = {
    boat,
    craft,
    placement,
    stream,
    imuStart,
    sheet: sheetRowOf(sheet ?? [], file),
    columns: await columnsOf(options.columns),
    bands: options.bands,
    folders: foldersOf(file, options.folders),
  };
  return contentHash([options.program, JSON.stringify(told), ...hashes]);
};

/** What is kept of one log; null where nothing is, or it is damaged. The log is hashed, not read. */
export const keptSummary = async (file: string, options: SeasonOptions): Promise<LogSummary | null> => {
  if (options.kept === null || file === STANDARD_INPUT) return null;
  const names = await logNames(file, options);
  const hashes = await Promise.all(names.map(fileHash));
  if (hashes.includes(null)) return null;
  const key = await keyOf(file, hashes as string[], options);
  const found = await openCache<LogSummary>(options.kept).get(key);
  return found.state === 'kept' ? renamed(found.value, names) : null;
};

/** Make all that a season needs of one log, and keep it. */
export const seasonJob = async (
  file: string,
  options: SeasonOptions,
  stdin: Readable,
): Promise<LogSummary | LogFault> => {
  const source = await logSource(file, options, stdin);
  if ('fault' in source) return source;
  const summary = await summaryOf(source, options);
  if ('fault' in summary || options.kept === null) return summary;
  const cache = openCache<LogSummary>(options.kept);
  const key = await keyOf(
    file,
    source.logs.map(({ raw }) => bytesHash(raw)),
    options,
  );
  const before = await cache.get(key);
  await cache.put(key, summary);
  return before.state === 'damaged'
    ? { ...summary, warnings: [damage(file, before.path), ...summary.warnings] }
    : summary;
};
