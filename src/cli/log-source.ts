import type { Readable } from 'node:stream';
import { setEngine } from '../host/engine.js';
import { type LogBytes, logBytes, STANDARD_INPUT } from '../host/log-bytes.js';
import { imuBeside } from '../host/sidecars.js';
import type { LogFault } from '../recording/index.js';
import type { LogOptions } from './log-options.js';

/** The logs of one outing in bytes: a track and its IMU log, or one log alone. */
export interface LogSource {
  readonly file: string;
  readonly logs: readonly (LogBytes & { readonly file: string })[];
}

/** The logs of an outing: the one named, those to be joined to it, and the IMU log that was given or lies beside it. */
export const logNames = (file: string, options: Pick<LogOptions, 'imu' | 'join'>): readonly string[] => {
  const imu = options.imu ?? (file === STANDARD_INPUT ? null : imuBeside(file));
  return [file, ...(options.join ?? []), ...(imu === null ? [] : [imu])];
};

/** The bytes of the logs of an outing. */
export const logSource = async (
  file: string,
  options: Pick<LogOptions, 'imu' | 'join'>,
  stdin: Readable,
): Promise<LogSource | LogFault> => {
  setEngine();
  const logs: (LogBytes & { readonly file: string })[] = [];
  for (const name of logNames(file, options)) {
    const read = await logBytes(name, stdin);
    if ('fault' in read) return read;
    logs.push({ ...read, file: name });
  }
  return { file, logs };
};
