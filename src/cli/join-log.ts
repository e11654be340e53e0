import type { Readable } from 'node:stream';
import type { BoatFile } from '../contract/boat.js';
import type { SheetRow } from '../contract/sheet.js';
import { isFault, readLog } from '../formats/index.js';
import { inputTextIfThere } from '../host/input-text.js';
import { STANDARD_INPUT } from '../host/log-bytes.js';
import { sheetBeside } from '../host/sidecars.js';
import { type JoinedOuting, joinedOuting, type OutingAsk } from '../outing/joined-outing.js';
import type { LogFault, Recording } from '../recording/index.js';
import { parseStream } from '../units/stream.js';
import type { LogOptions } from './log-options.js';
import { type LogSource, logSource } from './log-source.js';

// What reads the files beside a log is loaded where one is there: its schemas take as long to load as a short log
// takes to read.

const sheetFor = async (file: string): Promise<readonly SheetRow[]> => {
  if (file === STANDARD_INPUT) return [];
  const path = sheetBeside(file);
  const text = await inputTextIfThere(path, 'outing sheet');
  if (text === null) return [];
  const { parseOutingSheet } = await import('../outing/sheet.js');
  return parseOutingSheet(text, path);
};

/** A log with what was mended to get its bytes. */
const recordingOf = (
  { bytes, warnings, file }: LogSource['logs'][number],
  columns: Readonly<Record<string, string>> | null,
): Recording | LogFault => {
  const read = readLog(bytes, file, columns === null ? {} : { columns });
  return isFault(read) ? read : { ...read, warnings: [...warnings, ...read.warnings] };
};

/** The names for columns that were given; null where none were. */
export const columnsOf = async (path: string | null): Promise<Readonly<Record<string, string>> | null> => {
  if (path === null) return null;
  const { columnsIn } = await import('./columns-text.js');
  return columnsIn(path);
};

const boatOf = async (path: string | null): Promise<BoatFile | null> => {
  if (path === null) return null;
  const { boatIn } = await import('./boat-text.js');
  return boatIn(path);
};

/** What was given beside the logs, read from its files. */
export const outingAsk = async (file: string, options: LogOptions): Promise<OutingAsk> => ({
  craft: options.craft ?? undefined,
  placement: options.placement ?? undefined,
  stream: options.stream === null ? undefined : parseStream(options.stream),
  imuStart: options.imuStart ?? undefined,
  boat: (await boatOf(options.boat)) ?? undefined,
  sheet: await sheetFor(file),
});

/** Read the logs of a source. */
export const readSource = async (
  { logs }: LogSource,
  options: LogOptions,
): Promise<Recording[] | LogFault> => {
  const columns = await columnsOf(options.columns);
  const read = logs.map((log) => recordingOf(log, columns));
  const fault = read.find(isFault);
  return fault ?? (read as Recording[]);
};

/**
 * Join the logs of an outing whose bytes are there: with the sheet beside it and the boat file.
 * @throws UserError where a file other than a log is not valid
 */
export const joinSource = async (
  source: LogSource,
  options: LogOptions,
): Promise<JoinedOuting | LogFault> => {
  const ask = await outingAsk(source.file, options);
  const logs = await readSource(source, options);
  return Array.isArray(logs) ? joinedOuting(logs, ask) : logs;
};

/**
 * Join the logs of one outing: its bytes, its IMU log, the sheet beside it, the boat file.
 * @throws UserError where a file other than a log is not valid
 */
export const joinLog = async (
  file: string,
  options: LogOptions,
  stdin: Readable,
): Promise<JoinedOuting | LogFault> => {
  const source = await logSource(file, options, stdin);
  return 'fault' in source ? source : joinSource(source, options);
};
