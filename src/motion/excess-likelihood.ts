import type { SpeedWander, Wander } from './noise.js';
import type { PathExcess } from './path-excess.js';

/** What is supposed of the errors of position and speed. */
export interface Supposed {
  readonly position: Wander;
  readonly speed: SpeedWander;
  /** Each fix's own error, sd, m. */
  readonly whiteSdM: number;
  /** Variance that the white error of the speed adds to its sum, m²/s. */
  readonly whiteM2ps: number;
}

/** Variance of what stands at the beginning of a run, m². */
const FAR_M2 = 1e6;

/**
 * Log-likelihood of an excess, up to what all suppositions share: a Kalman filter of three states, the wandering
 * position error w, the summed error of the speed b and the wandering part d of the speed's error. The noise of b and
 * d over a step is that of an Ornstein-Uhlenbeck process and its integral (Gillespie 1996, Phys. Rev. E 54:2084).
 */
export const excessLikelihood = (
  { atS, metres, fixCount, begins }: PathExcess,
  { position, speed, whiteSdM, whiteM2ps }: Supposed,
): number => {
  const q = position.sdM ** 2;
  const r = speed.sdMps ** 2;
  const speedS = speed.correlationS;
  let [w, b, d] = [0, 0, 0];
  let [ww, wb, wd, bb, bd, dd] = [q, 0, 0, FAR_M2, 0, r];
  let sum = 0;
  for (let i = 0; i < atS.length; i++) {
    if (i > 0) {
      const stepS = atS[i]! - atS[i - 1]!;
      const keptW = Math.exp(-stepS / position.correlationS);
      const keptD = Math.exp(-stepS / speedS);
      const toB = speedS * (1 - keptD);
      w *= keptW;
      b += toB * d;
      d *= keptD;
      ww = keptW * keptW * ww + q * (1 - keptW * keptW);
      wb = keptW * (wb + toB * wd);
      wd = keptW * keptD * wd;
      const noiseB = 2 * r * speedS * (stepS - 2 * toB + (speedS * (1 - keptD * keptD)) / 2);
      bb = bb + 2 * toB * bd + toB * toB * dd + noiseB + whiteM2ps * stepS;
      bd = keptD * (bd + toB * dd) + r * speedS * (1 - keptD) ** 2;
      dd = keptD * keptD * dd + r * (1 - keptD * keptD);
    }
    if (begins[i]) {
      b = 0;
      bb = FAR_M2;
      wb = 0;
      bd = 0;
    }
    const hw = wb - ww;
    const hb = bb - wb;
    const hd = bd - wd;
    const seen = hb - hw + whiteSdM ** 2 / fixCount[i]!;
    const innovation = metres[i]! - b + w;
    if (!begins[i]) sum -= (Math.log(seen) + (innovation * innovation) / seen) / 2;
    const scaled = innovation / seen;
    w += hw * scaled;
    b += hb * scaled;
    d += hd * scaled;
    ww -= (hw * hw) / seen;
    wb -= (hw * hb) / seen;
    wd -= (hw * hd) / seen;
    bb -= (hb * hb) / seen;
    bd -= (hb * hd) / seen;
    dd -= (hd * hd) / seen;
  }
  return sum;
};
