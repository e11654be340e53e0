import type { Interval, Track } from '../motion/track.js';
import { meanSquare, median } from '../signal/index.js';
import { GAUGE_SETTINGS } from './gauge-settings.js';
import { restsOf } from './rest.js';
import { ROWING_SETTINGS } from './rowing-settings.js';
import { overCycle, steadyStrokes } from './stroke-cycle.js';
import type { StrokeSignal } from './stroke-signal.js';

/** Strokes that follow others in rows long enough to tell what their cycles have in common. */
const inTrains = (marksS: readonly number[]): readonly number[] => {
  const { longestCycleS, leastCycles } = ROWING_SETTINGS;
  const rows: number[][] = [];
  for (const [i, atS] of marksS.entries())
    if (i > 0 && atS - marksS[i - 1]! <= longestCycleS) rows.at(-1)!.push(atS);
    else rows.push([atS]);
  return rows.filter((row) => row.length > leastCycles).flat();
};

/** What one signal shows of its noise and its strokes. */
export interface StrokeGauge {
  /** Stretches of rest on the signal's clock, and their length in all, s. */
  readonly rests: readonly Interval[];
  readonly restS: number;
  /** Strokes in trains found in them although the boat rested, a minute: a few in a row straighten or turn a boat; null where rest is reported by the want of strokes. */
  readonly falsePerMin: number | null;
  /** Mean square of the surge at rest, waves and sensor together, (m/s²)²; null with too little rest. */
  readonly noiseSquare: number | null;
  /** Steady strokes outside the rests, and their mean rate, spm. */
  readonly strokeCount: number;
  readonly rateSpm: number | null;
  /** The average stroke, m/s², from catch mark to catch mark, its last point left out; null with too few strokes. */
  readonly shapeMps2: Float64Array | null;
  /** Mean square of it, less what noise leaves in an average of so many, (m/s²)². */
  readonly strengthSquare: number | null;
}

/** Mean square at rest, over windows; those far above the median are knocks, and left out. */
const noiseSquareOf = ({ surge, rawMps2 }: StrokeSignal, rests: readonly Interval[]): number | null => {
  const { windowS, mostPower } = GAUGE_SETTINGS;
  const size = Math.round(windowS * surge.rateHz);
  const powers: number[] = [];
  for (const { fromS, toS } of rests) {
    const to = Math.min(rawMps2.length, Math.floor((toS - surge.startS) * surge.rateHz));
    for (let i = Math.ceil((fromS - surge.startS) * surge.rateHz); i + size <= to; i += size)
      if (!surge.mask.subarray(i, i + size).includes(1))
        powers.push(meanSquare(rawMps2.subarray(i, i + size)));
  }
  if (powers.length === 0) return null;
  const usual = median(powers);
  const kept = powers.filter((power) => power <= mostPower * usual);
  return kept.reduce((sum, power) => sum + power, 0) / kept.length;
};

/**
 * Gauge a signal: its noise from rest, its strokes by their average over the cycle, in which what is no stroke
 * averages out.
 * @param track tells rest by speed; null leaves it to the want of strokes
 */
export const gaugeStrokes = (signal: StrokeSignal, track: Track | null): StrokeGauge => {
  const { stretches: rests, bySpeed } = restsOf(signal, track);
  const within = (atS: number): boolean => rests.some(({ fromS, toS }) => atS >= fromS && atS <= toS);
  const restS = rests.reduce((sum, { fromS, toS }) => sum + toS - fromS, 0);
  const steady = steadyStrokes(signal).filter(({ index }) => !within(signal.marksS[index]!));
  const { cyclePoints, leastStrokes, leastRestS } = GAUGE_SETTINGS;
  const enough = steady.length >= leastStrokes;
  const shape = new Float64Array(cyclePoints);
  let square = 0;
  for (const { from, to } of steady) {
    const cycle = overCycle(signal.rawMps2, from, to, cyclePoints + 1).subarray(0, cyclePoints);
    square += meanSquare(cycle) / steady.length;
    for (let k = 0; k < cyclePoints; k++) shape[k] = shape[k]! + cycle[k]! / steady.length;
  }
  const own = meanSquare(shape);
  const falseCount = inTrains(signal.marksS.filter(within)).length;
  return {
    rests,
    restS,
    falsePerMin: bySpeed && restS > 0 ? (60 * falseCount) / restS : null,
    noiseSquare: restS >= leastRestS ? noiseSquareOf(signal, rests) : null,
    strokeCount: steady.length,
    rateSpm: steady.length > 0 ? median(steady.map(({ rateSpm }) => rateSpm)) : null,
    shapeMps2: enough ? shape : null,
    // the square of a mean of n holds 1 / n of the variance about it
    strengthSquare: enough ? Math.max(0, own - (square - own) / Math.max(1, steady.length - 1)) : null,
  };
};
