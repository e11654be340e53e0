import { describe, expect, it } from 'vitest';
import { destination, type Place } from '../../src/geodesy/index.js';
import { smoothTrack } from '../../src/motion/index.js';
import { staleFixes } from '../../src/motion/stale-fixes.js';
import { makeRecording, type Recording } from '../../src/recording/index.js';
import { makeRandom } from '../simulator/random.js';
import { simulateTwin } from '../simulator/twin.js';
import { evenTimes, straightLog } from './made-log.js';

const OUTING = [{ restS: 20 }, { rowS: 240, rateSpm: 24 }, { restS: 40 }, { rowS: 240, rateSpm: 28 }];
/** A pause that is bridged, and one that is not. */
const PAUSES = [
  [130, 136],
  [400, 430],
] as const;

/** A log with some fixes in a row elsewhere. */
const moved = (
  recording: Recording,
  fixes: readonly number[],
  elsewhere: (place: Place) => Place,
): Recording => {
  const { atS, columns } = recording.channels.position!;
  const [lat, lon] = columns.map((column) => column.slice()) as [Float64Array, Float64Array];
  for (const i of fixes) {
    const { latDeg, lonDeg } = elsewhere({ latDeg: lat[i]!, lonDeg: lon[i]! });
    [lat[i], lon[i]] = [latDeg, lonDeg];
  }
  const { speed } = recording.channels;
  return makeRecording({
    provenance: recording.provenance,
    originUnixS: recording.startUnixS,
    channels: {
      position: { atS, columns: [lat, lon] },
      ...(speed ? { speed: { atS: speed.atS, columns: speed.columns } } : {}),
    },
  });
};

const overGround = (recording: Recording): { metres: number; warnings: readonly string[] } => {
  const { track, warnings } = smoothTrack(recording, { boat: null });
  return {
    metres: track!.distanceM(track!.fromS, track!.toS)!.value,
    warnings: warnings.map(({ code }) => code),
  };
};

describe('fixes of a receiver that shows an old place when it wakes', () => {
  const random = makeRandom(14);
  const cases = [1, 5].flatMap((rateHz) =>
    [true, false].flatMap((withSpeed) =>
      [50, 200, 1000, 30_000, 1_000_000].map((offM, i) => ({
        rateHz,
        withSpeed,
        offM,
        staleCount: 1 + (i % 3),
        bearingDeg: 360 * random.uniform(),
      })),
    ),
  );

  it.each(cases)(
    'at $rateHz Hz, speed $withSpeed: $staleCount of them, $offM m off, at the start and after every pause',
    ({ rateHz, withSpeed, offM, staleCount, bearingDeg }) => {
      const { track } = simulateTwin({
        seed: 7,
        script: OUTING,
        receiver: { rateHz, outages: PAUSES, dopplerSdMps: withSpeed ? 0.05 : null },
        imu: null,
      });
      const { atS } = track!.channels.position!;
      const firsts = [0, ...PAUSES.map(([, toS]) => atS.findIndex((at) => at >= toS - 1e-6))];
      const fixes = firsts.flatMap((first) => Array.from({ length: staleCount }, (_, i) => first + i));
      const clean = overGround(track!);
      const stale = overGround(moved(track!, fixes, (place) => destination(place, bearingDeg, offM)));
      expect(Math.abs(stale.metres / clean.metres - 1)).toBeLessThan(0.002);
      expect(stale.warnings).toContain('position-outliers');
    },
  );

  it('repeated after a pause from before it are left out', () => {
    const { track } = simulateTwin({
      seed: 8,
      script: OUTING,
      receiver: { rateHz: 1, outages: [[100, 160]], dopplerSdMps: null },
      imu: null,
    });
    const { atS, columns } = track!.channels.position!;
    const first = atS.findIndex((at) => at >= 160 - 1e-6);
    const old = { latDeg: columns[0]![first - 1]!, lonDeg: columns[1]![first - 1]! };
    const made = moved(track!, [first, first + 1, first + 2], () => old);
    expect([...staleFixes(made.channels.position!)!.entries()].filter(([, left]) => left)).toEqual(
      [first, first + 1, first + 2].map((i) => [i, 1]),
    );
    expect(Math.abs(overGround(made).metres / overGround(track!).metres - 1)).toBeLessThan(0.002);
  });
});

describe('what is no stale fix', () => {
  it('is no fix of a boat at any speed, nor of one carried elsewhere while the log slept', () => {
    const ashore = straightLog({
      atS: [...evenTimes(200, 1), ...evenTimes(60, 1).map((at) => at + 2000)],
      alongM: (at) => (at < 1000 ? 4 * at : 60_000 + 4 * at),
    });
    expect(staleFixes(ashore.channels.position!)).toBeNull();
    const driven = straightLog({ atS: evenTimes(200, 1), alongM: (at) => 30 * at });
    expect(staleFixes(driven.channels.position!)).toBeNull();
  });

  it('is no jump that stays: the filter sees to it', () => {
    const log = straightLog({
      atS: evenTimes(600, 1),
      alongM: (at) => 4 * at,
      offM: (i) => (i > 200 && i < 400 ? 90 : 0),
    });
    expect([...(staleFixes(log.channels.position!) ?? [])].filter(Boolean)).toEqual([]);
  });
});
