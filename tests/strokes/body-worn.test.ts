import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { makeRecording, type Recording } from '../../src/recording/index.js';
import { detectStrokes } from '../../src/strokes/index.js';

const FOLDER = process.env.THOLE_LOGS ?? '../shared/logs';

const read = (name: string, head: number, tick: number): Recording => {
  const rows = readFileSync(`${FOLDER}/${name}`, 'utf8')
    .trim()
    .split('\n')
    .slice(head)
    .map((line) => line.split(',').map(Number));
  const column = (k: number) => Float64Array.from(rows, (row) => row[k]!);
  return makeRecording({
    provenance: { file: name, format: 'csv', device: null, sport: null },
    originUnixS: null,
    channels: { acceleration: { atS: column(0).map((at) => at * tick), columns: [1, 2, 3].map(column) } },
  });
};

/** Skipped, with this name, where the folder of logs that others recorded is absent. */
describe.skipIf(!existsSync(FOLDER))('sensors on a body, logs by others in shared/logs', () => {
  const options = { craft: '1x', placement: 'body', boat: null } as const;

  it.each([
    // counts and rates by ten body sensors counted independently (the folder's README)
    ['imu-rowing-ergometer-torso-p1.csv', 98, 101, 19.6],
    ['imu-rowing-ergometer-leg-p2.csv', 115, 116, 23.25],
  ])('%s: strokes within 2 of %i to %i', (name, least, most, rateSpm) => {
    const { strokes, warnings } = detectStrokes(read(name, 1, 1), null, options);
    expect(strokes.length).toBeGreaterThanOrEqual(least - 2);
    expect(strokes.length).toBeLessThanOrEqual(most + 2);
    const rate = (60 * (strokes.length - 1)) / (strokes[strokes.length - 1]!.atS - strokes[0]!.atS);
    expect(Math.abs(rate - rateSpm)).toBeLessThan(1);
    expect(strokes.every(({ catchDecelerationMps2 }) => catchDecelerationMps2 === null)).toBe(true);
    expect(warnings.find(({ code }) => code === 'placement-not-hull')?.message).toMatch(/body/);
  });

  it('a walk is not rowed: no strokes, or said to be doubtful', () => {
    const series = detectStrokes(read('imu-walk-with-true-steps.csv', 0, 1e-9), null, options);
    const codes = series.warnings.map(({ code }) => code);
    expect(codes.includes('no-strokes') || codes.includes('strokes-doubtful')).toBe(true);
  });
});
