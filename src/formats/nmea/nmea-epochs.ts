import { makeSampleRows } from '../sample-rows.js';
import type { NmeaSentence } from './nmea-sentence.js';
import { nmeaDate, nmeaDay, nmeaDegrees, nmeaNumber, nmeaSpeedMps, nmeaTimeOfDay } from './nmea-value.js';

/** What the sentences of one instant say together, a row an instant. NaN where they say nothing. */
export interface NmeaEpochs {
  readonly count: number;
  /** Seconds of the day. */
  readonly timeOfDayS: Float64Array;
  /** Unix time of the start of the day, s. */
  readonly dayS: Float64Array;
  readonly latDeg: Float64Array;
  readonly lonDeg: Float64Array;
  readonly elevationM: Float64Array;
  readonly speedMps: Float64Array;
  readonly line: Float64Array;
  /** Instants whose sentences say that there was no fix. */
  readonly voidCount: number;
}

const [TIME, DAY, LAT, LON, ELEVATION, SPEED, LINE, VOID, FROM_GGA] = [0, 1, 2, 3, 4, 5, 6, 7, 8];

/** Modes of RMC and VTG that are no measurement: estimated, manual, simulated, not valid. */
const NOT_MEASURED = new Set(['E', 'M', 'S', 'N']);

/** Qualities of GGA that are measured: 1 to 5 (autonomous to float); 0 is none, 6 on are estimated or made up. */
const isMeasured = (quality: string | undefined): boolean => /^[1-5]$/.test(quality ?? '');

/**
 * Put the sentences of one instant together. They follow one another and state one time of day; a VTG, which
 * states none, belongs to the instant before it, or to the one after it where the log begins with a VTG.
 */
export const nmeaEpochs = (sentences: readonly NmeaSentence[]): NmeaEpochs => {
  const rows = makeSampleRows(9);
  const vtgLeads = sentences[0]?.type === 'VTG';
  let pendingSpeedMps = Number.NaN;
  let voidCount = 0;

  const isEmpty = (column: number): boolean => Number.isNaN(rows.last(column));
  const begin = (timeOfDayS: number, line: number): void => {
    if (rows.count() > 0 && rows.last(TIME) === timeOfDayS) return;
    rows.begin();
    rows.put(TIME, timeOfDayS);
    rows.put(LINE, line);
    if (Number.isFinite(pendingSpeedMps)) rows.put(SPEED, pendingSpeedMps);
    pendingSpeedMps = Number.NaN;
  };
  const noFix = (): void => {
    if (isEmpty(VOID)) voidCount++;
    rows.put(VOID, 1);
    for (const column of [LAT, LON, ELEVATION, SPEED]) rows.put(column, Number.NaN);
  };
  const place = (fields: readonly string[], from: number): boolean => {
    const latDeg = nmeaDegrees(fields[from], fields[from + 1], 90);
    const lonDeg = nmeaDegrees(fields[from + 2], fields[from + 3], 180);
    if (!Number.isFinite(latDeg) || !Number.isFinite(lonDeg)) return false;
    rows.put(LAT, latDeg);
    rows.put(LON, lonDeg);
    return true;
  };

  const addRmc = ({ fields, line }: NmeaSentence): void => {
    const timeOfDayS = nmeaTimeOfDay(fields[0]);
    if (!Number.isFinite(timeOfDayS)) return;
    begin(timeOfDayS, line);
    if (fields[1] !== 'A' || NOT_MEASURED.has(fields[11] ?? '')) {
      noFix();
      return;
    }
    const dayS = nmeaDate(fields[8]);
    if (Number.isFinite(dayS)) rows.put(DAY, dayS);
    if (!isEmpty(VOID)) return;
    const speedMps = nmeaSpeedMps(fields[6]);
    if (Number.isFinite(speedMps)) rows.put(SPEED, speedMps);
    // GGA often has more digits.
    if (isEmpty(FROM_GGA)) place(fields, 2);
  };
  const addGga = ({ fields, line }: NmeaSentence): void => {
    const timeOfDayS = nmeaTimeOfDay(fields[0]);
    if (!Number.isFinite(timeOfDayS)) return;
    begin(timeOfDayS, line);
    if (!isMeasured(fields[5])) {
      noFix();
      return;
    }
    if (!isEmpty(VOID)) return;
    if (place(fields, 1)) rows.put(FROM_GGA, 1);
    const elevationM = nmeaNumber(fields[8]);
    if (Number.isFinite(elevationM)) rows.put(ELEVATION, elevationM);
  };
  const addVtg = ({ fields }: NmeaSentence): void => {
    if (NOT_MEASURED.has(fields[8] ?? '')) return;
    const speedMps = nmeaSpeedMps(fields[4]);
    if (!Number.isFinite(speedMps)) return;
    if (vtgLeads) pendingSpeedMps = speedMps;
    else if (rows.count() > 0 && isEmpty(SPEED) && isEmpty(VOID)) rows.put(SPEED, speedMps);
  };
  const addZda = ({ fields, line }: NmeaSentence): void => {
    const timeOfDayS = nmeaTimeOfDay(fields[0]);
    const [day, month, year] = [1, 2, 3].map((field) => nmeaNumber(fields[field])) as [
      number,
      number,
      number,
    ];
    const dayS = nmeaDay(year, month, day);
    if (!Number.isFinite(timeOfDayS) || !Number.isFinite(dayS)) return;
    begin(timeOfDayS, line);
    rows.put(DAY, dayS);
  };
  const readers: Readonly<Record<string, (sentence: NmeaSentence) => void>> = {
    RMC: addRmc,
    GGA: addGga,
    VTG: addVtg,
    ZDA: addZda,
  };
  for (const sentence of sentences) readers[sentence.type]?.(sentence);

  const column = (index: number): Float64Array =>
    rows.column(index) ?? new Float64Array(rows.count()).fill(Number.NaN);
  return {
    count: rows.count(),
    timeOfDayS: column(TIME),
    dayS: column(DAY),
    latDeg: column(LAT),
    lonDeg: column(LON),
    elevationM: column(ELEVATION),
    speedMps: column(SPEED),
    line: column(LINE),
    voidCount,
  };
};
