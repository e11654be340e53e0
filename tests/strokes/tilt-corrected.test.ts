import { describe, expect, it } from 'vitest';
import type { Channel } from '../../src/recording/index.js';
import { rotationOf, tiltCorrected } from '../../src/strokes/tilt-corrected.js';
import { drawnOuting, drawnScore } from '../accuracy/drawn-outings.js';

const GRAVITY = 9.80665;
const PITCH = 0.05;
const HZ = 0.4;
const atS = Float64Array.from({ length: 6000 }, (_, i) => i / 50);
const swing = (at: number) => Math.sin(2 * Math.PI * HZ * at);

const channel = (name: 'acceleration' | 'rotation', columns: readonly Float64Array[]): Channel => ({
  name,
  atS,
  columns,
  gaps: [],
});

/** A box that pitches about its port axis, bow up above 0: x forward, y to port, z up. */
const pitching = (sign: 1 | -1) => ({
  acceleration: channel('acceleration', [
    atS.map((at) => GRAVITY * Math.sin(PITCH * swing(at))),
    atS.map(() => 0),
    atS.map((at) => GRAVITY * Math.cos(PITCH * swing(at))),
  ]),
  // right-handed about port, bow up is negative
  rotation: channel('rotation', [
    atS.map(() => 0),
    atS.map((at) => -sign * PITCH * 2 * Math.PI * HZ * Math.cos(2 * Math.PI * HZ * at)),
    atS.map(() => 0),
  ]),
});

const rms = (values: Float64Array): number =>
  Math.sqrt(values.slice(1000, 5000).reduce((sum, value) => sum + value * value, 0) / 4000);

describe('tiltCorrected', () => {
  it("takes gravity's share out of a box that only pitches", () => {
    const { acceleration, rotation } = pitching(1);
    const before = rms(acceleration.columns[0]!);
    expect(before).toBeCloseTo((GRAVITY * PITCH) / Math.SQRT2, 2);
    expect(rms(tiltCorrected(acceleration, rotation).columns[0]!)).toBeLessThan(0.02 * before);
  });

  it('would double it with the sense of turning wrong: the sense is that of the right hand', () => {
    const { acceleration, rotation } = pitching(-1);
    const before = rms(acceleration.columns[0]!);
    expect(rms(tiltCorrected(acceleration, rotation).columns[0]!) / before).toBeCloseTo(2, 1);
  });

  it('leaves what turns too far to be tilt', () => {
    const { acceleration, rotation } = pitching(1);
    const wild = { ...rotation, columns: rotation.columns.map((column) => column.map((rate) => 20 * rate)) };
    expect(tiltCorrected(acceleration, wild)).toBe(acceleration);
  });

  it('takes rates that were logged sample by sample with the acceleration, and no others', () => {
    const { acceleration, rotation } = pitching(1);
    expect(rotationOf(acceleration, rotation)).toBe(rotation);
    expect(rotationOf(acceleration, { ...rotation, atS: atS.map((at) => at + 0.01) })).toBe(null);
    expect(rotationOf(acceleration, undefined)).toBe(null);
  });

  it.each([37, 43, 81])(
    'finds the strokes of outing %i in high waves, no worse than an accelerometer alone',
    (seed) => {
      const alone = drawnScore(drawnOuting(seed, 'twin'));
      const { f1 } = drawnScore(drawnOuting(seed, 'twin', { gyro: true }));
      expect(f1).toBeGreaterThan(0.98);
      expect(f1).toBeGreaterThan(alone.f1 - 0.01);
    },
  );
});
