/**
 * Discrete Fourier transform in place, length a power of two.
 * @param inverse true for the inverse, scaled by 1 / length
 * @see Cooley & Tukey 1965, radix 2, decimation in time
 */
export const fourier = (re: Float64Array, im: Float64Array, inverse = false): void => {
  const count = re.length;
  if ((count & (count - 1)) !== 0) throw new Error(`transform length ${count} is not a power of two`);
  for (let i = 1, j = 0; i < count; i++) {
    let bit = count >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) {
      const [r, m] = [re[i]!, im[i]!];
      re[i] = re[j]!;
      im[i] = im[j]!;
      re[j] = r;
      im[j] = m;
    }
  }
  for (let size = 2; size <= count; size <<= 1) {
    const angle = ((inverse ? 2 : -2) * Math.PI) / size;
    const half = size >> 1;
    for (let k = 0; k < half; k++) {
      const [c, s] = [Math.cos(angle * k), Math.sin(angle * k)];
      for (let i = k; i < count; i += size) {
        const j = i + half;
        const [r, m] = [re[j]! * c - im[j]! * s, re[j]! * s + im[j]! * c];
        re[j] = re[i]! - r;
        im[j] = im[i]! - m;
        re[i] = re[i]! + r;
        im[i] = im[i]! + m;
      }
    }
  }
  if (inverse)
    for (let i = 0; i < count; i++) {
      re[i] = re[i]! / count;
      im[i] = im[i]! / count;
    }
};

/** Smallest power of two that is at least `count`. */
export const powerOfTwo = (count: number): number => 2 ** Math.ceil(Math.log2(Math.max(1, count)));
