import { describe, expect, it } from 'vitest';
import { makeRecording } from '../../src/recording/index.js';
import { strokesPerCount } from '../../src/strokes/cadence-pairs.js';
import { detectStrokes } from '../../src/strokes/index.js';
import { simulateTwin } from '../simulator/twin.js';

const marksAt = (spm: number, count: number) => Array.from({ length: count }, (_, i) => 10 + (60 * i) / spm);

const cadenceOf = (counts: number) =>
  makeRecording({
    provenance: { file: 'kayak.csv', format: 'csv', device: null, sport: null },
    originUnixS: null,
    channels: {
      cadence: {
        atS: Float64Array.from({ length: 200 }, (_, i) => i),
        columns: [new Float64Array(200).fill(counts)],
      },
    },
  });

describe('strokesPerCount', () => {
  it.each([
    [80, 1],
    [40, 2],
    [60, null],
  ])('80 strokes a minute beside a cadence of %i: %s', (counts, strokes) => {
    const { cadence } = cadenceOf(counts).channels;
    expect(strokesPerCount(cadence!, marksAt(80, 60))).toBe(strokes);
  });

  it('says nothing of few strokes', () => {
    expect(strokesPerCount(cadenceOf(40).channels.cadence!, marksAt(80, 10))).toBe(null);
  });
});

describe('a cadence beside an accelerometer that ends early', () => {
  const { imu, truth } = simulateTwin({
    seed: 3,
    craft: 'K1',
    script: [{ restS: 10 }, { rowS: 120, rateSpm: 80 }, { restS: 10 }],
    receiver: null,
    imu: { rateHz: 50 },
  });
  const half = imu!.channels.acceleration!;
  const until = half.atS.findIndex((at) => at > 70);
  const paired = makeRecording({
    provenance: imu!.provenance,
    originUnixS: null,
    channels: {
      acceleration: {
        atS: half.atS.slice(0, until),
        columns: half.columns.map((column) => column.slice(0, until)),
      },
      cadence: {
        atS: Float64Array.from({ length: 140 }, (_, i) => i),
        columns: [Float64Array.from({ length: 140 }, (_, i) => (i > 10 && i < 130 ? 40 : 0))],
      },
    },
  });

  it('is taken twice where it counts every second stroke', () => {
    const { strokes, warnings } = detectStrokes(paired, null, { craft: 'K1', placement: 'hull', boat: null });
    expect(warnings.map(({ code }) => code)).toContain('cadence-counts-pairs');
    expect(Math.abs(strokes.length - truth.catchMarksS.length)).toBeLessThanOrEqual(3);
  });

  it('is said to be unknown where nothing tells', () => {
    const { warnings } = detectStrokes(cadenceOf(40), null, { craft: 'K1', placement: null, boat: null });
    expect(warnings.map(({ code }) => code)).toContain('cadence-pairs-unknown');
  });
});
