import type { Curve } from '../contract/curve.js';
import type { DrawnCurve } from '../contract/drawn.js';
import { curveSpeed } from './curve.js';
import type { CurveBlock } from './curve-block.js';

/** Steps in which the line is drawn; a bend shows from about 40 on. */
const STEPS = 60;

/** Exponent of constant work a stroke: speed ~ rate^(1/3). */
const CONSTANT_WORK = 1 / 3;

/**
 * What the picture of a curve is drawn from: its blocks, the line, what the bounds of its exponent give, and constant
 * work a stroke. All lines go through the point at which the curve is pinned.
 */
export const drawnCurve = (curve: Curve, blocks: readonly CurveBlock[]): DrawnCurve => {
  const { rate_from_spm: from, rate_to_spm: to, reference_rate_spm, reference_speed_mps } = curve;
  const constant = (rate: number) => reference_speed_mps * (rate / reference_rate_spm) ** CONSTANT_WORK;
  return {
    blocks: blocks.map(({ rateSpm, speedMps }) => ({ rate_spm: rateSpm, speed_mps: speedMps })),
    line: Array.from({ length: STEPS + 1 }, (_, i) => {
      const rate = from + ((to - from) * i) / STEPS;
      const bounds = [curve.exponent_low, curve.exponent_high].map(
        (exponent) => curveSpeed({ ...curve, exponent }, rate)!,
      );
      return {
        rate_spm: rate,
        speed_mps: curveSpeed(curve, rate)!,
        speed_low_mps: Math.min(...bounds),
        speed_high_mps: Math.max(...bounds),
        constant_work_mps: constant(rate),
      };
    }),
  };
};
