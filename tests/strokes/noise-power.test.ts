import { describe, expect, it } from 'vitest';
import { WINDOW_SAMPLES } from '../../src/strokes/matched-filter.js';
import { noisePowerOf, withMismatch } from '../../src/strokes/noise-power.js';

const HALF = WINDOW_SAMPLES / 2;

/** Two windows alike whose power is 1, and more where told. */
const spectraWith = (more: (k: number) => number) => {
  const power = Float64Array.from({ length: HALF + 1 }, (_, k) => 1 + more(k));
  return { from: [0, HALF], power: [power, power] };
};

const at = (power: Float64Array, k: number): number => power[k]! * Math.LN2;

describe('noisePowerOf', () => {
  it('passes over narrow lines and keeps a wide band', () => {
    const lines = noisePowerOf(
      spectraWith((k) => (k % 16 === 8 ? 1000 : 0)),
      null,
      8,
    );
    for (let k = 20; k < 100; k++) expect(at(lines, k)).toBeLessThan(4);
    const band = noisePowerOf(
      spectraWith((k) => (k >= 20 && k < 50 ? 1000 : 0)),
      null,
      8,
    );
    expect(at(band, 35)).toBeGreaterThan(900);
    expect(at(band, 80)).toBeLessThan(1.2);
  });

  it('uses the windows that are chosen, and all where none is', () => {
    const one = spectraWith(() => 0).power[0]!;
    const two = spectraWith(() => 99).power[0]!;
    const spectra = { from: [0, HALF], power: [one, two] };
    expect(at(noisePowerOf(spectra, Uint8Array.of(1, 0), 2), 30)).toBeCloseTo(1, 1);
    expect(at(noisePowerOf(spectra, Uint8Array.of(0, 1), 2), 30)).toBeCloseTo(100, 0);
    expect(noisePowerOf(spectra, Uint8Array.of(0, 0), 2)).toEqual(noisePowerOf(spectra, null, 2));
  });
});

describe('withMismatch', () => {
  it('adds a share of the strokes, where they are strong', () => {
    const values = Float64Array.from({ length: 50 }, (_, i) => Math.cos((2 * Math.PI * i) / 25));
    const noise = new Float64Array(WINDOW_SAMPLES).fill(1e-3);
    const made = withMismatch(noise, { before: 10, values }, 0.03, 4);
    // a wave of 1 Hz is point 10 of a window of 10 s
    expect(made[10]!).toBeGreaterThan(0.05);
    expect(made[100]!).toBeLessThan(2e-3);
  });
});
