import { describe, expect, it } from 'vitest';
import { placeClock } from '../../src/outing/place-clock.js';
import { simulateTwin } from '../simulator/twin.js';

const twin = simulateTwin({
  seed: 4,
  script: [
    ...[120, 200, 90].flatMap((rowS, i) => [{ restS: 30 + 9 * i }, { rowS, rateSpm: 20 + 3 * i }]),
    { restS: 40 },
  ],
  imu: { startS: 12 },
});
const [track, imu] = [twin.track!, twin.imu!];
const codes = (placed: ReturnType<typeof placeClock>) => placed.warnings.map(({ code }) => code);

describe('the clock of a log on that of the track', () => {
  it('is taken from both absolute clocks, and agrees with how both moved', () => {
    const placed = placeClock(track, imu, null);
    expect(placed.clock).toEqual({ offsetS: 12, driftPpm: 0 });
    expect(placed.warnings).toEqual([]);
  });

  it('is said to be off where the movement says so, with what to do', () => {
    const late = { ...imu, startUnixS: imu.startUnixS! + 3 };
    const placed = placeClock(track, late, null);
    expect(placed.clock?.offsetS).toBe(15);
    expect(codes(placed)).toEqual(['clocks-disagree']);
    const asked = /--imu-start (\S+) to/.exec(placed.warnings[0]!.message)![1]!;
    expect(Date.parse(asked) / 1000 - track.startUnixS!).toBeCloseTo(12, 1);
    expect(placeClock(track, late, asked).clock?.offsetS).toBeCloseTo(12, 1);
  });

  it('is found by movement where there is none, and said with its sd and its drift', () => {
    const placed = placeClock(track, { ...imu, startUnixS: null, clock: 'relative' }, null);
    expect(placed.clock?.offsetS).toBeCloseTo(12, 1);
    expect(codes(placed)).toEqual(['clock-aligned']);
    expect(placed.warnings[0]!.message).toMatch(/(±.*ppm|runs true).*lag of the receiver/);
  });

  it('is not known where movement does not tell it either', () => {
    const still = simulateTwin({ seed: 1, script: [{ restS: 300 }], imuClock: false });
    const placed = placeClock(track, still.imu!, null);
    expect(placed.clock).toBeNull();
    expect(codes(placed)).toEqual(['no-common-clock']);
  });
});
