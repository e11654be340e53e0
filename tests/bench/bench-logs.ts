import { linkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { scenario } from '../../src/contract/scenario.js';
import { isFault, readLog } from '../../src/formats/index.js';
import type { Recording } from '../../src/recording/index.js';
import { simulatedFiles } from '../../src/simulate/index.js';
import { isoTime } from '../../src/units/instant.js';
import { data, definition, FILE_ID, fitFile, record } from '../formats/fit/fit-bytes.js';

const SETS = 20;

/** Ninety minutes of a quad, or a tenth of it: 10 Hz track, 100 Hz motion sensor with rates of rotation. */
const rowing = (name: string, sets: number, seed: number): unknown => ({
  schema: 'thole/scenario/1',
  name,
  craft: '4x',
  crew: { name: 'Halvorn Mere senior quad' },
  seed,
  start_time: '2026-05-02T06:32:10Z',
  origin: { lat_deg: 31.5, lon_deg: -37.25 },
  path: { kind: 'out_and_back', heading_deg: 62, leg_m: 1900 },
  script: [
    { do: 'rest', time_s: 22 },
    {
      do: 'repeat',
      times: sets,
      script: [
        { do: 'row', rate_spm: 20, time_s: 100, strength: 0.8 },
        { do: 'row', rate_spm: 28, time_s: 120 },
        { do: 'rest', time_s: 48 },
      ],
    },
    { do: 'rest', time_s: 18 },
  ],
  sensors: {
    gnss: { hz: 10, position_sd_m: 1.8, correlation_s: 60, white_sd_m: 0.15, speed: true },
    imu: {
      hz: 100,
      noise_mps2: 0.08,
      rotation: true,
      mount: { yaw_deg: 90, pitch_deg: 3, roll_deg: -2 },
      clock: 'utc',
      placement: 'hull',
    },
  },
});

const recordingOf = (text: string, file: string): Recording => {
  const answer = readLog(new TextEncoder().encode(text), file);
  if (isFault(answer)) throw new Error(answer.message);
  return answer;
};

/** A GPX of the same points as a watch writes it: indented, with many digits and a heart rate. */
const prettyGpx = (track: Recording): string => {
  const { position, speed } = track.channels;
  const speedMps = speed === undefined ? null : speed.columns[0]!;
  const [lat, lon] = position!.columns as [Float64Array, Float64Array];
  const points = Array.from(
    position!.atS,
    (atS, i) =>
      `      <trkpt lat="${lat[i]!.toFixed(12)}" lon="${lon[i]!.toFixed(12)}">\n        <ele>${(410 + (i % 7) / 7).toFixed(6)}</ele>\n        <time>${isoTime(track.startUnixS! + atS)}</time>\n        <extensions>\n          <e:TrackPointExtension>\n            <e:hr>${140 + (i % 20)}</e:hr>\n            <e:cad>28</e:cad>\n            <e:speed>${(speedMps === null ? 4 : speedMps[i]!).toFixed(4)}</e:speed>\n          </e:TrackPointExtension>\n        </extensions>\n      </trkpt>\n`,
  );
  return `<?xml version="1.0" encoding="UTF-8"?>\n<gpx version="1.1" creator="bench" xmlns="http://www.topografix.com/GPX/1/1" xmlns:e="urn:thole:bench">\n  <trk>\n    <name>Bench</name>\n    <trkseg>\n${points.join('')}    </trkseg>\n  </trk>\n</gpx>\n`;
};

const FIT_RECORDS = 54_000;

/** The logs of the bench, by their names in its folder. */
export interface BenchLogs {
  readonly gpx: string;
  readonly csv: string;
  readonly fit: string;
  /** A track with its motion log beside it, 90 min and 9 min. */
  readonly long: string;
  readonly short: string;
  /** Eight outings of 9 min, and eight of 90 min: the one log under eight names. */
  readonly batch: readonly string[];
  readonly longBatch: readonly string[];
  /** Entry lists of crews that rowed those outings, and one of a tenth of them; and the course, as two points. */
  readonly regatta: string;
  readonly fewCrews: string;
  readonly straight: string;
}

/** Crews of the larger entry list. */
export const REGATTA_CREWS = 200;

/** Write the logs into a folder: the same bytes every time. */
export const makeBenchLogs = (folder: string): BenchLogs => {
  const write = (name: string, content: string | Uint8Array): string => {
    const path = join(folder, name);
    writeFileSync(path, content);
    return path;
  };
  const outing = (name: string, sets: number, seed: number) => {
    const files = simulatedFiles(scenario.parse(rowing(name, sets, seed)));
    const [gpx, csv] = ['.gpx', '.imu.csv'].map((end) => files.find((file) => file.name.endsWith(end))!);
    write(gpx!.name, gpx!.text);
    write(csv!.name, csv!.text);
    return { path: join(folder, gpx!.name), gpx: gpx!.text, csv: csv!.text };
  };
  const long = outing('long', SETS, 1);
  const short = outing('short', SETS / 10, 2);
  const batch = Array.from({ length: 8 }, (_, i) => outing(`batch${i}`, SETS / 10, 10 + i).path);
  const linked = (from: string, name: string): string => {
    for (const end of ['.gpx', '.imu.csv'])
      linkSync(from.replace(/[.]gpx$/, end), join(folder, `${name}${end}`));
    return join(folder, `${name}.gpx`);
  };
  const longBatch = batch.map((_, i) => linked(long.path, `long${i}`));
  const entries = (name: string, count: number): string =>
    write(
      name,
      [
        'event,crew,craft,track',
        ...Array.from({ length: count }, (_, i) => `Quads,Crew ${i + 1},4x,crew${i}.gpx`),
      ]
        .map((line) => `${line}\n`)
        .join(''),
    );
  for (let i = 0; i < REGATTA_CREWS; i++) linked(batch[i % batch.length]!, `crew${i}`);
  const records = Array.from({ length: FIT_RECORDS }, (_, i) => data(record(i)));
  return {
    gpx: write('track.gpx', prettyGpx(recordingOf(long.gpx, 'long.gpx'))),
    csv: write('motion.csv', long.csv),
    fit: write('track.fit', fitFile(FILE_ID, definition(20, record(0)), ...records)),
    long: long.path,
    short: short.path,
    batch,
    longBatch,
    regatta: entries('crews.csv', REGATTA_CREWS),
    fewCrews: entries('few-crews.csv', REGATTA_CREWS / 10),
    straight: '31.502,-37.245:31.506,-37.237',
  };
};
