import { describe, expect, it } from 'vitest';
import { simulate } from '../../src/simulate/index.js';
import { detectStrokes, scoreStrokes } from '../../src/strokes/index.js';

/** A log that is nearly all race: hardly any rest to learn noise from, and three rates in a row. */
const race = (craft: '4-' | '8+', hz: number) =>
  simulate({
    craft,
    seed: 3,
    script: [
      { do: 'rest', time_s: 20 },
      { do: 'row', rate_spm: 20, time_s: 45 },
      { do: 'rest', time_s: 40 },
      { do: 'start', rate_spm: 35, high_spm: 43, high_strokes: 16, distance_m: 1600 },
      { do: 'row', rate_spm: 36, to_rate_spm: 40, distance_m: 400 },
      { do: 'rest', time_s: 30 },
    ],
    path: { kind: 'straight', heading_deg: 40 },
    sensors: { imu: { hz, noise_mps2: 0.06 } },
  });

describe('strokes of a race', () => {
  it.each([
    ['4-', 40],
    ['4-', 100],
    ['8+', 40],
    ['8+', 100],
  ] as const)('%s at %d Hz', (craft, hz) => {
    const { imu, truth } = race(craft, hz);
    const { strokes } = detectStrokes(imu!, null, { craft, placement: 'hull', boat: null });
    const { f1 } = scoreStrokes(
      strokes.map(({ atS }) => atS),
      truth.catchMarksS,
    );
    expect(f1).toBeGreaterThan(0.998);
  });
});
