import { readFileSync } from 'node:fs';
import FitParser from 'fit-file-parser';
import { csvColumns } from '../../src/formats/csv/csv-columns.js';
import { csvLayout } from '../../src/formats/csv/csv-layout.js';
import { csvByteSource } from '../../src/formats/csv/csv-scan.js';
import { csvTextSource } from '../../src/formats/csv/csv-source.js';
import { gpxParsed } from '../../src/formats/gpx/gpx-parsed.js';
import { gpxScanned } from '../../src/formats/gpx/gpx-scanned.js';
import { isFault, readLog } from '../../src/formats/index.js';
import { logHead, logText } from '../../src/formats/log-text.js';
import { READ_BOUNDS } from '../../src/formats/log-too-large.js';
import { smoothTrack } from '../../src/motion/index.js';
import type { Recording } from '../../src/recording/index.js';
import { detectStrokes } from '../../src/strokes/index.js';

const csvNumbers = (bytes: Uint8Array, scan: boolean): number => {
  const layout = csvLayout(logHead(bytes, 65536), new Set());
  const { times, channels } = csvColumns(layout.header, {});
  const columns = {
    numbers: Object.values(channels).flatMap((list) => list.map(({ index }) => index)),
    times: times.map(({ index }) => index),
  };
  const source = scan
    ? csvByteSource(bytes, layout, columns)
    : csvTextSource(logText(bytes, READ_BOUNDS.csvBytes), layout);
  if (source === null) throw new Error('the scanner declined the bench file');
  return [...columns.times, ...columns.numbers].reduce(
    (sum, column) => sum + source.numbers(column).length,
    0,
  );
};

const recordingOf = (path: string): Recording => {
  const answer = readLog(readFileSync(path), path);
  if (isFault(answer)) throw new Error(answer.message);
  return answer;
};

/** Find the strokes of a motion log that has its track beside it, both read and smoothed already. */
const strokeSearch = (path: string): (() => number) => {
  const motion = recordingOf(path);
  const { track } = smoothTrack(recordingOf(path.replace(/[.]imu[.]csv$/, '.gpx')), { boat: null });
  return () => detectStrokes(motion, track, { craft: '4x', placement: 'hull', boat: null }).strokes.length;
};

/** What is done with a file's bytes; each gives a count, so that nothing is optimised away. */
const BYTE_JOBS: Readonly<Record<string, (bytes: Uint8Array) => number>> = {
  bytes: (bytes) => {
    let sum = 0;
    for (let i = 0; i < bytes.length; i++) sum = (sum + bytes[i]!) & 0xffff;
    return sum;
  },
  read: (bytes) => {
    const answer = readLog(bytes, 'bench');
    if (isFault(answer)) throw new Error(answer.message);
    return Object.keys(answer.channels).length;
  },
  'gpx-scan': (bytes) => {
    const points = gpxScanned(bytes);
    if (points === null) throw new Error('the scanner declined the bench file');
    return points.table.atS.length;
  },
  'gpx-library': (bytes) => {
    const answer = gpxParsed(bytes, 'bench');
    if ('fault' in answer) throw new Error(answer.message);
    return answer.points.table.atS.length;
  },
  'csv-scan': (bytes) => csvNumbers(bytes, true),
  'csv-library': (bytes) => csvNumbers(bytes, false),
  'fit-library': (bytes) => {
    let count = 0;
    const parser = new FitParser({ mode: 'list' });
    parser.parse(Buffer.from(bytes), (_, parsed) => {
      count = parsed?.records?.length ?? 0;
    });
    return count;
  },
};

const made = (name: string, path: string): (() => number) => {
  if (name === 'strokes') return strokeSearch(path);
  const bytes = readFileSync(path);
  return () => BYTE_JOBS[name]!(bytes);
};

/** Milliseconds that a job takes on a file the first time in its process; what it needs beforehand aside. */
export const benchJob = (name: string, path: string): number => {
  const job = made(name, path);
  const from = process.hrtime.bigint();
  job();
  return Number(process.hrtime.bigint() - from) / 1e6;
};
