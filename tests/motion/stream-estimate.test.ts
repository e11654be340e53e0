import { describe, expect, it } from 'vitest';
import { destination } from '../../src/geodesy/index.js';
import { estimateStream, smoothTrack } from '../../src/motion/index.js';
import { makeRecording } from '../../src/recording/index.js';
import { simulateTwin } from '../simulator/twin.js';

const RADIANS = Math.PI / 180;

/** A boat that turns about every so often, at a speed through the water, on a stream. */
const thereAndBack = (legsMps: readonly number[], legS: number, stream: { mps: number; toDeg: number }) => {
  const atS = Float64Array.from({ length: legsMps.length * legS + 1 }, (_, i) => i);
  const [lat, lon] = [new Float64Array(atS.length), new Float64Array(atS.length)];
  let place = { latDeg: 46, lonDeg: 7 };
  atS.forEach((_, i) => {
    lat[i] = place.latDeg;
    lon[i] = place.lonDeg;
    const leg = Math.min(legsMps.length - 1, Math.floor(i / legS));
    const bow = (leg % 2 === 0 ? 30 : 210) * RADIANS;
    const east = legsMps[leg]! * Math.sin(bow) + stream.mps * Math.sin(stream.toDeg * RADIANS);
    const north = legsMps[leg]! * Math.cos(bow) + stream.mps * Math.cos(stream.toDeg * RADIANS);
    place = destination(place, Math.atan2(east, north) / RADIANS, Math.hypot(east, north));
  });
  const log = makeRecording({
    provenance: { file: 'both-ways.gpx', format: 'gpx', device: null, sport: null },
    originUnixS: 1_780_000_000,
    channels: { position: { atS, columns: [lat, lon] } },
  });
  return smoothTrack(log, { boat: null }).track!;
};

describe('a stream read from rowing both ways', () => {
  it('is half the difference of the two speeds (250 s and 200 s over 1000 m: 4.5 through the water, 0.5)', () => {
    const track = thereAndBack([4.5, 4.5], 240, { mps: 0.5, toDeg: 210 });
    const { estimate } = estimateStream(track, [{ fromS: 0, toS: 480 }], () => null);
    expect(estimate!.stream.speedMps).toBeCloseTo(0.5, 1);
    expect(estimate!.stream.toDeg).toBeCloseTo(210, 0);
    expect(estimate!.legCount).toBe(2);
  });

  it('allows for the rate: the cube root of it', () => {
    const track = thereAndBack([4, 4 * (32 / 20) ** (1 / 3)], 240, { mps: 0.3, toDeg: 30 });
    const rate = ({ fromS }: { readonly fromS: number }) => (fromS < 240 ? 20 : 32);
    const { estimate } = estimateStream(track, [{ fromS: 0, toS: 480 }], rate);
    expect(estimate!.stream.speedMps).toBeCloseTo(0.3, 1);
    expect(estimate!.stream.toDeg).toBeCloseTo(30, 0);
  });

  it('says how sure it is: more legs and more even ones are surer', () => {
    const stream = { mps: 0.3, toDeg: 30 };
    const sd = (legs: readonly number[]) =>
      estimateStream(thereAndBack(legs, 240, stream), [{ fromS: 0, toS: 240 * legs.length }], () => null)
        .estimate!.sdMps;
    expect(sd([4, 4, 4, 4, 4, 4])).toBeLessThan(sd([4, 4]));
    expect(sd([4, 4, 4.6, 4.1, 3.6, 4.3])).toBeGreaterThan(2 * sd([4, 4, 4, 4, 4, 4]));
  });

  it('is not to be had from rowing one way', () => {
    const track = thereAndBack([4.5], 480, { mps: 0.5, toDeg: 210 });
    const finding = estimateStream(track, [{ fromS: 0, toS: 480 }], () => null);
    expect(finding.estimate).toBeNull();
    expect(finding.why).toMatch(/both ways/);
  });

  it('holds on simulated crews: truth within 2 sd in at least 17 of 20', () => {
    let inside = 0;
    for (let seed = 1; seed <= 20; seed++) {
      const mps = 0.6 * ((seed - 1) / 19);
      const { track: log, truth } = simulateTwin({
        seed,
        imu: null,
        script: [
          { rowS: 300, rateSpm: 20 },
          { restS: 40, turnDeg: 180 },
          { rowS: 300, rateSpm: 24 },
          { restS: 40, turnDeg: 180 },
          { rowS: 300, rateSpm: 20 },
          { restS: 40, turnDeg: 180 },
          { rowS: 300, rateSpm: 22 },
        ],
        waters: { headingDeg: 40, streamMps: mps, streamToDeg: 40 },
        receiver: { rateHz: 1 },
      });
      const { track } = smoothTrack(log!, { boat: null });
      const rowed = truth.stretches.filter(({ kind }) => kind === 'rowing');
      const rate = (window: { readonly fromS: number }) =>
        rowed.find(({ fromS, toS }) => window.fromS >= fromS && window.fromS <= toS)?.rateSpm ?? null;
      const { estimate } = estimateStream(
        track!,
        rowed.map(({ fromS, toS }) => ({ fromS: fromS + 20, toS })),
        rate,
      );
      const signed = estimate!.stream.speedMps * Math.cos((estimate!.stream.toDeg - 40) * RADIANS);
      if (Math.abs(signed - mps) <= 2 * estimate!.sdMps) inside++;
    }
    expect(inside).toBeGreaterThanOrEqual(17);
  });
});
