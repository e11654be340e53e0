import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { isFault, readLog } from '../../src/formats/index.js';
import type { ChannelName, Recording } from '../../src/recording/index.js';

/** Logs that others recorded; they are no part of the project. */
const FOLDER = process.env.THOLE_LOGS ?? '../shared/logs';
const present = existsSync(FOLDER);
if (!present) console.warn(`no real logs at ${FOLDER} (set THOLE_LOGS): the tests over them are skipped`);

const bytesOf = (name: string): Uint8Array => readFileSync(join(FOLDER, name));
const read = (name: string): Recording => {
  const answer = readLog(bytesOf(name), name);
  if (isFault(answer)) throw new Error(`${answer.code}: ${answer.message}`);
  return answer;
};
const rowsOf = (name: string): string[][] =>
  new TextDecoder()
    .decode(bytesOf(name))
    .trim()
    .split(/\r?\n/)
    .slice(1)
    .map((line) => line.split(','));

/** Samples of a channel as `time: value`, the time being Unix or log seconds plus `shiftS`. */
const samples = (recording: Recording, name: ChannelName, shiftS: number, column = 0): [number, number][] => {
  const channel = recording.channels[name]!;
  return [...channel.atS].map((at, i) => [at + shiftS, channel.columns[column]![i]!]);
};
const expected = (
  rows: readonly (readonly string[])[],
  column: number,
  timeOf: (row: readonly string[]) => number,
  numberOf: (text: string) => number = Number,
): [number, number][] =>
  rows.filter((row) => row[column] !== 'null').map((row) => [timeOf(row), numberOf(row[column]!)]);

describe.skipIf(!present)('logs that others recorded', () => {
  it('matches the expected table of a FIT log with compressed timestamps to the field', () => {
    const recording = read('fit-compressed-timestamps.fit');
    const rows = rowsOf('fit-compressed-timestamps.expected.csv');
    expect(rows).toHaveLength(754);
    const first = Number(rows[0]![0]);
    const timeOf = (row: readonly string[]): number => Number(row[0]);
    expect(samples(recording, 'heart_rate', first)).toEqual(expected(rows, 1, timeOf));
    expect(samples(recording, 'speed', first)).toEqual(expected(rows, 2, timeOf));
    expect(samples(recording, 'distance', first)).toEqual(expected(rows, 3, timeOf));
    expect(samples(recording, 'cadence', first)).toEqual(expected(rows, 4, timeOf));
  });

  it('matches the expected table of a FIT log of a walk to the field', () => {
    const recording = read('fit-watch-walk.fit');
    const rows = rowsOf('fit-watch-walk.expected.csv');
    expect(rows).toHaveLength(17);
    const timeOf = (row: readonly string[]): number => Date.parse(row[0]!.replace('PDT', 'GMT-0700')) / 1000;
    const start = recording.startUnixS!;
    const semicircles = (text: string): number => (Number(text) * 180) / 2 ** 31;
    expect(samples(recording, 'heart_rate', start)).toEqual(expected(rows, 1, timeOf));
    // The table has whole turns; the file keeps their fraction in a field of its own, which we add.
    const whole = samples(recording, 'cadence', start).map(([at, value]) => [at, Math.floor(value)]);
    expect(whole).toEqual(expected(rows, 2, timeOf));
    expect(samples(recording, 'speed', start)).toEqual(expected(rows, 3, timeOf));
    expect(samples(recording, 'distance', start)).toEqual(expected(rows, 4, timeOf));
    expect(samples(recording, 'position', start, 0)).toEqual(expected(rows, 5, timeOf, semicircles));
    expect(samples(recording, 'position', start, 1)).toEqual(expected(rows, 6, timeOf, semicircles));
    expect(samples(recording, 'elevation', start)).toEqual(expected(rows, 7, timeOf));
  });
});
