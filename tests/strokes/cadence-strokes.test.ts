import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeRecording } from '../../src/recording/index.js';
import { cadenceStrokes } from '../../src/strokes/cadence-strokes.js';

/** A watch at 1 Hz that shows the mean of the last three strokes that are over, and 0 when 5 s have gone by. */
const watched = (catchesS: readonly number[], endS: number) => {
  const columns = Float64Array.from({ length: endS + 1 }, (_, atS) => {
    const last = catchesS.findLastIndex((catchS) => catchS <= atS);
    if (last < 1 || atS - catchesS[last]! > 5) return 0;
    const first = Math.max(0, last - 3);
    const unbroken = catchesS
      .slice(first, last + 1)
      .every((catchS, i, all) => i === 0 || catchS - all[i - 1]! < 6);
    const from = unbroken
      ? first
      : catchesS.findLastIndex((catchS, i) => i > 0 && catchS - catchesS[i - 1]! > 6);
    return last === from ? 0 : Math.round((60 * (last - from)) / (catchesS[last]! - catchesS[from]!));
  });
  return makeRecording({
    provenance: { file: 'watch.csv', format: 'csv', device: null, sport: null },
    originUnixS: null,
    channels: { cadence: { atS: columns.map((_, i) => i), columns: [columns] } },
  }).channels.cadence!;
};

const every = (fromS: number, toS: number, rateSpm: number): number[] =>
  Array.from({ length: Math.floor(((toS - fromS) * rateSpm) / 60) }, (_, i) => fromS + (i * 60) / rateSpm);

const rateAt = (marksS: readonly number[], atS: number): number => {
  const i = marksS.findIndex((mark) => mark > atS);
  return 60 / (marksS[i]! - marksS[i - 1]!);
};

const readings = (stepS: number, count: number) =>
  makeRecording({
    provenance: { file: 'watch.csv', format: 'csv', device: null, sport: null },
    originUnixS: null,
    channels: {
      cadence: {
        atS: Float64Array.from({ length: count }, (_, i) => i * stepS),
        columns: [new Float64Array(count).fill(30)],
      },
    },
  }).channels.cadence!;

describe('strokes counted out of a cadence', () => {
  it('are counted between readings of every minute, and not between those of every quarter of an hour or of days', () => {
    expect(cadenceStrokes(readings(60, 11), 1).length).toBeGreaterThan(295);
    expect(cadenceStrokes(readings(900, 11), 1)).toEqual([]);
    expect(cadenceStrokes(readings(300_000, 90), 1)).toEqual([]);
  });

  it('change their rate when the crew did, not when the mean of past strokes shows it', () => {
    const marksS = cadenceStrokes(watched([...every(10, 130, 20), ...every(130, 250, 30)], 260), 1);
    const changeS = marksS.find((mark, i) => i > 5 && mark < 240 && 60 / (marksS[i + 1]! - mark) >= 25)!;
    // A stroke at 20 spm lasts 3 s and a reading 1 s; the reading itself lags by two strokes.
    expect(Math.abs(changeS - 130)).toBeLessThan(4);
    expect(rateAt(marksS, 100)).toBeCloseTo(20, 6);
    expect(rateAt(marksS, 200)).toBeCloseTo(30, 6);
  });

  it('begin with the stroke that the first reading tells of', () => {
    const marksS = cadenceStrokes(watched(every(10, 100, 24), 120), 1);
    expect(Math.abs(marksS[0]! - 10)).toBeLessThan(1.5);
  });

  it('do not reach over a stop', () => {
    const marksS = cadenceStrokes(watched([...every(10, 60, 30), ...every(100, 160, 20)], 180), 1);
    expect(marksS.filter((mark) => mark > 66 && mark < 99)).toEqual([]);
    expect(rateAt(marksS, 50)).toBeCloseTo(30, 6);
    expect(rateAt(marksS, 140)).toBeCloseTo(20, 6);
  });

  it('are rising moments, whatever the readings', () => {
    const reading = fc.oneof(
      fc.double({ min: 0, max: 250, noNaN: true }),
      fc.constantFrom(0, 1e-320, 4, 6, 250),
    );
    fc.assert(
      fc.property(fc.array(reading, { minLength: 1, maxLength: 60 }), (readings) => {
        const cadence = makeRecording({
          provenance: { file: 'watch.csv', format: 'csv', device: null, sport: null },
          originUnixS: null,
          channels: {
            cadence: {
              atS: Float64Array.from(readings.keys()),
              columns: [Float64Array.from(readings)],
            },
          },
        }).channels.cadence!;
        const marksS = cadenceStrokes(cadence, 1);
        for (const [i, mark] of marksS.entries())
          expect(mark - (marksS[i - 1] ?? Number.NEGATIVE_INFINITY)).toBeGreaterThan(0);
        expect(marksS.length).toBeLessThanOrEqual((readings.length * 250) / 60 + 1);
      }),
      { numRuns: 1000 },
    );
  });
});
