import { describe, expect, it } from 'vitest';
import { cadenceChange } from '../../src/pieces/cadence-change.js';
import { makeRecording } from '../../src/recording/index.js';
import { logCadence } from '../simulator/watch.js';

/** Catches at 18 up to 100 s, then at 30; the last at 200 s. */
const marks = [
  ...Array.from({ length: 30 }, (_, i) => 100 - (30 - i) * (60 / 18)),
  ...Array.from({ length: 51 }, (_, i) => 100 + i * 2),
];

const logged = (meanOf: number) =>
  makeRecording({
    provenance: { file: 'a.csv', format: 'csv', device: null, sport: null },
    originUnixS: null,
    channels: { cadence: logCadence(marks, 200, { meanOf, forgetS: 4 }) },
  }).channels.cadence!;

describe('a change of rate in a logged cadence', () => {
  it.each([0, 1, 2, 3, 5])(
    'is found within 3 s and two of its sd where a watch shows the mean of %i strokes',
    (meanOf) => {
      const found = cadenceChange(logged(meanOf), 18, 30, 97)!;
      expect(Math.abs(found.atS - 100)).toBeLessThan(Math.min(3, 2 * found.sdS));
    },
  );

  it('is not made up where the rate stays', () => {
    expect(cadenceChange(logged(3), 18, 18.5, 97)).toBeNull();
    expect(cadenceChange(logged(3), 18, 30, 40)).toBeNull();
  });
});
