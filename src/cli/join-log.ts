import type { Readable } from 'node:stream';
import type { BoatFile } from '../contract/boat.js';
import type { SheetRow } from '../contract/sheet.js';
import { isFault, readLog } from '../formats/index.js';
import { inputTextIfThere } from '../host/input-text.js';
import { STANDARD_INPUT } from '../host/log-bytes.js';
import { isSpecial } from '../host/plain-file.js';
import { SHEET_NAME, sheetBeside } from '../host/sidecars.js';
import { type JoinedOuting, joinedOuting, type OutingAsk } from '../outing/joined-outing.js';
import { sheetRowOf } from '../outing/sheet-row.js';
import type { LogFault, Recording, Warning } from '../recording/index.js';
import { parseStream } from '../units/stream.js';
import { LogMisfit } from '../units/user-error.js';
import type { LogOptions } from './log-options.js';
import { imuLeftOut, type LogSource, logSource } from './log-source.js';

// What reads the files beside a log is loaded where one is there: its schemas take as long to load as a short log
// takes to read.

/** The outing sheet beside a log, and what has to be said of it. */
interface SheetBeside {
  readonly rows: readonly SheetRow[];
  readonly said: readonly Warning[];
}

/** @throws LogMisfit where the row for this log is not valid: the other logs have rows of their own */
const sheetFor = async (file: string): Promise<SheetBeside> => {
  if (file === STANDARD_INPUT) return { rows: [], said: [] };
  const path = sheetBeside(file);
  if (isSpecial(path)) return { rows: [], said: [] };
  const text = await inputTextIfThere(path, 'outing sheet');
  if (text === null) return { rows: [], said: [] };
  const { isOutingSheet, parseOutingSheet } = await import('../outing/sheet.js');
  if (!isOutingSheet(text)) return { rows: [], said: [sheetIgnored(path)] };
  const { rows, faults } = parseOutingSheet(text, path);
  const fault = sheetRowOf(faults, file);
  if (fault !== null) throw new LogMisfit(fault.message);
  return { rows, said: [] };
};

/** That what is called as an outing sheet is none, so that nothing is known from it. */
const sheetWarnings = (file: string): Warning[] => {
  const path = sheetBeside(file);
  return file === STANDARD_INPUT || !isSpecial(path)
    ? []
    : [
        {
          code: 'sheet-left-out',
          file: path,
          where: null,
          message: 'it is a device, a socket or a pipe and no outing sheet, so it is passed over',
        },
      ];
};

const sheetIgnored = (path: string): Warning => ({
  code: 'sheet-ignored',
  file: path,
  where: null,
  message: `This file has no column "file" in its first line, so it is not an outing sheet and is left alone; an outing sheet is called ${SHEET_NAME} and names each log under "file".`,
});

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
export const outingAsk = async (file: string, options: LogOptions): Promise<OutingAsk> => {
  const { rows, said } = await sheetFor(file);
  return {
    craft: options.craft ?? undefined,
    placement: options.placement ?? undefined,
    stream: options.stream === null ? undefined : parseStream(options.stream),
    imuStart: options.imuStart ?? undefined,
    boat: (await boatOf(options.boat)) ?? undefined,
    usual: options.club?.usual,
    sheet: rows,
    said,
  };
};

/** The logs of a source, read. An IMU log that holds nothing is left out, and it is said. */
interface ReadLogs {
  readonly logs: readonly Recording[];
  /** The IMU log among them; null where there is none. */
  readonly imu: Recording | null;
  readonly warnings: readonly Warning[];
}

const readSource = async (source: LogSource, options: LogOptions): Promise<ReadLogs | LogFault> => {
  const columns = await columnsOf(options.columns);
  const warnings = [...source.warnings, ...sheetWarnings(source.file)];
  const logs: Recording[] = [];
  let imu: Recording | null = null;
  for (const log of source.logs) {
    const read = recordingOf(log, columns);
    if (isFault(read) && log.role === 'log') return read;
    if (isFault(read)) warnings.push(imuLeftOut(log.file, read.message));
    else logs.push(read);
    if (!isFault(read) && log.role === 'imu') imu = read;
  }
  return { logs, imu, warnings };
};

const withWarnings = ([first, ...rest]: readonly Recording[], warnings: readonly Warning[]): Recording[] =>
  first === undefined ? [] : [{ ...first, warnings: [...warnings, ...first.warnings] }, ...rest];

/**
 * What is made of the logs of a source. Where its IMU log is of another outing, the track is taken alone.
 * @param make what joins them
 */
export const madeOfSource = async <Made>(
  source: LogSource,
  options: LogOptions,
  make: (logs: readonly Recording[]) => Made,
): Promise<Made | LogFault> => {
  const read = await readSource(source, options);
  if ('fault' in read) return read;
  const { logs, imu, warnings } = read;
  try {
    return make(withWarnings(logs, warnings));
  } catch (error) {
    if (!(error instanceof LogMisfit) || imu === null || options.imu !== null) throw error;
    const rest = logs.filter((log) => log !== imu);
    return make(withWarnings(rest, [...warnings, imuLeftOut(imu.provenance.file, error.message)]));
  }
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
  return madeOfSource(source, options, (logs) => joinedOuting(logs, ask));
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
