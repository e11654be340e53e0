import { type MotionModel, NOISE, NOISE_SIZE, STATE_COUNT, STEP, STEP_SIZE } from './motion-model.js';

/** Entries of a symmetric matrix, row by row from the diagonal on. */
export const PACKED = (STATE_COUNT * (STATE_COUNT + 1)) / 2;

/** Where a row of a packed matrix would begin, had it all its columns: entry (i, j), j ≥ i, stands at ROWS[i] + j. */
export const ROWS = Int8Array.from({ length: STATE_COUNT }, (_, i) => i * STATE_COUNT - (i * (i + 1)) / 2);

/**
 * Take the covariance of the filter's state (packed) over the step from knot k to k + 1: F P Fᵀ + Q, of which the
 * half above the diagonal is worked out. Written out entry by entry: F holds 18 numbers of 64, and the filter spends
 * its time here.
 */
export const covarianceOverStep = (
  p: Float64Array,
  { steps, noise, course }: MotionModel,
  k: number,
): void => {
  const s = k * STEP_SIZE;
  const ea = steps[s]!;
  const ew = steps[s + 1]!;
  const es = steps[s + 2]!;
  const na = steps[s + 3]!;
  const nw = steps[s + 4]!;
  const ns = steps[s + 5]!;
  const cos = steps[s + STEP.cos]!;
  const sin = steps[s + STEP.sin]!;
  const vs = steps[s + STEP.speedSurge]!;
  const surgeKept = steps[s + STEP.surgeKept]!;
  const errorKept = steps[s + STEP.errorKept]!;
  const speedErrorKept = steps[s + STEP.speedErrorKept]!;

  // States in the order of STATE: p23 is the covariance of the speeds along and across.
  const p02 = p[2]!;
  const p03 = p[3]!;
  const p04 = p[4]!;
  const p12 = p[9]!;
  const p13 = p[10]!;
  const p14 = p[11]!;
  const p22 = p[15]!;
  const p23 = p[16]!;
  const p24 = p[17]!;
  const p25 = p[18]!;
  const p26 = p[19]!;
  const p33 = p[21]!;
  const p34 = p[22]!;
  const p35 = p[23]!;
  const p36 = p[24]!;
  const p44 = p[26]!;
  const p45 = p[27]!;
  const p46 = p[28]!;
  const p27 = p[20]!;
  const p37 = p[25]!;
  const p47 = p[29]!;

  // F P: one row of F after the other, the columns that are needed of it.
  const u2 = p22 + vs * p24;
  const u3 = p23 + vs * p34;
  const u4 = p24 + vs * p44;
  const u5 = p25 + vs * p45;
  const u6 = p26 + vs * p46;
  const u7 = p27 + vs * p47;
  const t00 = p[0]! + ea * p02 + ew * p03 + es * p04;
  const t01 = p[1]! + ea * p12 + ew * p13 + es * p14;
  const t02 = p02 + ea * p22 + ew * p23 + es * p24;
  const t03 = p03 + ea * p23 + ew * p33 + es * p34;
  const t04 = p04 + ea * p24 + ew * p34 + es * p44;
  const t11 = p[8]! + na * p12 + nw * p13 + ns * p14;
  const t12 = p12 + na * p22 + nw * p23 + ns * p24;
  const t13 = p13 + na * p23 + nw * p33 + ns * p34;
  const t14 = p14 + na * p24 + nw * p34 + ns * p44;
  const t22 = cos * u2 + sin * p23;
  const t23 = cos * u3 + sin * p33;
  const t24 = cos * u4 + sin * p34;
  const t32 = -sin * u2 + cos * p23;
  const t33 = -sin * u3 + cos * p33;
  const t34 = -sin * u4 + cos * p34;

  const q = k * NOISE_SIZE;
  const east = course.east[k]!;
  const north = course.north[k]!;
  const pp = noise[q]!;
  const pv = noise[q + 1]!;
  const pa = noise[q + 2]!;
  const wpp = noise[q + NOISE.acrossPp]!;
  const wpv = noise[q + NOISE.acrossPv]!;
  const error = noise[q + NOISE.error]!;

  // (F P) Fᵀ + Q, row by row.
  const u0 = t02 + vs * t04;
  p[0] = t00 + ea * t02 + ew * t03 + es * t04 + (east * east * pp + north * north * wpp);
  p[1] = t01 + na * t02 + nw * t03 + ns * t04 + east * north * (pp - wpp);
  p[2] = cos * u0 + sin * t03 + east * pv;
  p[3] = -sin * u0 + cos * t03 + north * wpv;
  p[4] = surgeKept * t04 + east * pa;
  p[5] = errorKept * (p[5]! + ea * p25 + ew * p35 + es * p45);
  p[6] = errorKept * (p[6]! + ea * p26 + ew * p36 + es * p46);
  const u1 = t12 + vs * t14;
  p[8] = t11 + na * t12 + nw * t13 + ns * t14 + (north * north * pp + east * east * wpp);
  p[9] = cos * u1 + sin * t13 + north * pv;
  p[10] = -sin * u1 + cos * t13 - east * wpv;
  p[11] = surgeKept * t14 + north * pa;
  p[12] = errorKept * (p[12]! + na * p25 + nw * p35 + ns * p45);
  p[13] = errorKept * (p[13]! + na * p26 + nw * p36 + ns * p46);
  const along = t22 + vs * t24;
  p[15] = cos * along + sin * t23 + noise[q + NOISE.vv]!;
  p[16] = -sin * along + cos * t23;
  p[17] = surgeKept * t24 + noise[q + NOISE.va]!;
  p[18] = errorKept * (cos * u5 + sin * p35);
  p[19] = errorKept * (cos * u6 + sin * p36);
  p[21] = -sin * (t32 + vs * t34) + cos * t33 + noise[q + NOISE.acrossVv]!;
  p[22] = surgeKept * t34;
  p[23] = errorKept * (-sin * u5 + cos * p35);
  p[24] = errorKept * (-sin * u6 + cos * p36);
  p[26] = surgeKept * (surgeKept * p44) + noise[q + NOISE.aa]!;
  p[27] = errorKept * (surgeKept * p45);
  p[28] = errorKept * (surgeKept * p46);
  p[30] = errorKept * (errorKept * p[30]!) + error;
  p[31] = errorKept * (errorKept * p[31]!);
  p[33] = errorKept * (errorKept * p[33]!) + error;
  p[7] = speedErrorKept * (p[7]! + ea * p27 + ew * p37 + es * p47);
  p[14] = speedErrorKept * (p[14]! + na * p27 + nw * p37 + ns * p47);
  p[20] = speedErrorKept * (cos * u7 + sin * p37);
  p[25] = speedErrorKept * (-sin * u7 + cos * p37);
  p[29] = speedErrorKept * (surgeKept * p47);
  p[32] = speedErrorKept * (errorKept * p[32]!);
  p[34] = speedErrorKept * (errorKept * p[34]!);
  p[35] = speedErrorKept * (speedErrorKept * p[35]!) + noise[q + NOISE.speedError]!;
};

/**
 * Take what the samples from knot k + 1 on tell of the state (packed) back over the step from knot k: Fᵀ M F, written
 * out like {@link covarianceOverStep}.
 */
export const informationOverStep = (m: Float64Array, steps: Float64Array, k: number): void => {
  const s = k * STEP_SIZE;
  const ea = steps[s]!;
  const ew = steps[s + 1]!;
  const es = steps[s + 2]!;
  const na = steps[s + 3]!;
  const nw = steps[s + 4]!;
  const ns = steps[s + 5]!;
  const cos = steps[s + STEP.cos]!;
  const sin = steps[s + STEP.sin]!;
  const vs = steps[s + STEP.speedSurge]!;
  const surgeKept = steps[s + STEP.surgeKept]!;
  const errorKept = steps[s + STEP.errorKept]!;
  const speedErrorKept = steps[s + STEP.speedErrorKept]!;

  const m00 = m[0]!;
  const m01 = m[1]!;
  const m02 = m[2]!;
  const m03 = m[3]!;
  const m04 = m[4]!;
  const m05 = m[5]!;
  const m06 = m[6]!;
  const m11 = m[8]!;
  const m12 = m[9]!;
  const m13 = m[10]!;
  const m14 = m[11]!;
  const m15 = m[12]!;
  const m16 = m[13]!;
  const m22 = m[15]!;
  const m23 = m[16]!;
  const m24 = m[17]!;
  const m33 = m[21]!;
  const m34 = m[22]!;

  // M F: the columns of the speeds along (v) and across (w) and of the surge (a), row by row.
  const u0 = cos * m02 - sin * m03;
  const u1 = cos * m12 - sin * m13;
  const u2 = cos * m22 - sin * m23;
  const u3 = cos * m23 - sin * m33;
  const u4 = cos * m24 - sin * m34;
  const u5 = cos * m[18]! - sin * m[23]!;
  const u6 = cos * m[19]! - sin * m[24]!;
  const v0 = ea * m00 + na * m01 + u0;
  const v1 = ea * m01 + na * m11 + u1;
  const v2 = ea * m02 + na * m12 + u2;
  const v3 = ea * m03 + na * m13 + u3;
  const w0 = ew * m00 + nw * m01 + sin * m02 + cos * m03;
  const w1 = ew * m01 + nw * m11 + sin * m12 + cos * m13;
  const w2 = ew * m02 + nw * m12 + sin * m22 + cos * m23;
  const w3 = ew * m03 + nw * m13 + sin * m23 + cos * m33;
  const a0 = es * m00 + ns * m01 + vs * u0 + surgeKept * m04;
  const a1 = es * m01 + ns * m11 + vs * u1 + surgeKept * m14;
  const a2 = es * m02 + ns * m12 + vs * u2 + surgeKept * m24;
  const a3 = es * m03 + ns * m13 + vs * u3 + surgeKept * m34;
  const a4 = es * m04 + ns * m14 + vs * u4 + surgeKept * m[26]!;

  // Fᵀ (M F), row by row; of the places among themselves it is what it was.
  m[2] = v0;
  m[3] = w0;
  m[4] = a0;
  m[5] = errorKept * m05;
  m[6] = errorKept * m06;
  m[9] = v1;
  m[10] = w1;
  m[11] = a1;
  m[12] = errorKept * m15;
  m[13] = errorKept * m16;
  m[15] = ea * v0 + na * v1 + cos * v2 - sin * v3;
  m[16] = ea * w0 + na * w1 + cos * w2 - sin * w3;
  m[17] = ea * a0 + na * a1 + cos * a2 - sin * a3;
  const v5 = ea * m05 + na * m15 + u5;
  const v6 = ea * m06 + na * m16 + u6;
  const w5 = ew * m05 + nw * m15 + sin * m[18]! + cos * m[23]!;
  const w6 = ew * m06 + nw * m16 + sin * m[19]! + cos * m[24]!;
  m[18] = errorKept * v5;
  m[19] = errorKept * v6;
  m[21] = ew * w0 + nw * w1 + sin * w2 + cos * w3;
  m[22] = ew * a0 + nw * a1 + sin * a2 + cos * a3;
  m[23] = errorKept * w5;
  m[24] = errorKept * w6;
  m[26] = es * a0 + ns * a1 + vs * (cos * a2 - sin * a3) + surgeKept * a4;
  m[27] = errorKept * (es * m05 + ns * m15 + vs * u5 + surgeKept * m[27]!);
  m[28] = errorKept * (es * m06 + ns * m16 + vs * u6 + surgeKept * m[28]!);
  m[30] = errorKept * (errorKept * m[30]!);
  m[31] = errorKept * (errorKept * m[31]!);
  m[33] = errorKept * (errorKept * m[33]!);
  const m07 = m[7]!;
  const m17 = m[14]!;
  const m27 = m[20]!;
  const m37 = m[25]!;
  const u7 = cos * m27 - sin * m37;
  m[7] = speedErrorKept * m07;
  m[14] = speedErrorKept * m17;
  m[20] = speedErrorKept * (ea * m07 + na * m17 + u7);
  m[25] = speedErrorKept * (ew * m07 + nw * m17 + sin * m27 + cos * m37);
  m[29] = speedErrorKept * (es * m07 + ns * m17 + vs * u7 + surgeKept * m[29]!);
  m[32] = speedErrorKept * (errorKept * m[32]!);
  m[34] = speedErrorKept * (errorKept * m[34]!);
  m[35] = speedErrorKept * (speedErrorKept * m[35]!);
};
