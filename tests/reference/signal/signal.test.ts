import { describe, expect, it } from 'vitest';
import {
  butterworth,
  median,
  parabolaVertex,
  peaks,
  quantile,
  savitzkyGolay,
  twoPassCutoff,
  zeroPhase,
} from '../../../src/signal/index.js';

const near = (got: Float64Array, wanted: readonly number[], digits: number) => {
  expect(got.length).toBe(wanted.length);
  for (const [i, value] of wanted.entries()) expect(got[i]).toBeCloseTo(value, digits);
};

describe('Butterworth design', () => {
  // computed with SciPy 1.17, scipy.signal.butter
  it('order 2 has the published coefficients', () => {
    const half = butterworth(2, 0.5);
    expect(half.b[0]).toBeCloseTo(0.2928932188, 9);
    near(half.a, [1, 0, 0.1715728753], 9);
    const fifth = butterworth(2, 0.2);
    expect(fifth.b[0]).toBeCloseTo(0.0674552739, 9);
    near(fifth.a, [1, -1.1429805025, 0.4128015981], 9);
    const tenth = butterworth(2, 0.1);
    expect(tenth.b[0]).toBeCloseTo(0.0200833656, 9);
    near(tenth.a, [1, -1.5610180758, 0.6413515381], 9);
  });

  it('order 4 has the published coefficients', () => {
    const fifth = butterworth(4, 0.2);
    near(
      fifth.b,
      [1, 4, 6, 4, 1].map((k) => k * 0.0048243434),
      9,
    );
    near(fifth.a, [1, -2.3695130072, 2.3139884144, -1.0546654059, 0.1873794924], 9);
  });

  it('two-pass correction: 5 Hz at 100 Hz becomes 6.204504 Hz (Winter, 0.802243 on the tangent)', () => {
    expect(twoPassCutoff(0.1) * 50).toBeCloseTo(6.204504, 6);
  });

  it('a high-pass is the mirror of the low-pass', () => {
    const low = butterworth(2, 0.8);
    const high = butterworth(2, 0.2, 'high');
    for (let i = 0; i < 3; i++) {
      expect(high.b[i]).toBeCloseTo(low.b[i]! * (-1) ** i, 12);
      expect(high.a[i]).toBeCloseTo(low.a[i]! * (-1) ** i, 12);
    }
  });
});

describe('zero-phase filtering', () => {
  const wave = (hz: number, rateHz: number, count: number) =>
    Float64Array.from({ length: count }, (_, i) => Math.sin((2 * Math.PI * hz * i) / rateHz + 0.3));

  it('halves the amplitude at the cut-off and keeps the phase', () => {
    const input = wave(5, 100, 2000);
    const output = zeroPhase(input, butterworth(2, 0.1));
    for (let i = 500; i < 1500; i++) expect(output[i]).toBeCloseTo(0.5 * input[i]!, 6);
  });

  it('with the two-pass correction leaves half the power there', () => {
    const input = wave(5, 100, 2000);
    const output = zeroPhase(input, butterworth(2, twoPassCutoff(0.1)));
    for (let i = 500; i < 1500; i++) expect(output[i]).toBeCloseTo(Math.SQRT1_2 * input[i]!, 6);
  });

  it('keeps a constant up to its ends', () => {
    for (const value of zeroPhase(new Float64Array(40).fill(9.81), butterworth(4, 0.05)))
      expect(value).toBeCloseTo(9.81, 6);
  });
});

describe('peaks', () => {
  it('has the prominences of the worked example, and its distance', () => {
    const values = Float64Array.of(0, 1, 0, 3, 1, 3, 0, 4, 0);
    expect(peaks(values).map((peak) => [peak.index, peak.prominence])).toEqual([
      [1, 1],
      [3, 3],
      [5, 3],
      [7, 4],
    ]);
    expect(peaks(values, { distance: 3 }).map((peak) => peak.index)).toEqual([3, 7]);
  });

  it('has those of the SciPy manual (peak_prominences)', () => {
    const values = Float64Array.from({ length: 1000 }, (_, i) => {
      const t = (6 * Math.PI * i) / 999;
      return Math.sin(t) + 0.6 * Math.sin(2.6 * t);
    });
    const found = peaks(values);
    expect(found.map((peak) => peak.index)).toEqual([42, 147, 299, 416, 533, 685, 791, 933]);
    near(
      Float64Array.from(found, (peak) => peak.prominence),
      [1.24159486, 0.47840168, 0.28470524, 3.10716793, 0.284603, 0.47822491, 2.48340261, 0.47822491],
      8,
    );
  });
});

describe('Savitzky-Golay weights (Savitzky & Golay 1964; values from memory, recomputed)', () => {
  it('quadratic, 5 and 7 points, and the slope over 7', () => {
    near(
      savitzkyGolay(2, 2),
      [-3, 12, 17, 12, -3].map((k) => k / 35),
      12,
    );
    near(
      savitzkyGolay(3, 2),
      [-2, 3, 6, 7, 6, 3, -2].map((k) => k / 21),
      12,
    );
    near(
      savitzkyGolay(3, 2, 1),
      [-3, -2, -1, 0, 1, 2, 3].map((k) => k / 28),
      12,
    );
  });
});

describe('small pieces', () => {
  it('parabola through 0.7, 1, 0.9 (computed): +0.25, 1.0125', () => {
    const vertex = parabolaVertex(0.7, 1, 0.9);
    expect(vertex.offset).toBeCloseTo(0.25, 12);
    expect(vertex.height).toBeCloseTo(1.0125, 12);
  });

  it('quantile of 1…10 at 0.25 is 3.25 by type 7 (Hyndman & Fan 1996)', () => {
    expect(quantile([10, 9, 8, 7, 6, 5, 4, 3, 2, 1], 0.25)).toBe(3.25);
    expect(median([4, 1, 3, 2])).toBe(2.5);
  });
});
