import type { Readable } from 'node:stream';
import { setEngine } from '../host/engine.js';
import { type LogBytes, logBytes, notPlain, STANDARD_INPUT } from '../host/log-bytes.js';
import { isSpecial } from '../host/plain-file.js';
import { imuBeside } from '../host/sidecars.js';
import type { LogFault, Warning } from '../recording/index.js';
import type { LogOptions } from './log-options.js';

/** A log of an outing, in bytes. */
export interface SourceLog extends LogBytes {
  readonly file: string;
  /** What it is to the outing; an IMU log that cannot be used is left out, the others are needed. */
  readonly role: 'log' | 'imu';
}

/** The logs of one outing in bytes: a track and its IMU log, or one log alone. */
export interface LogSource {
  readonly file: string;
  readonly logs: readonly SourceLog[];
  /** What has to be said of logs that are left out. */
  readonly warnings: readonly Warning[];
}

/** That the IMU log of a track is of no use, and why. */
export const imuLeftOut = (file: string, why: string): Warning => ({
  code: 'imu-left-out',
  file,
  where: null,
  message: `the IMU log cannot be used, so the track is analysed without it: ${why}`,
});

/** Why an IMU log that was named on the command line cannot be opened is a mistake; what is in it is damage. */
const NOT_THERE: readonly string[] = ['unreadable', 'is-folder'];

/** The names of the logs of an outing beside its IMU log: the one named, and those to be joined to it. */
export const logNames = (file: string, options: Pick<LogOptions, 'join'>): readonly string[] => [
  file,
  ...(options.join ?? []),
];

/** The name of the IMU log that was given or lies beside the log; null where there is none. */
export const imuName = (file: string, options: Pick<LogOptions, 'imu'>): string | null =>
  options.imu ?? (file === STANDARD_INPUT ? null : imuBeside(file));

/** The bytes of the logs of an outing. */
export const logSource = async (
  file: string,
  options: Pick<LogOptions, 'imu' | 'join'>,
  stdin: Readable,
): Promise<LogSource | LogFault> => {
  setEngine();
  const logs: SourceLog[] = [];
  for (const name of logNames(file, options)) {
    const read = await logBytes(name, stdin);
    if ('fault' in read) return read;
    logs.push({ ...read, file: name, role: 'log' });
  }
  const imu = imuName(file, options);
  if (imu === null) return { file, logs, warnings: [] };
  const read = options.imu === null && isSpecial(imu) ? notPlain(imu) : await logBytes(imu, stdin);
  if (!('fault' in read)) return { file, logs: [...logs, { ...read, file: imu, role: 'imu' }], warnings: [] };
  if (options.imu !== null && NOT_THERE.includes(read.code)) return read;
  return { file, logs, warnings: [imuLeftOut(imu, read.message)] };
};
