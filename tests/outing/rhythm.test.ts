import { describe, expect, it } from 'vitest';
import { rhythmOf } from '../../src/outing/rhythm.js';
import type { Channel } from '../../src/recording/index.js';

const RATE_HZ = 50;
const LENGTH_S = 30;
const GRAVITY = 9.81;

/** Acceleration of a sensor that lies flat: x along the hull, z up. */
const acceleration = (along: (atS: number) => number, up: (atS: number) => number = () => 0): Channel => {
  const atS = Float64Array.from({ length: RATE_HZ * LENGTH_S }, (_, i) => i / RATE_HZ);
  return {
    name: 'acceleration',
    atS,
    columns: [atS.map(along), atS.map(() => 0), atS.map((at) => GRAVITY + up(at))],
    gaps: [],
  };
};

/** A short deep catch and a long drive. */
const strokes =
  (spm: number) =>
  (atS: number): number => {
    const phase = ((atS * spm) / 60) % 1;
    return phase < 0.15
      ? -5 * Math.sin((Math.PI * phase) / 0.15)
      : 1.2 * Math.sin((Math.PI * (phase - 0.15)) / 0.85) ** 2;
  };

const swell = (atS: number): number => 0.8 * Math.sin((2 * Math.PI * atS) / 3.1);

/** The same noise every time (the finisher of MurmurHash3, public domain), sd 1. */
const noise = (atS: number): number => {
  let mixed = Math.round(atS * RATE_HZ) + 1;
  mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
  return ((((mixed ^ (mixed >>> 16)) >>> 0) / 2 ** 32) * 2 - 1) * Math.sqrt(3);
};

describe('rhythmOf', () => {
  it.each([16, 24, 38, 52])('tells %i strokes a minute in noise, and its shape from a swing', (spm) => {
    const found = rhythmOf(
      acceleration((at) => strokes(spm)(at) + 0.4 * noise(at)),
      'rowing',
    )!;
    expect(Math.abs(found.rateSpm - spm)).toBeLessThan(0.02 * spm);
    expect(found.likeness).toBeGreaterThan(0.6);
    expect(found.sharpness).toBeGreaterThan(0.3);
    expect(found.heaveShare).toBeLessThan(0.05);
  });

  it('takes 90 paddle strokes a minute for 90, not for 45, where the craft is not known', () => {
    expect(rhythmOf(acceleration(strokes(90)), null)!.rateSpm).toBeCloseTo(90, 0);
  });

  it('finds waves under a moored boat a plain swing', () => {
    expect(rhythmOf(acceleration(swell), 'rowing')!.sharpness).toBeLessThan(0.05);
  });

  it('shows that a walk lifts the sensor', () => {
    const walk = rhythmOf(
      acceleration((at) => 0.5 * strokes(100)(at), strokes(100)),
      null,
    )!;
    expect(walk.heaveShare).toBeGreaterThan(1);
  });

  it('finds nothing alike in noise, nothing at rest, and nothing across a mask', () => {
    expect(rhythmOf(acceleration(noise), 'rowing')?.likeness ?? 0).toBeLessThan(0.3);
    expect(
      rhythmOf(
        acceleration(() => 0),
        'rowing',
      ),
    ).toBeNull();
    const whole = acceleration(strokes(24));
    const kept = (_: number, i: number) => i < 500 || i > 600;
    const holed = {
      ...whole,
      atS: whole.atS.filter(kept),
      columns: whole.columns.map((one) => one.filter(kept)),
    };
    expect(rhythmOf(holed, 'rowing')).toBeNull();
  });
});
