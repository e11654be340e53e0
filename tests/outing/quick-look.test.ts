import { describe, expect, it } from 'vitest';
import { scenario } from '../../src/contract/scenario.js';
import { isFault, readLog } from '../../src/formats/index.js';
import { inspected, inspectResultOf, joinedOuting, wholeOuting } from '../../src/outing/index.js';
import { quickLookAt } from '../../src/outing/quick-look.js';
import type { Recording } from '../../src/recording/index.js';
import { simulatedFiles } from '../../src/simulate/index.js';

/** 25 minutes of a quad at 10 Hz and 50 Hz: its track, and its motion sensor's log. */
const rowed = (() => {
  const files = simulatedFiles(
    scenario.parse({
      schema: 'thole/scenario/1',
      name: 'long',
      craft: '4x',
      crew: { name: 'Halvorn Mere senior quad' },
      seed: 5,
      start_time: '2026-05-02T06:32:10Z',
      origin: { lat_deg: 31.5, lon_deg: -37.25 },
      path: { kind: 'out_and_back', heading_deg: 62, leg_m: 1900 },
      script: [
        { do: 'rest', time_s: 60 },
        {
          do: 'repeat',
          times: 6,
          script: [
            { do: 'row', rate_spm: 20, time_s: 90 },
            { do: 'row', rate_spm: 28, time_s: 90 },
            { do: 'rest', time_s: 60 },
          ],
        },
      ],
      sensors: {
        gnss: { hz: 10, position_sd_m: 1.8, correlation_s: 60, white_sd_m: 0.15, speed: true },
        imu: { hz: 50, noise_mps2: 0.08, mount: { yaw_deg: 90, pitch_deg: 3, roll_deg: -2 }, clock: 'utc' },
      },
    }),
  );
  const recordingOf = (end: string): Recording => {
    const file = files.find(({ name }) => name.endsWith(end))!;
    const read = readLog(new TextEncoder().encode(file.text), file.name);
    if (isFault(read)) throw new Error(read.message);
    return read;
  };
  return { track: recordingOf('.gpx'), imu: recordingOf('.imu.csv') };
})();

const answersOf = (result: ReturnType<typeof inspected>): unknown => {
  const { verdict, noise: _, ...rest } = result.recordings[0]!;
  return { ...rest, verdict: verdict.map(({ can, yes }) => [can, yes]) };
};

describe('a glance at a long log', () => {
  it.each([
    ['the track', [rowed.track]],
    ['the motion sensor', [rowed.imu]],
    ['both', [rowed.track, rowed.imu]],
  ])('says of %s what a look at all of it says', (_, logs) => {
    const joined = joinedOuting(logs, { craft: '4x' });
    expect(quickLookAt(joined)).not.toBeNull();
    const [quick, whole] = [inspected(joined), inspectResultOf(wholeOuting(joined))];
    expect(answersOf(quick)).toEqual(answersOf(whole));
    const noises = [quick, whole].map(({ recordings }) => recordings[0]!.noise);
    expect(noises[0]!.acceleration_mps2).toBe(noises[1]!.acceleration_mps2);
    if (noises[1]!.position_m === null) expect(noises[0]!.position_m).toBeNull();
    else expect(Math.abs(noises[0]!.position_m! / noises[1]!.position_m - 1)).toBeLessThan(0.1);
  });

  it('tells how good splits are as a look at all of it does, to a tenth', () => {
    const joined = joinedOuting([rowed.track], { craft: '4x' });
    const [quick, whole] = [inspected(joined), inspectResultOf(wholeOuting(joined))].map((result) => {
      const split = result.recordings[0]!.verdict.find(({ can }) => can === 'splits to a second')!;
      return Number(/good to about ([\d.]+) s over 500 m/.exec(split.why)![1]);
    });
    // Told to a hundredth.
    expect(Math.abs(quick! - whole!)).toBeLessThan(0.1 * whole! + 0.005);
  });

  it('tells how much was looked at, and rates that were rowed', () => {
    const [strokes] = inspected(joinedOuting([rowed.track], { craft: '4x' })).recordings[0]!.verdict;
    const [, low, high] = /rhythm of (\d+)(?: to (\d+))? a minute .* in [23] of 3 looks of 30 s/.exec(
      strokes!.why,
    )!;
    for (const rate of [Number(low), Number(high ?? low)]) {
      expect(rate).toBeGreaterThanOrEqual(19);
      expect(rate).toBeLessThanOrEqual(29);
    }
  });

  it('looks at all of a log with a fix that no boat can have come from', () => {
    const position = rowed.track.channels.position!;
    const lat = position.columns[0]!.slice();
    lat[7000]! += 0.001;
    const track = {
      ...rowed.track,
      channels: { ...rowed.track.channels, position: { ...position, columns: [lat, position.columns[1]!] } },
    };
    const joined = joinedOuting([track], { craft: '4x' });
    expect(quickLookAt(joined)).toBeNull();
    expect(inspected(joined).warnings.map(({ code }) => code)).toContain('position-outliers');
  });

  it('looks at all of a log in which nothing comes again', () => {
    const acceleration = rowed.imu.channels.acceleration!;
    const still = acceleration.columns.map((column, axis) =>
      column.map((_, i) => (axis === 2 ? 9.81 : 0) + 0.1 * Math.sin(i * i * 0.37 + axis)),
    );
    const log = { ...rowed.imu, channels: { acceleration: { ...acceleration, columns: still } } };
    expect(quickLookAt(joinedOuting([log], { craft: '4x' }))).toBeNull();
  });
});
