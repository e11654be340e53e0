import { describe, expect, it } from 'vitest';
import { butterworth, zeroPhase } from '../../src/signal/index.js';
import { driveTimes } from '../../src/strokes/drive-times.js';
import { makeRandom } from '../simulator/random.js';

const RATE_HZ = 50;
const CYCLE_S = 2;
const DRIVE_S = 0.8;
const STROKES = 40;

/** A hull's surge over strokes of 2 s, with or without a dip at the end of the drive, in noise of the mark's band. */
const hull = (dipMps2: number, noiseMps2: number, seed = 3) => {
  const random = makeRandom(seed);
  const size = STROKES * CYCLE_S * RATE_HZ + 1;
  const noise = zeroPhase(
    Float64Array.from({ length: size }, () => random.normal()),
    butterworth(2, 5 / (RATE_HZ / 2)),
  );
  const sd = Math.sqrt(noise.reduce((sum, value) => sum + value * value, 0) / size);
  const pulse = (at: number, centreS: number, widthS: number) => Math.exp(-(((at - centreS) / widthS) ** 2));
  const band = noise.map((value, i) => {
    const at = (i / RATE_HZ) % CYCLE_S;
    const check = -4 * (pulse(at, 0, 0.08) + pulse(at, CYCLE_S, 0.08));
    // a wide drive that fades, and the recovery after it: without a dip the one goes over into the other
    const drive = 3 * pulse(at, 0.45, 0.28) + 1.2 * pulse(at, 1.1, 0.5);
    return check + drive - dipMps2 * pulse(at, DRIVE_S, 0.07) + (noiseMps2 * value) / sd;
  });
  const strokes = Array.from({ length: STROKES }, (_, i) => ({
    from: i * CYCLE_S * RATE_HZ,
    to: (i + 1) * CYCLE_S * RATE_HZ,
  }));
  return { band, strokes };
};

const given = (drives: readonly (number | null)[]) => drives.filter((drive) => drive !== null);

describe('driveTimes', () => {
  it('are catch to dip, of every stroke where nothing hides it', () => {
    const { band, strokes } = hull(2, 0.05);
    const drives = given(driveTimes(band, strokes, RATE_HZ));
    expect(drives).toHaveLength(STROKES);
    for (const drive of drives) expect(Math.abs(drive - DRIVE_S)).toBeLessThanOrEqual(0.04);
  });

  it.each([0.05, 0.5, 1, 1.5])('are unknown of a hull that shows no dip, in noise of %f m/s²', (noise) => {
    for (const seed of [3, 4, 5]) {
      const { band, strokes } = hull(0, noise, seed);
      expect(given(driveTimes(band, strokes, RATE_HZ)).length).toBeLessThan(0.03 * STROKES);
    }
  });

  it('are near the true dip in noise, or unknown', () => {
    const { band, strokes } = hull(2, 0.6);
    const drives = given(driveTimes(band, strokes, RATE_HZ));
    expect(drives.length).toBeGreaterThan(STROKES / 4);
    for (const drive of drives) expect(Math.abs(drive - DRIVE_S)).toBeLessThan(0.12);
  });

  it('are unknown of a stroke without an end, and of too few strokes to tell a dip from chance', () => {
    const { band, strokes } = hull(2, 0.05);
    const some = strokes.map((stroke, i) => (i === 20 ? null : stroke));
    expect(driveTimes(band, some, RATE_HZ)[20]).toBeNull();
    expect(given(driveTimes(band, strokes.slice(0, 3), RATE_HZ))).toEqual([]);
  });
});
