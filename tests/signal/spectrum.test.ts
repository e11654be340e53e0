import { describe, expect, it } from 'vitest';
import { fourier } from '../../src/signal/index.js';

describe('Fourier transform', () => {
  it('agrees with the plain sum, and comes back', () => {
    const re = Float64Array.from({ length: 32 }, (_, i) => Math.sin(i * i));
    const im = Float64Array.from({ length: 32 }, (_, i) => Math.cos(3 * i));
    const [r, m] = [re.slice(), im.slice()];
    fourier(r, m);
    for (let k = 0; k < 32; k++) {
      let [sumRe, sumIm] = [0, 0];
      for (let i = 0; i < 32; i++) {
        const angle = (-2 * Math.PI * i * k) / 32;
        sumRe += re[i]! * Math.cos(angle) - im[i]! * Math.sin(angle);
        sumIm += re[i]! * Math.sin(angle) + im[i]! * Math.cos(angle);
      }
      expect(r[k]).toBeCloseTo(sumRe, 10);
      expect(m[k]).toBeCloseTo(sumIm, 10);
    }
    fourier(r, m, true);
    for (let i = 0; i < 32; i++) expect(r[i]).toBeCloseTo(re[i]!, 12);
  });

  it('takes powers of two only', () => {
    expect(() => fourier(new Float64Array(3), new Float64Array(3))).toThrow(/power of two/);
  });
});
