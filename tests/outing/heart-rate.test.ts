import { describe, expect, it } from 'vitest';
import { heartRateWithin } from '../../src/outing/heart-rate.js';
import { outingOf } from './made-up.js';

const recordingOf = (atS: number[], bpm: number[]) =>
  outingOf(null, null, {
    channels: {
      heart_rate: { atS: Float64Array.from(atS), columns: [Float64Array.from(bpm)] },
      elevation: { atS: Float64Array.of(0, 1000), columns: [Float64Array.of(0, 0)] },
    },
  }).recording;

describe('heart rate within a stretch', () => {
  it('is weighted by time, each reading until the next', () => {
    const recording = recordingOf([0, 1, 2, 6], [100, 120, 140, 160]);
    expect(heartRateWithin(recording, [{ fromS: 1, toS: 6 }])).toEqual({
      meanBpm: (120 + 4 * 140) / 5,
      maxBpm: 140,
    });
  });

  it('does not stretch a last reading over a silence', () => {
    const recording = recordingOf([0, 200], [100, 180]);
    expect(heartRateWithin(recording, [{ fromS: 0, toS: 205 }])?.meanBpm).toBeCloseTo((1000 + 900) / 15, 9);
    expect(heartRateWithin(recording, [{ fromS: 50, toS: 150 }])).toBeNull();
  });

  it('is not known without a heart rate channel', () => {
    expect(heartRateWithin(outingOf(null, null).recording, [{ fromS: 0, toS: 9 }])).toBeNull();
  });
});
