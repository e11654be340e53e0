import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { systemPath } from './system-path.js';

/** Name of the outing sheet beside the logs. */
export const SHEET_NAME = 'outings.csv';

const IMU = /\.imu\.csv(\.gz)?$/i;

/** Whether a name says that the file is the IMU log of a track. */
export const isImuName = (file: string): boolean => IMU.test(file);

/** A log's name without packing and ending: `x` of `x.gpx.gz`, `x.imu.csv` and `x.gpx`. */
const stemOf = (file: string): string => file.replace(/\.gz$/i, '').replace(/(\.imu)?\.[^./\\]+$/i, '');

/** The IMU log beside a track, `x.imu.csv` or `x.imu.csv.gz` beside `x.gpx`; null where there is none. */
export const imuBeside = (file: string): string | null => {
  if (isImuName(file)) return null;
  for (const ending of ['.imu.csv', '.imu.csv.gz']) {
    const path = `${stemOf(file)}${ending}`;
    if (existsSync(systemPath(path))) return path;
  }
  return null;
};

/** Where the outing sheet of a log would be. */
export const sheetBeside = (file: string): string => join(dirname(file), SHEET_NAME);

/** Logs without those that are the IMU log of another one in the list. */
export const withoutSidecars = (files: readonly string[]): string[] => {
  const tracks = new Set(files.filter((file) => !isImuName(file)).map(stemOf));
  return files.filter((file) => !(isImuName(file) && tracks.has(stemOf(file))));
};
