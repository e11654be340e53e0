import { butterworth, negated, quantileInPlace, zeroPhase } from '../signal/index.js';
import type { CraftFamily } from '../units/craft.js';
import type { Template } from './matched-filter.js';
import { LEARNING_SETTINGS } from './stroke-settings.js';

const bump = (t: number, at: number, width: number): number => Math.exp(-0.5 * ((t - at) / width) ** 2);

const sampled = (beforeS: number, afterS: number, rateHz: number, shape: (t: number) => number): Template => {
  const before = Math.round(beforeS * rateHz);
  const values = Float64Array.from({ length: before + Math.round(afterS * rateHz) + 1 }, (_, i) =>
    shape((i - before) / rateHz),
  );
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return { before, values: values.map((value) => value - mean) };
};

/** A rowing stroke as every boat shows it: the check at the catch, the drive of `driveS`, the crew's return. */
const rowingShape =
  (driveS: number) =>
  (t: number): number =>
    -bump(t, 0, 0.09) - 0.35 * bump(t, -0.25, 0.15) + 0.55 * bump(t, 0.5 * driveS, 0.22 * driveS);

/** A paddle stroke of a given interval: one pull, one pause. */
const paddleShape =
  (intervalS: number) =>
  (t: number): number =>
    -Math.cos((2 * Math.PI * t) / intervalS);

/** Intervals of first guesses for paddled craft, s: within a third of any rate the family has. */
const PADDLE_INTERVALS_S: Readonly<Record<Exclude<CraftFamily, 'rowing'>, readonly number[]>> = {
  kayak: [0.42, 0.6, 0.85],
  canoe: [0.8, 1.2, 1.8],
  dragon: [0.6, 0.85],
};

/** A sharp paddle stroke: the dip as the blade goes in, and the pull. */
const entryShape =
  (intervalS: number) =>
  (t: number): number =>
    -bump(t, 0, 0.06) + 0.7 * bump(t, 0.3 * intervalS, 0.14 * intervalS);

/** Interval of the sharp first guess for paddled craft, s: near their usual rate. */
const PADDLE_USUAL_S: Readonly<Record<Exclude<CraftFamily, 'rowing'>, number>> = {
  kayak: 0.6,
  canoe: 1.2,
  dragon: 0.75,
};

/** Intervals of smooth guesses for rowing, s: for sensors that show the body more than the hull. */
const ROWING_INTERVALS_S = [1.5, 2.1, 3];

const turned = ({ before, values }: Template): Template => ({ before, values: negated(values) });

/**
 * What strokes of a family may look like before any has been seen: shapes only, their size is learnt. Sharp ones
 * either way round, for the way the sensor points is not known, and smooth ones.
 * @returns shapes that are like one another, in groups
 */
export const firstGuesses = (
  family: CraftFamily,
  rateHz: number,
): readonly (readonly [Template, ...Template[]])[] => {
  const smooth = (intervalS: number) => sampled(intervalS / 2, intervalS / 2, rateHz, paddleShape(intervalS));
  if (family === 'rowing') {
    const hull = (driveS: number) => sampled(0.5, 1.1 * driveS, rateHz, rowingShape(driveS));
    const [quick, slow] = [hull(0.75), hull(1)];
    const [one, two, three] = ROWING_INTERVALS_S.map(smooth) as [Template, Template, Template];
    return [
      [quick, slow],
      [turned(quick), turned(slow)],
      [one, two, three],
    ];
  }
  const usualS = PADDLE_USUAL_S[family];
  const entry = sampled(0.4 * usualS, 0.55 * usualS, rateHz, entryShape(usualS));
  const [first, ...others] = PADDLE_INTERVALS_S[family].map(smooth) as [Template, ...Template[]];
  return [[entry], [turned(entry)], [first, ...others]];
};

/**
 * Median signal around marks, sample by sample.
 * @param marks positions in samples, between samples too
 * @param before samples before the mark
 * @param after samples after it
 * @returns null where fewer than LEARNING_SETTINGS.leastStrokes lie whole within the signal
 */
export const averageAround = (
  values: Float64Array,
  marks: readonly number[],
  before: number,
  after: number,
): Float64Array | null => {
  const whole = marks.filter((mark) => mark >= before + 1 && mark < values.length - after - 2);
  if (whole.length < LEARNING_SETTINGS.leastStrokes) return null;
  const every = Math.max(1, Math.floor(whole.length / LEARNING_SETTINGS.mostStrokes));
  const used = Float64Array.from(whole.filter((_, i) => i % every === 0));
  const made = new Float64Array(before + after + 1);
  const column = new Float64Array(used.length);
  for (let lag = -before; lag <= after; lag++) {
    for (let i = 0; i < used.length; i++) {
      const at = used[i]! + lag;
      const low = Math.floor(at);
      const share = at - low;
      column[i] = values[low]! + share * (values[low + 1]! - values[low]!);
    }
    made[lag + before] = quantileInPlace(column, 0.5);
  }
  return made;
};

const fadeOf = (length: number): number => Math.max(2, Math.round(LEARNING_SETTINGS.fadeShare * length));

/** Third moment over the sd cubed: 0 for what is alike on both sides of its mean. */
const skewness = (values: readonly number[]): number => {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const moment = (power: number) =>
    values.reduce((sum, value) => sum + (value - mean) ** power, 0) / values.length;
  const variance = moment(2);
  return variance > 0 ? moment(3) / variance ** 1.5 : 0;
};

/**
 * How clearly a shape shows that forward is positive: the check at the catch bends more sharply than the gain on
 * the drive, and the hull comes out of it faster than it goes in.
 * @returns above 0 where forward is positive, below where it is negative: skewness of its bend and of its slope
 */
export const forwardness = (values: Float64Array): number => {
  // the faded ends bend by themselves
  const fade = fadeOf(values.length);
  const bend: number[] = [];
  const slope: number[] = [];
  for (let i = fade; i < values.length - fade; i++) {
    const at = (k: number) => values[k] ?? 0;
    bend.push(at(i - 1) + at(i + 1) - 2 * at(i));
    slope.push(at(i + 1) - at(i - 1));
  }
  return bend.length < 4 ? 0 : skewness(bend) + skewness(slope);
};

/**
 * Sample of the check in an averaged stroke: the sharp low point that the drive rises from. Where a crew swings
 * forward the hull may be slower still, but the drive does not follow at once.
 * @param stroke average of more than one cycle
 * @param from first sample of the cycle in which the drive is sought
 * @param to its last
 * @returns null where there is no low point
 */
const checkOf = (
  stroke: Float64Array,
  from: number,
  to: number,
  forward: 1 | -1,
  rateHz: number,
  intervalS: number,
): number | null => {
  const [lowHz, highHz] = LEARNING_SETTINGS.checkBandHz;
  const bandHz = Math.max(lowHz, Math.min(highHz, LEARNING_SETTINGS.checkBandCycles / intervalS));
  const smooth = zeroPhase(stroke, butterworth(2, bandHz / (rateHz / 2)));
  const reach = Math.max(1, Math.round(LEARNING_SETTINGS.bendS * rateHz));
  const at = (i: number) => forward * smooth[Math.max(0, Math.min(smooth.length - 1, i))]!;
  let top = from;
  for (let i = from; i <= to; i++) if (at(i) > at(top)) top = i;
  const lows: { i: number; bend: number }[] = [];
  for (let i = 1; i < top; i++)
    if (at(i) <= at(i - 1) && at(i) <= at(i + 1))
      lows.push({ i, bend: at(i - reach) + at(i + reach) - 2 * at(i) });
  const deepest = Math.min(...lows.map(({ i }) => at(i)));
  const deep = lows.filter(({ i }) => at(i) <= deepest + LEARNING_SETTINGS.riseShare * (at(top) - deepest));
  const most = Math.max(...deep.map(({ bend }) => bend));
  return deep.findLast(({ bend }) => bend >= LEARNING_SETTINGS.sharpShare * most)?.i ?? null;
};

/**
 * The crew's own stroke: the median over many, sample by sample, around their marks, with the mark moved to
 * the bottom of the check.
 * @param values stroke signal, either sign
 * @param marks positions in samples, between samples too
 * @param intervalS usual interval between them, s
 * @param forward sign of forward acceleration
 * @returns null where there are too few
 */
export const learnTemplate = (
  values: Float64Array,
  marks: readonly number[],
  intervalS: number,
  rateHz: number,
  forward: 1 | -1,
): Template | null => {
  const { beforeShare, beforeS, afterShare, afterS } = LEARNING_SETTINGS;
  const before = Math.max(2, Math.round(Math.min(beforeShare * intervalS, beforeS) * rateHz));
  const after = Math.max(2, Math.round(Math.min(afterShare * intervalS, afterS) * rateHz));
  const around = Math.round(Math.min(intervalS / 2, LEARNING_SETTINGS.aroundS) * rateHz);
  const wide = averageAround(values, marks, before + around, after + around);
  const check = wide && checkOf(wide, around, around + before + after, forward, rateHz, intervalS);
  if (check === null) return null;
  const shift = check - before - around;
  const made = averageAround(
    values,
    marks.map((mark) => mark + shift),
    before,
    after,
  );
  if (!made) return null;
  const ramp = fadeOf(made.length);
  for (let i = 0; i < ramp; i++) {
    const fade = 0.5 - 0.5 * Math.cos((Math.PI * (i + 0.5)) / ramp);
    made[i] = made[i]! * fade;
    made[made.length - 1 - i] = made[made.length - 1 - i]! * fade;
  }
  return { before, values: made };
};
