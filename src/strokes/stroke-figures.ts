import { lengthBetween } from '../motion/index.js';
import type { Progress } from '../motion/track.js';
import { driveTimes } from './drive-times.js';
import { speedChange, speedWithin } from './speed-within.js';
import { FIGURE_SETTINGS } from './stroke-settings.js';
import type { Surge } from './surge.js';

/**
 * What one stroke did to the hull. Speed variation and extra drag power are of the speed within the stroke about its
 * own straight line from end to end, so a change of pace is not in them; null where the boat still gets under way.
 */
export interface StrokeFigures {
  readonly driveS: number | null;
  readonly speedMinMps: number | null;
  readonly speedMaxMps: number | null;
  readonly speedVariation: number | null;
  readonly extraDragPowerPct: number | null;
  readonly catchDecelerationMps2: number | null;
}

/** A stroke whose inside cannot be known. */
export const NO_FIGURES: StrokeFigures = Object.freeze({
  driveS: null,
  speedMinMps: null,
  speedMaxMps: null,
  speedVariation: null,
  extraDragPowerPct: null,
  catchDecelerationMps2: null,
});

/** Mean speed over ground of each stroke, m/s; null for one without an end or without a track. */
export const strokeSpeeds = (
  marksS: readonly number[],
  endsS: readonly (number | null)[],
  track: Progress | null,
): (number | null)[] =>
  marksS.map((fromS, i) => {
    const toS = endsS[i]!;
    const distance = toS === null ? null : lengthBetween(track, fromS, toS);
    return distance !== null && toS !== null ? distance / (toS - fromS) : null;
  });

/** True where no sample is missing from one up to another. */
const isWhole = (mask: Uint8Array, from: number, to: number): boolean => {
  for (let k = from; k < to; k++) if (mask[k]) return false;
  return true;
};

/**
 * Figures of one stroke.
 * @param from catch mark, in samples of the surge
 * @param to next catch mark, likewise; null for the last stroke before a stop
 * @param meanMps its mean speed; null where it is not known
 * @param changeMps see {@link speedChange}
 * @param driveS see {@link driveTimes}
 */
const figuresOf = (
  { mps2, mask, rateHz }: Surge,
  markBand: Float64Array,
  from: number,
  to: number | null,
  meanMps: number | null,
  changeMps: number,
  driveS: number | null,
): StrokeFigures => {
  const at = Math.round(from);
  if (at < 0 || at >= markBand.length || mask[at]) return NO_FIGURES;
  const catchDecelerationMps2 = markBand[at]!;
  const end = to === null ? null : Math.min(to, markBand.length - 1);
  if (end === null || !isWhole(mask, at, end)) return { ...NO_FIGURES, catchDecelerationMps2 };
  if (meanMps === null || meanMps < FIGURE_SETTINGS.leastSpeedMps)
    return { ...NO_FIGURES, driveS, catchDecelerationMps2 };
  const speed = speedWithin(mps2, from, end, rateHz, meanMps, changeMps);
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  let square = 0;
  let cube = 0;
  for (let k = 0; k < speed.length; k++) {
    const value = speed[k]!;
    least = Math.min(least, value);
    most = Math.max(most, value);
    // A change of pace runs through the stroke as a straight line, and is no part of its unsteadiness.
    const steady = value - changeMps * (k / Math.max(1, speed.length - 1) - 0.5);
    square += (steady - meanMps) ** 2 / speed.length;
    cube += steady ** 3 / speed.length;
  }
  const gettingUnderWay = Math.abs(changeMps) > FIGURE_SETTINGS.mostChangeShare * meanMps;
  return {
    driveS,
    speedMinMps: least,
    speedMaxMps: most,
    speedVariation: gettingUnderWay ? null : Math.sqrt(square) / meanMps,
    // <v³>/<v>³ - 1, drag power beyond the steady one (Hill & Fahrig 2009, Scand. J. Med. Sci. Sports 19:585)
    extraDragPowerPct: gettingUnderWay ? null : 100 * (cube / meanMps ** 3 - 1),
    catchDecelerationMps2,
  };
};

/**
 * Figures of each stroke from the surge of a hull-borne sensor.
 * @param surge forward positive
 * @param markBand the same, low-passed at the bandwidth of the catch mark
 * @param marksS catch marks, s
 * @param endsS next catch mark of each; null for the last before a stop
 * @param speedsMps mean speed of each stroke; see {@link strokeSpeeds}
 */
export const strokeFigures = (
  surge: Surge,
  markBand: Float64Array,
  marksS: readonly number[],
  endsS: readonly (number | null)[],
  speedsMps: readonly (number | null)[],
): StrokeFigures[] => {
  const { startS, rateHz, mask } = surge;
  const place = (atS: number): number => (atS - startS) * rateHz;
  const drives = driveTimes(
    markBand,
    marksS.map((markS, i) => {
      const [from, to] = [place(markS), endsS[i] === null ? null : place(endsS[i]!)];
      return to === null || from < 0 || !isWhole(mask, Math.round(from), to) ? null : { from, to };
    }),
    rateHz,
  );
  return marksS.map((markS, i) => {
    const endS = endsS[i]!;
    const to = endS === null ? null : place(endS);
    const change = speedChange(i, marksS, endsS, speedsMps);
    return figuresOf(surge, markBand, place(markS), to, speedsMps[i]!, change, drives[i]!);
  });
};
