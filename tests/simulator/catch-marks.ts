import { zeroPhaseLowPass } from './low-pass.js';
import type { LaidScript, PlannedStroke } from './script.js';

const CUT_HZ = 5;
/** Share of the cycle searched on either side of the planned catch. */
const SEARCH = 0.2;
/** From rest: the surge that counts as the first, m/s², and for how long, s. */
const FIRST_MPS2 = 0.2;
const FIRST_S = 0.2;

const vertex = (before: number, least: number, after: number): number => {
  const bend = before - 2 * least + after;
  return bend > 0 ? Math.max(-0.5, Math.min(0.5, (before - after) / (2 * bend))) : 0;
};

const minimumNear = (surge: Float64Array, stepS: number, stroke: PlannedStroke): number => {
  const reach = SEARCH * stroke.periodS;
  const from = Math.max(1, Math.round((stroke.catchS - reach) / stepS));
  const to = Math.min(surge.length - 2, Math.round((stroke.catchS + reach) / stepS));
  let least = from;
  for (let i = from; i <= to; i++) if (surge[i]! < surge[least]!) least = i;
  return (least + vertex(surge[least - 1]!, surge[least]!, surge[least + 1]!)) * stepS;
};

const firstSurge = (surge: Float64Array, stepS: number, stroke: PlannedStroke): number => {
  const wanted = Math.round(FIRST_S / stepS);
  let run = 0;
  const from = Math.max(0, Math.round((stroke.catchS - 0.5) / stepS));
  for (let i = from; i < surge.length; i++) {
    run = surge[i]! > FIRST_MPS2 ? run + 1 : 0;
    if (run === wanted) return (i - wanted + 1) * stepS;
  }
  return stroke.catchS;
};

/** Catch marks by their definition, forward strokes apart from those that back the boat down, s. */
export const catchMarks = (
  script: LaidScript,
  surgeMps2: Float64Array,
  stepS: number,
): { readonly forwardS: number[]; readonly backS: number[] } => {
  const smooth = zeroPhaseLowPass(surgeMps2, stepS, CUT_HZ);
  const [forwardS, backS]: [number[], number[]] = [[], []];
  for (const stroke of script.rowingIntervals.flatMap((rowing) => rowing.strokes)) {
    if (stroke.way < 0) backS.push(stroke.catchS);
    else if (stroke.fromRest) forwardS.push(firstSurge(smooth, stepS, stroke));
    else forwardS.push(minimumNear(smooth, stepS, stroke));
  }
  return { forwardS, backS };
};
