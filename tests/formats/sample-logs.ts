import { nmeaChecksum } from '../../src/formats/nmea/nmea-sentence.js';
import { data, definition, FILE_ID, fitFile, record } from './fit/fit-bytes.js';

/** A small valid log made here, and where each of its points ends. */
export interface SampleLog {
  readonly name: string;
  readonly format: string;
  readonly bytes: Uint8Array;
  readonly pointCount: number;
  /** Byte after the last that a point needs, a point. */
  readonly pointEnds: readonly number[];
  /** The channel that every point has. */
  readonly channel: 'position' | 'acceleration';
}

const START = Date.UTC(2026, 4, 3, 7);
const utf8 = new TextEncoder();

const textLog = (
  name: string,
  format: string,
  channel: SampleLog['channel'],
  head: string,
  points: readonly string[],
  tail: string,
): SampleLog => {
  let at = utf8.encode(head).length;
  const pointEnds = points.map((point) => {
    at += utf8.encode(point).length;
    return at;
  });
  return {
    name,
    format,
    channel,
    bytes: utf8.encode(head + points.join('') + tail),
    pointCount: points.length,
    pointEnds,
  };
};

const numbers = (count: number): number[] => Array.from({ length: count }, (_, i) => i);
const iso = (s: number): string => new Date(START + s * 1000).toISOString();
const lon = (s: number): string => (10 + s * 5e-5).toFixed(7);

const gpx = (count: number): SampleLog =>
  textLog(
    'GPX',
    'gpx',
    'position',
    '<?xml version="1.0" encoding="UTF-8"?>\n<gpx version="1.1" creator="Logger 2" xmlns="http://www.topografix.com/GPX/1/1" xmlns:a="urn:a"><trk><trkseg>',
    numbers(count).map(
      (s) =>
        `\n<trkpt lat="45.0000000" lon="${lon(s)}"><ele>12.5</ele><time>${iso(s)}</time><extensions><a:hr>1${30 + s}</a:hr></extensions></trkpt>`,
    ),
    '\n</trkseg></trk></gpx>\n',
  );

const tcx = (count: number): SampleLog =>
  textLog(
    'TCX',
    'tcx',
    'position',
    `<?xml version="1.0"?>\n<TrainingCenterDatabase xmlns="http://www.garmin.com/xmlschemas/TrainingCenterDatabase/v2"><Activities><Activity Sport="Other"><Id>${iso(0)}</Id><Lap StartTime="${iso(0)}"><TotalTimeSeconds>${count}</TotalTimeSeconds><Track>`,
    numbers(count).map(
      (s) =>
        `\n<Trackpoint><Time>${iso(s)}</Time><Position><LatitudeDegrees>45.0</LatitudeDegrees><LongitudeDegrees>${lon(s)}</LongitudeDegrees></Position><DistanceMeters>${s * 4}</DistanceMeters><Cadence>28</Cadence></Trackpoint>`,
    ),
    '</Track></Lap></Activity></Activities></TrainingCenterDatabase>',
  );

const nmea = (count: number): SampleLog =>
  textLog(
    'NMEA',
    'nmea',
    'position',
    '',
    numbers(count).map((s) => {
      const body = `GPRMC,0700${String(s).padStart(2, '0')}.00,A,4500.0000,N,01000.${String(s * 30).padStart(4, '0')},E,8.0,090.0,030526,,,A`;
      const sum = nmeaChecksum(utf8.encode(body), 0, body.length);
      return `$${body}*${sum.toString(16).toUpperCase().padStart(2, '0')}\r\n`;
    }),
    '',
  );

const csvTrack = (count: number): SampleLog =>
  textLog(
    'CSV track',
    'csv',
    'position',
    'time,lat_deg,lon_deg,speed_mps,heart_rate_bpm\n',
    numbers(count).map((s) => `${iso(s)},45.0000000,${lon(s)},4.00,1${30 + s}\n`),
    '',
  );

const csvMotion = (count: number): SampleLog =>
  textLog(
    'CSV of an accelerometer, as a spreadsheet writes it',
    'csv',
    'acceleration',
    'time_ms;ax_g;ay_g;az_g\r\n',
    numbers(count).map((s) => `${s * 20};0,${100 + s};-0,050;0,998\r\n`),
    '',
  );

const fit = (count: number): SampleLog => {
  const bytes = fitFile(FILE_ID, definition(20, record(0)), ...numbers(count).map((s) => data(record(s))));
  const recordBytes = data(record(0)).length;
  const first = bytes.length - 2 - count * recordBytes;
  return {
    name: 'FIT',
    format: 'fit',
    channel: 'position',
    bytes,
    pointCount: count,
    pointEnds: numbers(count).map((s) => first + (s + 1) * recordBytes),
  };
};

/** One small log of every format, of up to 30 points. */
export const sampleLogs = (count: number): readonly SampleLog[] =>
  [gpx, tcx, nmea, csvTrack, csvMotion, fit].map((make) => make(count));
