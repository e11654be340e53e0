import { markBandOf } from './catch-marks.js';
import { speedChange, speedWithin } from './speed-within.js';
import type { StrokeSignal } from './stroke-signal.js';

/** How a stroke is resampled over its cycle, and which strokes stand for their crew. */
export const CYCLE_SETTINGS = Object.freeze({
  /** Share of the cycle from one point to the next, %. At 20 spm 2 % is 60 ms, still finer than the 5 Hz band. */
  stepPct: 2,
  /** Less likely strokes are left out. */
  leastConfidence: 0.5,
  /** Greatest ratio of two neighbouring intervals: a start, a pause or a missed stroke changes more. */
  steadyRatio: 1.2,
});

/** Points of a cycle, from one catch mark to the next, both included. */
export const CYCLE_POINTS = 100 / CYCLE_SETTINGS.stepPct + 1;

/** One stroke of a hull, at even shares of its own cycle from catch mark to catch mark. */
export interface StrokeCycle {
  readonly rateSpm: number;
  /** Surge, low-passed at 5 Hz as the catch mark is, m/s². */
  readonly accelerationMps2: Float64Array;
  /** Mean of the stroke, m/s; null without a track. */
  readonly speedMps: number | null;
  /** Hull speed, m/s, bound to the track's mean; null without a track. */
  readonly hullSpeedMps: Float64Array | null;
}

/**
 * A signal at even shares of a stretch, both ends included, by straight lines between samples.
 * @param from start of the stretch, in samples
 * @param to its end, in samples
 */
export const overCycle = (
  values: Float64Array,
  from: number,
  to: number,
  points: number = CYCLE_POINTS,
): Float64Array =>
  Float64Array.from({ length: points }, (_, k) => {
    const at = from + ((to - from) * k) / (points - 1);
    const low = Math.max(0, Math.min(values.length - 2, Math.floor(at)));
    const share = Math.max(0, Math.min(1, at - low));
    return values[low]! + share * (values[low + 1]! - values[low]!);
  });

/** True for a stroke in the midst of others like it: its interval is near those before and after. */
const isSteady = ({ marksS, endsS }: StrokeSignal, i: number): boolean => {
  const length = (k: number): number | null => {
    const endS = endsS[k] ?? null;
    return endS === null ? null : endS - marksS[k]!;
  };
  const [own, before, after] = [length(i), i > 0 ? length(i - 1) : null, length(i + 1)];
  if (own === null || before === null) return false;
  const near = (other: number) => Math.max(own / other, other / own) <= CYCLE_SETTINGS.steadyRatio;
  return near(before) && (after === null || near(after));
};

/** A stroke in the midst of steady rowing, without lost samples. */
export interface SteadyStroke {
  /** Its place among the marks of its signal. */
  readonly index: number;
  readonly rateSpm: number;
  /** Its mark and the next one, in samples of the surge. */
  readonly from: number;
  readonly to: number;
}

/** Steady strokes of a signal. The first after a rest is none: its mark is a first movement and no catch. */
export const steadyStrokes = (signal: StrokeSignal): SteadyStroke[] => {
  const { surge, marksS, endsS, confidence } = signal;
  const place = (atS: number): number => (atS - surge.startS) * surge.rateHz;
  return marksS.flatMap((markS, index) => {
    const endS = endsS[index] ?? null;
    if (endS === null || confidence[index]! < CYCLE_SETTINGS.leastConfidence) return [];
    if (!isSteady(signal, index)) return [];
    const [from, to] = [place(markS), place(endS)];
    if (from < 0 || to > surge.mps2.length - 1) return [];
    if (surge.mask.subarray(Math.floor(from), Math.ceil(to) + 1).includes(1)) return [];
    return [{ index, rateSpm: 60 / (endS - markS), from, to }];
  });
};

/** The steady strokes of a hull over their cycles. */
export const strokeCycles = (signal: StrokeSignal): StrokeCycle[] => {
  const { surge, rawMps2, marksS, endsS, speedsMps } = signal;
  // waves average out over strokes; what was predicted of them holds a little of the strokes too
  const markBand = markBandOf(rawMps2, surge.rateHz);
  return steadyStrokes(signal).map(({ index: i, rateSpm, from, to }) => {
    const mean = speedsMps[i]!;
    const speed =
      mean === null
        ? null
        : speedWithin(rawMps2, from, to, surge.rateHz, mean, speedChange(i, marksS, endsS, speedsMps));
    const first = Math.ceil(from);
    return {
      rateSpm,
      accelerationMps2: overCycle(markBand, from, to),
      speedMps: mean,
      hullSpeedMps: speed && overCycle(speed, from - first, to - first),
    };
  });
};

/** Mean over strokes at each point of the cycle, and standard deviation from stroke to stroke. */
export interface CycleAverage {
  readonly mean: Float64Array;
  /** Null with one stroke. */
  readonly sd: Float64Array | null;
}

/** Average of one quantity over cycles; at least one. */
export const cycleAverage = (cycles: readonly Float64Array[]): CycleAverage => {
  const count = cycles.length;
  const mean = new Float64Array(CYCLE_POINTS);
  for (const cycle of cycles) for (let k = 0; k < CYCLE_POINTS; k++) mean[k] = mean[k]! + cycle[k]! / count;
  if (count < 2) return { mean, sd: null };
  const square = new Float64Array(CYCLE_POINTS);
  for (const cycle of cycles)
    for (let k = 0; k < CYCLE_POINTS; k++) square[k] = square[k]! + (cycle[k]! - mean[k]!) ** 2 / (count - 1);
  return { mean, sd: square.map(Math.sqrt) };
};
