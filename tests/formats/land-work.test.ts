import { describe, expect, it } from 'vitest';
import { landWork } from '../../src/formats/land-work.js';

const river = [Float64Array.of(45, 45.01), Float64Array.of(10, 10)];
const room = [Float64Array.of(45, 45.0001), Float64Array.of(10, 10.0001)];

describe('landWork', () => {
  it.each([
    [
      'says indoor and has no position',
      { sport: 'indoor rowing', distanceM: null, position: null, channels: ['heart_rate'] },
    ],
    [
      'counts strokes and metres without a position',
      { sport: null, distanceM: 2000, position: null, channels: ['cadence', 'distance'] },
    ],
    [
      'counts 2000 m in one room',
      { sport: 'Other', distanceM: 2000, position: room, channels: ['cadence', 'distance', 'position'] },
    ],
  ] as const)('takes for land work a log that %s', (_, clues) => {
    expect(landWork(clues)).not.toBeNull();
  });

  it.each([
    [
      'moved, whatever it says',
      { sport: 'indoor rowing', distanceM: 2000, position: river, channels: ['cadence', 'position'] },
    ],
    [
      'holds an accelerometer only',
      { sport: null, distanceM: null, position: null, channels: ['acceleration'] },
    ],
    [
      'lay at the pontoon',
      { sport: 'rowing', distanceM: 20, position: room, channels: ['cadence', 'distance', 'position'] },
    ],
    ['holds a heart rate only', { sport: null, distanceM: null, position: null, channels: ['heart_rate'] }],
  ] as const)('does not take for land work a log that %s', (_, clues) => {
    expect(landWork(clues)).toBeNull();
  });
});
