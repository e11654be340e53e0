/** Everything a transform of one length needs beforehand. */
interface Plan {
  readonly cos: Float64Array;
  readonly sin: Float64Array;
  readonly mirror: Uint32Array;
}

const plans = new Map<number, Plan>();

const planOf = (count: number): Plan => {
  const known = plans.get(count);
  if (known) return known;
  if ((count & (count - 1)) !== 0) throw new Error(`transform length ${count} is not a power of two`);
  const cos = new Float64Array(count / 2);
  const sin = new Float64Array(count / 2);
  for (let k = 0; k < count / 2; k++) {
    cos[k] = Math.cos((2 * Math.PI * k) / count);
    sin[k] = Math.sin((2 * Math.PI * k) / count);
  }
  const mirror = new Uint32Array(count);
  for (let i = 1, j = 0; i < count; i++) {
    let bit = count >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    mirror[i] = j;
  }
  const plan = { cos, sin, mirror };
  plans.set(count, plan);
  return plan;
};

/**
 * Discrete Fourier transform in place, length a power of two.
 * @param inverse true for the inverse, scaled by 1 / length
 * @see Cooley & Tukey 1965, radix 2, decimation in time
 */
export const fourier = (re: Float64Array, im: Float64Array, inverse = false): void => {
  const count = re.length;
  const { cos, sin, mirror } = planOf(count);
  for (let i = 1; i < count; i++) {
    const j = mirror[i]!;
    if (i >= j) continue;
    const [r, m] = [re[i]!, im[i]!];
    re[i] = re[j]!;
    im[i] = im[j]!;
    re[j] = r;
    im[j] = m;
  }
  const way = inverse ? 1 : -1;
  for (let size = 2; size <= count; size <<= 1) {
    const half = size >> 1;
    const stride = count / size;
    for (let from = 0; from < count; from += size) {
      for (let k = 0; k < half; k++) {
        const c = cos[k * stride]!;
        const s = way * sin[k * stride]!;
        const i = from + k;
        const j = i + half;
        const r = re[j]! * c - im[j]! * s;
        const m = re[j]! * s + im[j]! * c;
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
