import { isoTime } from '../../units/instant.js';

/** Track records to be written, one row each; NaN where a record lacks a value. */
export interface TrackRecords {
  readonly name: string;
  /** Unix time of each record, s. */
  readonly unixS: Float64Array;
  readonly latDeg: Float64Array;
  readonly lonDeg: Float64Array;
  readonly speedMps: Float64Array | null;
  readonly cadenceSpm: Float64Array | null;
  readonly heartRateBpm: Float64Array | null;
  /** Stated accuracy of every position, m; null where it is not stated. */
  readonly accuracyM: number | null;
}

/** Digits after the point: 8 of a degree are 1 mm. */
const DIGITS = Object.freeze({ degrees: 8, speed: 3, accuracy: 1 });

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

const element = (name: string, column: Float64Array | null, row: number, digits: number): string =>
  column === null || Number.isNaN(column[row]!)
    ? ''
    : `<e:${name}>${column[row]!.toFixed(digits)}</e:${name}>`;

/** Everything before the first track point and after the last. */
const HEAD = `<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="thole simulate" xmlns="http://www.topografix.com/GPX/1/1" xmlns:e="urn:thole:track-point">
<trk><name>`;
export const GPX_TAIL = '</trkseg></trk>\n</gpx>\n';

/**
 * A GPX 1.1 track. Speed, cadence, heart rate and accuracy stand in the extensions of each point; numbers are
 * rounded, so that the bytes are the same on every machine.
 */
export const gpxText = (records: TrackRecords): string => {
  const lines = [`${HEAD}${escaped(records.name)}</name><trkseg>\n`];
  for (let i = 0; i < records.unixS.length; i++) {
    const lat = records.latDeg[i]!.toFixed(DIGITS.degrees);
    const lon = records.lonDeg[i]!.toFixed(DIGITS.degrees);
    const more =
      element('speed', records.speedMps, i, DIGITS.speed) +
      element('cadence', records.cadenceSpm, i, 0) +
      element('heart_rate', records.heartRateBpm, i, 0) +
      (records.accuracyM === null
        ? ''
        : `<e:accuracy>${records.accuracyM.toFixed(DIGITS.accuracy)}</e:accuracy>`);
    const extensions = more === '' ? '' : `<extensions>${more}</extensions>`;
    lines.push(
      `<trkpt lat="${lat}" lon="${lon}"><time>${isoTime(records.unixS[i]!)}</time>${extensions}</trkpt>\n`,
    );
  }
  lines.push(GPX_TAIL);
  return lines.join('');
};
