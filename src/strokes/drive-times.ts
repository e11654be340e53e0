import { negated, peaks } from '../signal/index.js';
import { FIGURE_SETTINGS } from './stroke-settings.js';

/** A whole stroke, in samples of the surge. */
export interface WholeStroke {
  readonly from: number;
  readonly to: number;
}

/** A stroke of those around it, from its catch mark on, between samples too. */
const fromMark = (band: Float64Array, from: number, length: number): Float64Array => {
  const made = new Float64Array(length);
  for (let k = 0; k < length; k++) {
    const at = from + k;
    const low = Math.max(0, Math.min(band.length - 2, Math.floor(at)));
    made[k] = band[low]! + (at - low) * (band[low + 1]! - band[low]!);
  }
  return made;
};

/** Dip where the blade leaves the water. */
interface Dip {
  readonly index: number;
  readonly prominence: number;
}

/** Dips after the top of the drive that stand so deep, and the swing from catch to drive. */
const dipsOf = (stroke: Float64Array, last: number, rateHz: number) => {
  const { leastDriveS, dipShare } = FIGURE_SETTINGS;
  const first = Math.round(leastDriveS * rateHz);
  let top = 0;
  for (let i = 0; i <= last && i < stroke.length; i++) if (stroke[i]! > stroke[top]!) top = i;
  const swing = stroke[top]! - stroke[0]!;
  const after = Math.max(top, first);
  const dips: Dip[] = peaks(negated(stroke.subarray(after)))
    .map(({ index, prominence }) => ({ index: after + index, prominence }))
    .filter(({ index, prominence }) => index <= last && prominence >= dipShare * swing);
  return { dips, swing };
};

/** What a few strokes in a row have in common, and what they differ by. */
interface Usual {
  readonly mean: Float64Array;
  /** Standard deviation of one stroke about the others, m/s². */
  readonly sd: number;
  readonly count: number;
}

const usualOf = (strokes: readonly Float64Array[]): Usual => {
  const length = Math.min(...strokes.map((stroke) => stroke.length));
  const count = strokes.length;
  const mean = new Float64Array(length);
  for (const stroke of strokes) for (let k = 0; k < length; k++) mean[k] = mean[k]! + stroke[k]! / count;
  let square = 0;
  for (const stroke of strokes) for (let k = 0; k < length; k++) square += (stroke[k]! - mean[k]!) ** 2;
  return { mean, sd: Math.sqrt(square / (length * (count - 1))), count };
};

/**
 * Catch mark to the dip in surge where the blade leaves the water, of each stroke, s; null where no dip stands out
 * of the noise. Noise makes a dip in any stroke, but not in the same place of all: the mean of the strokes around
 * has to show one, beyond what chance makes of such a mean, and the stroke's own has to be there, and deep enough.
 * @param band surge low-passed at the bandwidth of the catch mark, forward positive
 * @param strokes in order; null for one without an end or with samples missing
 */
export const driveTimes = (
  band: Float64Array,
  strokes: readonly (WholeStroke | null)[],
  rateHz: number,
): (number | null)[] => {
  const { mostDriveShare, driveReach, leastDriveStrokes, dipSds, ownDipSds, dipMovesS } = FIGURE_SETTINGS;
  const forms = strokes.map((stroke) => {
    const length = stroke === null ? 0 : Math.floor(Math.min(stroke.to, band.length - 1) - stroke.from);
    return length < 4 ? null : fromMark(band, stroke!.from, length);
  });
  const reach = Math.round(dipMovesS * rateHz);
  return forms.map((form, i) => {
    if (form === null) return null;
    const around = forms
      .slice(Math.max(0, i - driveReach), i + driveReach + 1)
      .filter((other) => other !== null)
      .filter(({ length }) => Math.abs(Math.log(length / form.length)) < FIGURE_SETTINGS.driveAlike);
    if (around.length < leastDriveStrokes) return null;
    const usual = usualOf(around);
    const last = Math.round(mostDriveShare * form.length);
    const { dips } = dipsOf(usual.mean, last, rateHz);
    const common = dips.find(({ prominence }) => prominence >= (dipSds * usual.sd) / Math.sqrt(usual.count));
    if (!common) return null;
    const own = dipsOf(form, last, rateHz)
      .dips.filter(({ index }) => Math.abs(index - common.index) <= reach)
      .sort((p, q) => q.prominence - p.prominence)[0];
    return own && own.prominence >= ownDipSds * usual.sd ? own.index / rateHz : null;
  });
};
