import type { BestAsk } from '../outing/index.js';
import { PIECES_ROWS } from '../report/pieces.js';
import { parseClock } from '../units/clock-time.js';
import { UserError } from '../units/user-error.js';
import {
  defaultChoiceFlag,
  defaultFlag,
  type OptionsOf,
  readAlone,
  readCount,
  switchFlag,
  valueFlag,
} from './flag.js';
import { COURSE, TARGETS } from './regatta-flags.js';
import { BANDS } from './shared-flags.js';

const readMetres = (text: string): number => {
  const found = /^(\d+(?:\.\d+)?)\s*(m|km)?$/.exec(text.trim());
  const metres = found === null ? 0 : Number(found[1]) * (found[2] === 'km' ? 1000 : 1);
  if (!(metres > 0 && metres <= 1e6))
    throw new UserError(`"${text}" is not a distance: write metres, such as 2000 or 2km`);
  return metres;
};

const readDuration = (text: string): number => {
  const seconds = parseClock(text);
  if (seconds === null || !(seconds > 0))
    throw new UserError(`"${text}" is not a length of time: write it as 20:00, 90s or 20min`);
  return seconds;
};

const readStop = (text: string): number => {
  const seconds = parseClock(text);
  if (seconds === null || seconds > 600)
    throw new UserError(`"${text}" is not a length of time of up to 10 minutes: write it as 30s, 1:00 or 0`);
  return seconds;
};

/** `500` and `2km` are distances, `4min`, `90s` and `20:00` times. */
const readLength = (text: string): BestAsk => {
  const isTime = /:|\d\s*(s|min|h)$/.test(text.trim());
  return isTime ? { seconds: readDuration(text) } : { metres: readMetres(text) };
};

const readMoment = (text: string): string => {
  if (text.trim() === '') throw new UserError('a moment is missing: write it as 12:30 or as ISO 8601');
  return text;
};

const readName = (text: string): string => {
  if (text === '') throw new UserError('a name is missing');
  return text;
};

const readVariation = (text: string): number => {
  const pct = Number(text.replace(/\s*%$/, ''));
  if (text.trim() === '' || !(pct >= 0 && pct <= 10))
    throw new UserError(`"${text}" is not a variation: write a share of the time in percent, from 0 to 10`);
  return pct;
};

/** How much one crew varies, in percent. */
export const variationFlag = (help: string) => valueFlag('PCT', help, readVariation);

/** What is compared. */
export const COMPARING = {
  together: switchFlag('side by side: boats that went at one time, by the clock'),
  ...TARGETS,
  category: valueFlag('NAME', 'category of the targets that is meant', readMoment),
};

/** What is reported of pieces beyond their figures. */
export const DETAIL = {
  opening: valueFlag('N', 'the first N strokes of each piece, one by one', readCount(1, 200)),
  with: valueFlag('OLD', 'compare with another day: its log, or result in json', readName),
  variation: variationFlag('sd of a crew from day to day, %, for --with; default 1'),
  curve: valueFlag('FILE', 'hold speed against this curve (thole curve --out FILE)', readName),
  plot: switchFlag('draw rate and speed along each piece, in tables'),
  ...BANDS,
  rows: defaultChoiceFlag('WHAT', 'rows of csv and ndjson', PIECES_ROWS, 'parts'),
};

/** How pieces are found and cut. */
export const PIECES = {
  distance: valueFlag('METRES', 'every piece of this length', readMetres),
  time: valueFlag('TIME', 'every piece of this time, as 20:00 or 90s', readDuration),
  from: valueFlag(
    'MOMENT',
    'from here on: time of day as 18:05, +12:30 after the log’s start, or ISO 8601; alone it begins one piece',
    readMoment,
  ),
  to: valueFlag('MOMENT', 'up to this moment', readMoment),
  longestStop: defaultFlag('TIME', 'a stop this short does not end a piece', '30s', readStop),
  laps: switchFlag('the laps or segments that the log itself marks'),
  best: valueFlag('LIST', 'best stretches over these lengths, as 500,2km,4min', (text) =>
    text.split(',').map(readLength),
  ),
  ...COURSE,
  parts: defaultFlag('N', 'how many parts to cut a piece into', '5', readCount(1, 1000)),
  by: defaultChoiceFlag('WHAT', 'parts of equal distance or of equal time', ['distance', 'time'], 'distance'),
  every: valueFlag('METRES', 'parts of this length instead', readMetres),
};

/** Formats that hold a drawing. */
const DRAWN_IN: readonly string[] = ['table', 'markdown', 'html'];

/**
 * Holds that what is asked of detail can be given in the rows and the format asked for.
 * @throws UserError with the flag that is missing or too much
 */
export const checkDetail = (
  options: OptionsOf<typeof DETAIL> & { readonly format: string; readonly together: boolean },
): void => {
  const { rows, opening, curve, plot, format } = options;
  const missing = (what: string) => new UserError(`--rows ${rows} needs ${what}`);
  if (rows === 'openings' && opening === null) throw missing('the number of strokes: give --opening 20');
  if (rows === 'compared' && options.with === null) throw missing('another day: give --with OLD');
  if (options.variation !== null && options.with === null)
    throw new UserError('--variation goes with another day: give --with OLD');
  if (rows === 'off-curve' && curve === null) throw missing('a curve: give --curve FILE');
  if (plot && !DRAWN_IN.includes(format))
    throw new UserError(`--plot draws in a table and ${format} holds no drawing: leave out one of them`);
  readAlone(options, ['with', 'together'], []);
  readAlone(options, ['plot', 'together'], []);
};
