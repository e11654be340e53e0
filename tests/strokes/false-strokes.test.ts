import { describe, expect, it } from 'vitest';
import { falseStrokesPerMin } from '../../src/strokes/index.js';
import { simulateTwin } from '../simulator/twin.js';

describe('strokes in what is called rest', () => {
  const { imu } = simulateTwin({
    seed: 3,
    receiver: null,
    script: [{ restS: 60 }, { rowS: 60, rateSpm: 24 }, { restS: 60 }],
    imu: { rateHz: 50, mount: 'random' },
  });
  const channel = imu!.channels.acceleration!;
  const perMin = (fromS: number, toS: number) =>
    falseStrokesPerMin({ channel, rests: [{ fromS, toS }], family: 'rowing' });

  it('are none where nobody rows', () => {
    expect(perMin(2, 55)).toBe(0);
  });

  it('are those of the crew where it rows', () => {
    expect(perMin(62, 118)).toBeGreaterThan(20);
    expect(perMin(62, 118)).toBeLessThan(26);
  });

  it('are unknown of a rest too short to tell', () => {
    expect(perMin(2, 12)).toBeNull();
  });
});
