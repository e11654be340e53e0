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

/** What a child process does with a file's bytes; each gives a count, so that nothing is optimised away. */
export const BENCH_JOBS: Readonly<Record<string, (bytes: Uint8Array) => number>> = {
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

/** Milliseconds that a job takes on a file the first time in its process, reading aside. */
export const benchJob = (name: string, path: string): number => {
  const bytes = readFileSync(path);
  const from = process.hrtime.bigint();
  BENCH_JOBS[name]!(bytes);
  return Number(process.hrtime.bigint() - from) / 1e6;
};
