import { formatClock } from '../units/clock-time.js';
import { type Craft, craftFamily } from '../units/craft.js';
import { formatSpeed, SPEED_HEADING, type SpeedUnit } from '../units/speed.js';
import { zoneParts } from '../units/zone-parts.js';
import { type Column, figures, type Reading } from './section.js';

/** How a value that is not known is shown. */
export const UNKNOWN = '–';

/** Any value through its format, or the sign of the unknown. */
export const cell = <Value>(value: Value | null | undefined, format: (value: Value) => string): string =>
  value === null || value === undefined ? UNKNOWN : format(value);

/** A number with a fixed number of decimals. */
export const numberCell = (value: number | null | undefined, decimals = 0): string =>
  cell(value, (known) => (Number(known.toFixed(decimals)) + 0).toFixed(decimals));

/** A length of time as minutes and seconds. */
export const clockCell = (seconds: number | null | undefined, decimals = 0): string =>
  cell(seconds, (known) => formatClock(known, decimals));

/** A length of time with its sd; an sd below a tenth keeps its first digit. */
export const clockWithSd = (seconds: number | null, sdS: number | null): string =>
  `${clockCell(seconds, 1)}${sdS === null || sdS < 0.005 ? '' : ` ±${numberCell(sdS, sdS < 0.095 ? 2 : 1)}`}`;

/** A distance: kilometres from 10 km on, metres below. */
export const distanceCell = (metres: number | null | undefined): string =>
  cell(metres, (known) => (known >= 10_000 ? `${numberCell(known / 1000, 2)} km` : `${numberCell(known)} m`));

/** The unit that the user asked for, else the usual one of the craft. */
export const speedUnit = (reading: Reading, craft: Craft | null): SpeedUnit =>
  reading.speed ?? (craft === null || craftFamily(craft) === 'rowing' ? 'split' : 'kmh');

/** What the crew of a craft does, as a table says it. */
export const workWords = (craft: Craft | null): { readonly doing: string; readonly done: string } =>
  craft === null || craftFamily(craft) === 'rowing'
    ? { doing: 'rowing', done: 'rowed' }
    : { doing: 'paddling', done: 'paddled' };

/** The column of speeds in a unit. */
export const speedColumn = (unit: SpeedUnit): Column => figures(SPEED_HEADING[unit]);

/** A speed in a unit; at rest there is no split. */
export const speedCell = (speedMps: number | null | undefined, unit: SpeedUnit): string =>
  cell(speedMps, (known) => (unit === 'split' && known < 0.05 ? UNKNOWN : formatSpeed(known, unit)));

/** A speed with its unit, where no column names it: `1:33.0 /500 m`. */
export const speedInUnit = (speedMps: number, unit: SpeedUnit): string => {
  const [, ...unitWords] = SPEED_HEADING[unit].split(' ');
  return `${speedCell(speedMps, unit)} ${unitWords.join(' ')}`;
};

/** Date and time of an instant in a zone; in UTC they stand in its text. */
const partsIn = (iso: string, zone: string): Readonly<Record<string, string>> => {
  const [, ...utc] = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d):(\d\d)(?:\.\d+)?Z$/.exec(iso) ?? [];
  if (zone === 'UTC' && utc.length > 0) {
    const [year, month, day, hour, minute, second] = utc as [string, string, string, string, string, string];
    return { year, month, day, hour, minute, second };
  }
  return zoneParts(Date.parse(iso), zone);
};

/** Date and time of day in a zone: `2026-03-14 07:05`. */
export const dateCell = (iso: string | null, reading: Reading): string =>
  cell(iso, (known) => {
    const { year, month, day, hour, minute } = partsIn(known, reading.zone);
    return `${year}-${month}-${day} ${hour}:${minute}`;
  });

/** Time of day in a zone: `07:05:12`. */
export const timeCell = (iso: string | null, reading: Reading): string =>
  cell(iso, (known) => {
    const { hour, minute, second } = partsIn(known, reading.zone);
    return `${hour}:${minute}:${second}`;
  });
