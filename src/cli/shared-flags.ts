import { PLACEMENTS } from '../recording/index.js';
import { CRAFT_CODES } from '../units/craft.js';
import { UserError } from '../units/user-error.js';
import { choiceFlag, defaultChoiceFlag, readCount, readRisingList, switchFlag, valueFlag } from './flag.js';

const readText = (text: string): string => {
  if (text === '') throw new UserError('a name is missing');
  return text;
};

const readNames = (text: string): readonly string[] => {
  const names = text.split(',').map((name) => name.trim());
  if (names.includes('')) throw new UserError(`"${text}" has an empty name: write 2.gpx,3.gpx`);
  return names;
};

const readZone = (text: string): string => {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: text }).resolvedOptions().timeZone;
  } catch {
    throw new UserError(`"${text}" is not a time zone: write an IANA name such as Europe/Zurich or UTC`);
  }
};

/** Where a result is written. */
export const WRITING = {
  out: valueFlag('FILE', 'write to FILE, whole or not at all, instead of standard output', readText),
};

/** The ways to write a result of which there is nothing to draw. */
export const TEXT_FORMATS = ['table', 'json', 'ndjson', 'csv', 'tsv', 'markdown'] as const;

/** The ways to write a result; html is one page with pictures. */
export const FORMATS = [...TEXT_FORMATS, 'html'] as const;

/** The ways to write a result for a map; they say where the boat was. */
const MAP_FORMATS = ['geojson', 'gpx'] as const;

/** Whether a way to write a result is for a map. */
export const isMap = (format: string): boolean => MAP_FORMATS.some((one) => one === format);

/** How a result that a map can show is written. */
export const ON_A_MAP = {
  format: defaultChoiceFlag(
    'FORMAT',
    'how to write the result; geojson and gpx say where the boat was',
    [...FORMATS, ...MAP_FORMATS],
    'table',
  ),
};

/** How a result is reported. */
export const REPORTING = {
  format: defaultChoiceFlag('FORMAT', 'how to write the result', FORMATS, 'table'),
  ...WRITING,
  speed: choiceFlag(
    'UNIT',
    'speed in tables; split for rowing and kmh for paddling are the default, and data formats carry m/s',
    ['split', 'mps', 'kmh', 'knots'],
  ),
  tz: valueFlag(
    'ZONE',
    'time zone of times in tables, as Europe/Zurich; else this computer’s on a terminal, and UTC in a file',
    readZone,
  ),
  decimal: choiceFlag('SIGN', 'decimal sign of csv and tsv; comma puts semicolons into csv', [
    'point',
    'comma',
  ]),
  times: choiceFlag('HOW', 'clock: csv and tsv have lengths of time as m:ss.t too, beside their seconds', [
    'seconds',
    'clock',
  ]),
  strict: switchFlag('exit with 1 where there is a warning; notes do not count'),
  quiet: switchFlag('no progress, warnings or notes on standard error; errors stay'),
  noColor: switchFlag('no colour and plain ASCII; the variable NO_COLOR does the same'),
};

/** What is known of the logs beyond what they say. */
export const LOGS = {
  craft: choiceFlag('CODE', 'craft, as a class code such as 1x, 4-, 8+, K1 or SUP', CRAFT_CODES),
  boat: valueFlag(
    'FILE',
    'boat file: what is known of the boat and its logger (thole schema boat)',
    readText,
  ),
  placement: choiceFlag('WHERE', 'where the logger sat', PLACEMENTS),
  imu: valueFlag('FILE', 'IMU log of the same outing; x.imu.csv beside x.gpx is found unaided', readText),
  join: valueFlag(
    'FILES',
    'further files of the same outing, as 2.gpx,3.gpx: the rest of a track, or another device',
    readNames,
  ),
  imuStart: valueFlag(
    'TIME',
    'when the first sample of an IMU log without a clock was taken, as ISO 8601',
    readText,
  ),
  stream: valueFlag(
    'MPS@DEG',
    'stream: its speed in m/s and the direction it flows to, as 0.4@210',
    readText,
  ),
  columns: valueFlag('FILE', 'names for the columns of a CSV log (thole schema columns)', readText),
};

/** Rate bands. */
export const BANDS = {
  bands: valueFlag('LIST', 'bounds of the rate bands, spm, as 18,22,26,30,34', readRisingList),
};

/** Batches over several logs. */
export const BATCH = {
  jobs: valueFlag('N', 'how many logs to work on at once; default one for each core', readCount(1, 64)),
};

/** What every reporting command that reads logs takes. */
export const ON_LOGS = { ...REPORTING, ...LOGS };
