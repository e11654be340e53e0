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

/** The stages of 2 and of 4, whose factors are 1 and i; returns the size that is done. */
const firstStages = (re: Float64Array, im: Float64Array, sign: number): number => {
  const count = re.length;
  if (count < 4) {
    if (count < 2) return 1;
    const [r, m] = [re[1]!, im[1]!];
    re[1] = re[0]! - r;
    im[1] = im[0]! - m;
    re[0] = re[0]! + r;
    im[0] = im[0]! + m;
    return 2;
  }
  for (let i = 0; i < count; i += 4) {
    const sumRe = re[i]! + re[i + 1]!;
    const sumIm = im[i]! + im[i + 1]!;
    const gapRe = re[i]! - re[i + 1]!;
    const gapIm = im[i]! - im[i + 1]!;
    const laterSumRe = re[i + 2]! + re[i + 3]!;
    const laterSumIm = im[i + 2]! + im[i + 3]!;
    const turnedRe = -sign * (im[i + 2]! - im[i + 3]!);
    const turnedIm = sign * (re[i + 2]! - re[i + 3]!);
    re[i] = sumRe + laterSumRe;
    im[i] = sumIm + laterSumIm;
    re[i + 1] = gapRe + turnedRe;
    im[i + 1] = gapIm + turnedIm;
    re[i + 2] = sumRe - laterSumRe;
    im[i + 2] = sumIm - laterSumIm;
    re[i + 3] = gapRe - turnedRe;
    im[i + 3] = gapIm - turnedIm;
  }
  return 4;
};

/** The stages of one size and of its double in one go: every value is fetched and put back once for both. */
const twoStages = (
  re: Float64Array,
  im: Float64Array,
  sign: number,
  size: number,
  cos: Float64Array,
  sin: Float64Array,
): void => {
  const count = re.length;
  const half = size >> 1;
  const stride = count / size;
  for (let k = 0; k < half; k++) {
    const c = cos[k * stride]!;
    const s = sign * sin[k * stride]!;
    const near = k * (stride >> 1);
    const far = (k + half) * (stride >> 1);
    const nearC = cos[near]!;
    const nearS = sign * sin[near]!;
    const farC = cos[far]!;
    const farS = sign * sin[far]!;
    for (let i0 = k; i0 < count; i0 += 2 * size) {
      const i1 = i0 + half;
      const i2 = i1 + half;
      const i3 = i2 + half;
      const r1 = re[i1]! * c - im[i1]! * s;
      const m1 = re[i1]! * s + im[i1]! * c;
      const r3 = re[i3]! * c - im[i3]! * s;
      const m3 = re[i3]! * s + im[i3]! * c;
      const lowRe = re[i0]! + r1;
      const lowIm = im[i0]! + m1;
      const highRe = re[i0]! - r1;
      const highIm = im[i0]! - m1;
      const laterLowRe = re[i2]! + r3;
      const laterLowIm = im[i2]! + m3;
      const laterHighRe = re[i2]! - r3;
      const laterHighIm = im[i2]! - m3;
      const r2 = laterLowRe * nearC - laterLowIm * nearS;
      const m2 = laterLowRe * nearS + laterLowIm * nearC;
      const r4 = laterHighRe * farC - laterHighIm * farS;
      const m4 = laterHighRe * farS + laterHighIm * farC;
      re[i0] = lowRe + r2;
      im[i0] = lowIm + m2;
      re[i2] = lowRe - r2;
      im[i2] = lowIm - m2;
      re[i1] = highRe + r4;
      im[i1] = highIm + m4;
      re[i3] = highRe - r4;
      im[i3] = highIm - m4;
    }
  }
};

/** The stage of the whole length, where one is left alone. */
const lastStage = (
  re: Float64Array,
  im: Float64Array,
  sign: number,
  cos: Float64Array,
  sin: Float64Array,
): void => {
  const half = re.length >> 1;
  for (let i = 0; i < half; i++) {
    const j = i + half;
    const c = cos[i]!;
    const s = sign * sin[i]!;
    const r = re[j]! * c - im[j]! * s;
    const m = re[j]! * s + im[j]! * c;
    re[j] = re[i]! - r;
    im[j] = im[i]! - m;
    re[i] = re[i]! + r;
    im[i] = im[i]! + m;
  }
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
    const r = re[i]!;
    const m = im[i]!;
    re[i] = re[j]!;
    im[i] = im[j]!;
    re[j] = r;
    im[j] = m;
  }
  const sign = inverse ? 1 : -1;
  let size = firstStages(re, im, sign) * 2;
  for (; size * 2 <= count; size <<= 2) twoStages(re, im, sign, size, cos, sin);
  if (size <= count) lastStage(re, im, sign, cos, sin);
  if (inverse)
    for (let i = 0; i < count; i++) {
      re[i] = re[i]! / count;
      im[i] = im[i]! / count;
    }
};
