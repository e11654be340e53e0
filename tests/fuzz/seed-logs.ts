import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { nmeaChecksum } from '../../src/formats/nmea/nmea-sentence.js';
import {
  data,
  definition,
  FILE_ID,
  type Field,
  fitFile,
  message,
  semicircles,
  TYPE,
} from '../formats/fit/fit-bytes.js';

/** A sound log that a fuzzer damages. */
export interface SeedLog {
  /** What it is, and the ending of its name. */
  readonly name: string;
  readonly ending: string;
  readonly bytes: Uint8Array;
}

/** One fix of the sample, as a watch logs it. */
interface Fix {
  readonly unixS: number;
  readonly lat: number;
  readonly lon: number;
  readonly cadence: number;
  readonly heartRate: number;
}

/** Fixes of the sample that are taken: the end of a piece, a rest and the begin of the next one. */
export const FIX_COUNT = 140;
const FIRST_FIX = 500;
/** Rows of the accelerometer's log: so many at 40 Hz are some strokes. */
const [FIRST_FORCE, FORCE_COUNT] = [9000, 400];

const POINT = /<trkpt lat="([^"]+)" lon="([^"]+)"><time>([^<]+)<\/time>.*?cadence>(\d+)<.*?heart_rate>(\d+)</;

const samples = (path: string): string => readFileSync(join('samples', path), 'utf8');

const fixes: readonly Fix[] = samples('watch/watch.gpx')
  .split('\n')
  .flatMap((line) => {
    const found = POINT.exec(line);
    if (found === null) return [];
    const [, lat, lon, time, cadence, heartRate] = found;
    return [
      {
        unixS: Date.parse(time!) / 1000,
        lat: Number(lat),
        lon: Number(lon),
        cadence: Number(cadence),
        heartRate: Number(heartRate),
      },
    ];
  })
  .slice(FIRST_FIX, FIRST_FIX + FIX_COUNT);

const iso = (unixS: number): string => new Date(unixS * 1000).toISOString();
const encoder = new TextEncoder();
const text = (name: string, ending: string, content: string): SeedLog => ({
  name,
  ending,
  bytes: encoder.encode(content),
});

const gpx = text(
  'gpx',
  'gpx',
  `<?xml version="1.0" encoding="UTF-8"?>\n<gpx version="1.1" creator="a &amp; b" xmlns="http://www.topografix.com/GPX/1/1" xmlns:e="urn:e"><trk><type>rowing</type><trkseg>\n${fixes
    .map(
      ({ unixS, lat, lon, cadence, heartRate }) =>
        `<trkpt lat="${lat}" lon="${lon}"><ele>12.5</ele><time>${iso(unixS)}</time><extensions><e:speed>4.1</e:speed><e:cadence>${cadence}</e:cadence><e:hr>${heartRate}</e:hr></extensions></trkpt>\n`,
    )
    .join('')}</trkseg></trk></gpx>\n`,
);

const tcx = text(
  'tcx',
  'tcx',
  `<?xml version="1.0"?>\n<TrainingCenterDatabase><Activities><Activity Sport="Other"><Lap StartTime="${iso(fixes[0]!.unixS)}"><TotalTimeSeconds>100</TotalTimeSeconds><Track>\n${fixes
    .map(
      ({ unixS, lat, lon, cadence, heartRate }, i) =>
        `<Trackpoint><Time>${iso(unixS)}</Time><Position><LatitudeDegrees>${lat}</LatitudeDegrees><LongitudeDegrees>${lon}</LongitudeDegrees></Position><AltitudeMeters>12.5</AltitudeMeters><DistanceMeters>${i * 4}</DistanceMeters><HeartRateBpm><Value>${heartRate}</Value></HeartRateBpm><Cadence>${cadence}</Cadence></Trackpoint>\n`,
    )
    .join('')}</Track></Lap></Activity></Activities></TrainingCenterDatabase>\n`,
);

const sentence = (body: string): string =>
  `$${body}*${nmeaChecksum(encoder.encode(body), 0, body.length).toString(16).toUpperCase().padStart(2, '0')}\r\n`;

const minutes = (deg: number, digits: number): string => {
  const size = Math.abs(deg);
  return `${String(Math.floor(size)).padStart(digits, '0')}${((size % 1) * 60).toFixed(4).padStart(7, '0')}`;
};

/** Without checksums, so that a number that was changed is believed. */
const nmea = text(
  'nmea',
  'nmea',
  fixes
    .map(({ unixS, lat, lon }) => {
      const clock = iso(unixS).slice(11, 22).replaceAll(':', '');
      const place = `${minutes(lat, 2)},${lat < 0 ? 'S' : 'N'},${minutes(lon, 3)},${lon < 0 ? 'W' : 'E'}`;
      return `$GPRMC,${clock},A,${place},8.0,090.0,050526,,,A\r\n$GPGGA,${clock},${place},1,08,0.9,12.5,M,46.9,M,,\r\n`;
    })
    .join(''),
);

const nmeaChecked = text(
  'nmea with checksums',
  'nmea',
  fixes
    .map(({ unixS, lat, lon }) =>
      sentence(
        `GPRMC,${iso(unixS).slice(11, 22).replaceAll(':', '')},A,${minutes(lat, 2)},N,${minutes(lon, 3)},W,8.0,090.0,050526,,,A`,
      ),
    )
    .join(''),
);

const track = text(
  'csv track',
  'csv',
  `time,lat_deg,lon_deg,ele_m,speed_mps,distance_m,cadence_spm,heart_rate_bpm\n${fixes
    .map(
      ({ unixS, lat, lon, cadence, heartRate }, i) =>
        `${iso(unixS)},${lat},${lon},12.5,4.1,${i * 4},${cadence},${heartRate}\n`,
    )
    .join('')}`,
);

const counted = text(
  'csv track with a clock of its own',
  'csv',
  `time_s;speed_kmh;cadence_spm\r\n${fixes.map(({ cadence }, i) => `${i};14,8;${cadence}\r\n`).join('')}`,
);

const forces = samples('outing/outing.imu.csv')
  .split('\n')
  .slice(FIRST_FORCE, FIRST_FORCE + FORCE_COUNT);

const motion = text(
  'csv of an accelerometer',
  'csv',
  `time_s,ax_mps2,ay_mps2,az_mps2,gx_dps,gy_dps,gz_dps\n${forces.map((line) => `${line},1.5,-0.2,0.1\n`).join('')}`,
);

const both = text(
  'csv of track and accelerometer',
  'csv',
  `time_s,ax_g,ay_g,az_g,lat_deg,lon_deg\n${forces
    .map((line, i) => {
      const [at, ...force] = line.split(',').map(Number);
      const fix = i % 40 === 0 ? fixes[i / 40] : undefined;
      return `${at},${force.map((mps2) => (mps2 / 9.80665).toFixed(4)).join(',')},${fix?.lat ?? ''},${fix?.lon ?? ''}\n`;
    })
    .join('')}`,
);

const FIT_EPOCH_S = 631_065_600;
const record = ({ unixS, lat, lon, cadence, heartRate }: Fix, i: number): Field[] => [
  [253, TYPE.uint32, unixS - FIT_EPOCH_S],
  [0, TYPE.sint32, semicircles(lat)],
  [1, TYPE.sint32, semicircles(lon)],
  [3, TYPE.uint8, heartRate],
  [4, TYPE.uint8, cadence],
  [5, TYPE.uint32, i * 400],
  [6, TYPE.uint16, 4100],
  [78, TYPE.uint32, 2560],
];

const fit: SeedLog = {
  name: 'fit',
  ending: 'fit',
  bytes: fitFile(
    FILE_ID,
    message(21, [
      [253, TYPE.uint32, fixes[0]!.unixS - FIT_EPOCH_S],
      [0, TYPE.enum, 0],
      [1, TYPE.enum, 0],
    ]),
    definition(20, record(fixes[0]!, 0)),
    ...fixes.map((fix, i) => data(record(fix, i))),
    message(19, [
      [253, TYPE.uint32, fixes.at(-1)!.unixS - FIT_EPOCH_S],
      [2, TYPE.uint32, fixes[0]!.unixS - FIT_EPOCH_S],
      [7, TYPE.uint32, FIX_COUNT * 1000],
    ]),
  ),
};

/** A sound log of every format, made of the samples. */
export const SEED_LOGS: readonly SeedLog[] = [gpx, tcx, nmea, nmeaChecked, track, counted, motion, both, fit];

/** The log that stands in a batch beside each damaged one. */
export const NEIGHBOUR: SeedLog = track;
