import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import FitParser from 'fit-file-parser';
import { describe, expect, it } from 'vitest';
import { fitCrc } from '../../src/formats/fit/fit-crc.js';
import { isFitHeader } from '../../src/formats/fit/fit-messages.js';
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

  /** The files of a chain, each made whole: its checksum and, where it is cut, its size set right. */
  const chained = (bytes: Uint8Array): Uint8Array[] => {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    const files: Uint8Array[] = [];
    for (let at = 0; at + 12 < bytes.length && isFitHeader(bytes, at); ) {
      const end = at + bytes[at]! + view.getUint32(at + 4, true);
      const body = bytes.slice(at, Math.min(end, bytes.length));
      const whole = new Uint8Array(body.length + 2);
      whole.set(body);
      new DataView(whole.buffer).setUint32(4, body.length - body[0]!, true);
      new DataView(whole.buffer).setUint16(body.length, fitCrc(whole, 0, body.length), true);
      files.push(whole);
      at = end + 2;
    }
    return files;
  };

  it.each([
    ['fit-bad-crc.fit', ['fit-checksum']],
    ['fit-cut-short.fit', ['cut-off']],
    ['fit-second-header-corrupt.fit', ['fit-trailing']],
    ['fit-chained.fit', []],
    ['fit-watch-walk.fit', []],
    ['fit-misaligned-fields.fit', []],
    ['fit-unterminated-strings.fit', ['land-work']],
  ] as const)('finds in %s what an independent parser (fit-file-parser) finds', async (name, said) => {
    const recording = read(name);
    expect(recording.warnings.map(({ code }) => code)).toEqual(said);
    const start = recording.startUnixS!;
    const records = (
      await Promise.all(
        chained(bytesOf(name)).map(async (bytes) => {
          const parser = new FitParser({ speedUnit: 'm/s', lengthUnit: 'm', mode: 'list', force: true });
          return (await parser.parseAsync(Buffer.from(bytes) as never)).records ?? [];
        }),
      )
    ).flat() as unknown as Readonly<Record<string, unknown>>[];
    const seen = (key: string): [number, number][] => {
      const byTime = new Map<number, number>();
      for (const record of records) {
        const [at, value] = [Date.parse(String(record.timestamp)) / 1000, record[key]];
        if (typeof value === 'number' && Number.isFinite(value) && !byTime.has(at)) byTime.set(at, value);
      }
      return [...byTime];
    };
    const rounded = (pairs: readonly [number, number][]) =>
      pairs.map(([at, value]) => [at, Number(value.toFixed(6))]);
    for (const [key, channel, column] of [
      ['position_lat', 'position', 0],
      ['position_long', 'position', 1],
      ['distance', 'distance', 0],
      ['heart_rate', 'heart_rate', 0],
    ] as const) {
      const theirs = seen(key).filter(([, value]) => key !== 'heart_rate' || value > 0);
      const ours = recording.channels[channel] ? samples(recording, channel, start, column) : [];
      expect(rounded(ours), key).toEqual(rounded(theirs));
    }
  });

  /** Times of day of valid RMC and GGA sentences, by a reading of its own: one line, one expression. */
  const epochs = (name: string): Set<string> =>
    new Set(
      [
        ...new TextDecoder('latin1')
          .decode(bytesOf(name))
          .matchAll(/\$..(?:RMC,([\d.]+),A|GGA,([\d.]+),[\d.]+,[NS],[\d.]+,[EW],[1-5]),/g),
      ].map((found) => found[1] ?? found[2]!),
    );

  it.each(['nmea-10hz.nmea', 'nmea-1hz.nmea'])('finds every fix of %s', (name) => {
    const recording = read(name);
    expect(recording.channels.position!.atS).toHaveLength(epochs(name).size);
  });

  it.each([
    ['nmea-tn.nmea', 'nmea-no-fix', /no fix in any of the 38 sentences/],
    ['nmea-moving.nmea', 'unknown-format', /binary/],
    ['nmea-no-fix.nmea', 'unknown-format', /binary/],
    ['geodtest-100.dat', 'unknown-format', /none of the formats/],
    ['README.md', 'no-header', /no line names the columns/],
  ])('says of %s why it cannot be read', (name, code, message) => {
    expect(readLog(bytesOf(name), name)).toMatchObject({
      fault: true,
      file: name,
      code,
      message: expect.stringMatching(message),
    });
  });

  it('reads nothing of any of them that a mutation could turn into a crash', () => {
    for (const name of readdirSync(FOLDER)) {
      const bytes = bytesOf(name).slice(0, 60_000);
      for (let i = 0; i < 12; i++) {
        const mutated = bytes.map((byte, at) =>
          ((at * 2654435761 + i * 40503) >>> 0) % 997 === 0 ? byte ^ (1 << (i % 8)) : byte,
        );
        const answer = readLog(mutated, name);
        expect(isFault(answer) ? answer.file : answer.provenance.file).toBe(name);
      }
    }
  });
});
