import { describe, expect, it } from 'vitest';
import { destination } from '../../src/geodesy/index.js';
import { smoothTrack } from '../../src/motion/index.js';
import { makeRecording } from '../../src/recording/index.js';
import { evenTimes, straightLog } from './made-log.js';

const START = { latDeg: 46, lonDeg: 7 };
const steady = (rateHz: number, withSpeed: boolean) =>
  straightLog({
    atS: evenTimes(300, rateHz),
    alongM: (at) => 4 * at,
    bearingDeg: 30,
    ...(withSpeed ? { speedMps: () => 4 } : {}),
  });

describe('the smoothed track', () => {
  it.each([
    [1, false],
    [5, false],
    [10, true],
    [1, true],
  ])('of a boat at a steady 4 m/s, %d Hz, logged speed %s', (rateHz, withSpeed) => {
    const { track, warnings } = smoothTrack(steady(rateHz, withSpeed), { boat: null });
    expect(warnings).toEqual([]);
    expect(track!.distanceM(0, 300)!.value).toBeCloseTo(1200, 1);
    expect(track!.distanceM(100, 150.25)!.value).toBeCloseTo(201, 1);
    expect(track!.speedAt(150)).toBeCloseTo(4, 3);
    expect(track!.headingAt(150)).toBeCloseTo(30, 1);
    expect(track!.timeAfter(20, 1000)!.atS).toBeCloseTo(270, 1);
    expect(track!.timeAfter(20, 2000)).toBeNull();
    expect(track!.furthestM).toBeCloseTo(1200, 0);
    expect(track!.stationary).toEqual([]);
    const place = track!.placeAt(100.5)!;
    const there = destination(START, 30, 402);
    expect(place.latDeg).toBeCloseTo(there.latDeg, 6);
    expect(place.lonDeg).toBeCloseTo(there.lonDeg, 6);
    expect(track!.placeAt(301)).toBeNull();
  });

  it('finds where a line is crossed, by the bow where its offset is known', () => {
    const { track } = smoothTrack(steady(10, true), { boat: null });
    const middle = destination(START, 30, 602);
    const line = { from: destination(middle, 300, 40), to: destination(middle, 120, 40) };
    const [crossing, ...others] = track!.crossings({ ...line, bowOffsetM: 0, bowOffsetSdM: 0 });
    expect(others).toEqual([]);
    expect(crossing!.atS).toBeCloseTo(150.5, 2);
    expect(crossing!.direction).toBe(1);
    expect(crossing!.alongLine).toBeCloseTo(0.5, 3);
    const [bow] = track!.crossings({ ...line, bowOffsetM: 6, bowOffsetSdM: 1 });
    expect(bow!.atS).toBeCloseTo(149, 2);
    expect(bow!.sdS).toBeCloseTo(Math.hypot(crossing!.sdS, 0.25), 2);
    const [back] = track!.crossings({ from: line.to, to: line.from, bowOffsetM: 0, bowOffsetSdM: 0 });
    expect(back!.direction).toBe(-1);
  });

  it('shares the wandering error between two crossings', () => {
    const { track } = smoothTrack(steady(10, true), { boat: null });
    const [first, second] = [400, 440].map((metres) => {
      const middle = destination(START, 30, metres);
      return track!.crossings({
        from: destination(middle, 300, 40),
        to: destination(middle, 120, 40),
        bowOffsetM: 0,
        bowOffsetSdM: 0,
      })[0]!;
    });
    expect(first!.sdS).toBeGreaterThan(0.2);
    expect(track!.crossingDurationSdS(first!, second!)).toBeLessThan(0.1);
    expect(track!.crossingDurationSdS(first!, second!)).toBe(track!.crossingDurationSdS(second!, first!));
  });

  it('leaves out what was covered across a border of the log, and says so', () => {
    const log = straightLog({
      atS: evenTimes(300, 1).filter((at) => at <= 100 || at >= 130),
      alongM: (at) => 4 * at,
      breaksS: [115],
    });
    const { track, warnings } = smoothTrack(log, { boat: null });
    expect(warnings.map(({ code }) => code)).toEqual(['position-outage']);
    expect(track!.outages).toEqual([{ fromS: 100, toS: 130 }]);
    expect(track!.distanceM(0, 300)!.value).toBeCloseTo(1080, 0);
    expect(track!.speedAt(110)).toBeNull();
    expect(track!.timeAfter(50, 400)).toBeNull();
    expect(track!.timeAfter(150, 400)!.atS).toBeCloseTo(250, 1);
  });

  it('bridges a short gap', () => {
    const log = straightLog({
      atS: evenTimes(300, 1).filter((at) => at <= 100 || at >= 108),
      alongM: (at) => 4 * at,
    });
    const { track, warnings } = smoothTrack(log, { boat: null });
    expect(warnings).toEqual([]);
    expect(track!.distanceM(0, 300)!.value).toBeCloseTo(1200, 0);
  });

  it('leaves outliers out', () => {
    const log = straightLog({
      atS: evenTimes(300, 1),
      alongM: (at) => 4 * at,
      bearingDeg: 90,
      offM: (i) => (i === 100 || i === 101 || i === 200 ? 80 : 0),
    });
    const { track, warnings } = smoothTrack(log, { boat: null });
    expect(warnings.map(({ code }) => code)).toEqual(['position-outliers']);
    expect(track!.distanceM(0, 300)!.value).toBeCloseTo(1200, 0);
  });

  it('leaves out a logged speed of another unit', () => {
    const log = straightLog({ atS: evenTimes(300, 1), alongM: (at) => 4 * at, speedMps: () => 4 * 1.94 });
    const { track, warnings } = smoothTrack(log, { boat: null });
    expect(warnings.map(({ code }) => code)).toEqual(['speed-disagrees']);
    expect(track!.errorModel.speedSdMps).toBeNull();
    expect(track!.distanceM(0, 300)!.value).toBeCloseTo(1200, 0);
  });

  it('takes the position error from the boat file, then from the log, then a default', () => {
    const log = steady(1, false);
    const told = { ...log, statedPositionSdM: 3.1 };
    const boat = { position_sd_m: 1.5, correlation_s: 120 };
    expect(smoothTrack(told, { boat }).track!.errorModel).toMatchObject({
      positionSdM: 1.5,
      correlationS: 120,
      source: 'boat file',
    });
    expect(smoothTrack(told, { boat: null }).track!.errorModel).toMatchObject({
      positionSdM: 3.1,
      source: 'log',
    });
    expect(smoothTrack(log, { boat: null }).track!.errorModel).toMatchObject({
      positionSdM: 2,
      correlationS: 60,
      source: 'default',
    });
  });

  it('is none without positions, and says why', () => {
    const log = makeRecording({
      provenance: { file: 'imu.csv', format: 'csv', device: null, sport: null },
      originUnixS: null,
      channels: { speed: { atS: Float64Array.of(0, 1), columns: [Float64Array.of(1, 1)] } },
    });
    const { track, warnings } = smoothTrack(log, { boat: null });
    expect(track).toBeNull();
    expect(warnings.map(({ code }) => code)).toEqual(['no-track']);
  });
});
