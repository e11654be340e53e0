import type { Interval } from '../motion/track.js';
import { type Channel, excerptOf, usualIntervalS } from '../recording/index.js';
import { type CraftFamily, RATE_RANGE_SPM } from '../units/craft.js';
import { GAUGE_SETTINGS } from './gauge-settings.js';
import { judgeRowing } from './rowing-judgement.js';
import { scoreStrokes } from './stroke-score.js';
import { imuStrokes, speedStrokes } from './surge-strokes.js';

/** What a injection test is made of: a log's own rest, and its own average stroke. */
export interface InjectionSetup {
  /** Acceleration, or speed. */
  readonly channel: Channel;
  /** When nobody rows, on the channel's clock. */
  readonly rests: readonly Interval[];
  /** The average stroke from catch mark to catch mark, m/s². */
  readonly shapeMps2: Float64Array;
  /** Direction of the surge in the sensor's axes, forward; of no use for a speed. */
  readonly axis: readonly [number, number, number];
  readonly family: CraftFamily;
}

/** How well strokes were found at one rate. */
export interface InjectionResult {
  readonly rateSpm: number;
  /** F1 of the strokes found. */
  readonly f1: number;
}

const longestOf = (rests: readonly Interval[]): Interval | null =>
  rests.reduce<Interval | null>(
    (most, rest) => (most === null || rest.toS - rest.fromS > most.toS - most.fromS ? rest : most),
    null,
  );

/** Marks that the whole detector finds in a channel, without a track. */
const marksIn = (channel: Channel, family: CraftFamily): readonly number[] => {
  const isImu = channel.name === 'acceleration';
  const found = isImu ? imuStrokes(channel, null, family) : speedStrokes(channel, family);
  if (!found) return [];
  const about = { track: null, toLog: (atS: number) => atS, strengthMps2: null, showsCycles: isImu };
  return judgeRowing(found, about).strokes.marksS;
};

/** The longest rest, repeated over so many samples, each repeat blended into the next. */
const repeatedRest = (
  { atS, columns }: Channel,
  rests: readonly Interval[],
  stepS: number,
  count: number,
): Float64Array[] | null => {
  const longest = longestOf(rests);
  if (longest === null) return null;
  const from = atS.findIndex((at) => at >= longest.fromS);
  const end = atS.findLastIndex((at) => at <= longest.toS);
  const blend = Math.round(GAUGE_SETTINGS.blendS / stepS);
  const length = end - from - blend;
  if (from < 0 || length < 4 * blend) return null;
  return columns.map((column) =>
    Float64Array.from({ length: count }, (_, i) => {
      const at = i % length;
      const value = column[from + at]!;
      if (i < length || at >= blend) return value;
      return value * (at / blend) + column[from + length + at]! * (1 - at / blend);
    }),
  );
};

/** Numbers spread evenly over -1 … 1, no two neighbours alike: multiples of the golden ratio (Weyl 1916). */
const evenlyPlaced = (i: number): number => 2 * ((i * 0.6180339887) % 1) - 1;

interface Cycle {
  readonly fromS: number;
  readonly lengthS: number;
  readonly size: number;
}

const cyclesAt = (rateSpm: number): Cycle[] => {
  const { trialStrokes, trialLeastS, trialMostS, trialRestS, intervalDispersion, sizeDispersion } =
    GAUGE_SETTINGS;
  const usualS = 60 / rateSpm;
  const rowS = Math.max(trialLeastS, Math.min(trialMostS, trialStrokes * usualS));
  const cycles: Cycle[] = [];
  for (let fromS = trialRestS; fromS < trialRestS + rowS; ) {
    const i = cycles.length;
    const lengthS = usualS * (1 + intervalDispersion * evenlyPlaced(i));
    cycles.push({ fromS, lengthS, size: 1 + sizeDispersion * evenlyPlaced(7 * i + 3) });
    fromS += lengthS;
  }
  return cycles;
};

/** A cycle's running sum, m/s at 1 s a cycle, without its mean: what the stroke does to the speed. */
const speedShape = (shape: Float64Array): Float64Array => {
  const mean = shape.reduce((sum, value) => sum + value, 0) / shape.length;
  let sum = 0;
  return shape.map((value) => {
    sum += (value - mean) / shape.length;
    return sum;
  });
};

const lay = (
  column: Float64Array,
  shape: Float64Array,
  cycles: readonly Cycle[],
  stepS: number,
  scale: (cycle: Cycle) => number,
): void => {
  for (const cycle of cycles) {
    const { fromS, lengthS } = cycle;
    for (let i = Math.ceil(fromS / stepS); i * stepS < fromS + lengthS && i < column.length; i++) {
      const at = ((i * stepS - fromS) / lengthS) * shape.length;
      const low = Math.min(shape.length - 1, Math.floor(at));
      const next = shape[(low + 1) % shape.length]!;
      column[i] = column[i]! + scale(cycle) * (shape[low]! + (at - low) * (next - shape[low]!));
    }
  }
};

/** F1 but for the first stroke, whose mark from rest is a first movement. */
const scored = (foundS: readonly number[], cycles: readonly Cycle[]): number => {
  const [first, second] = [cycles[0]!, cycles[1]!];
  const apart = 0.6 * first.lengthS;
  const marked = cycles.slice(1).map(({ fromS }) => fromS);
  // the end of the last cycle shows the next catch
  const last = cycles.at(-1)!;
  const judged = foundS.filter(
    (atS) =>
      !(Math.abs(atS - first.fromS) < apart && second.fromS - atS > 0.2 * first.lengthS) &&
      Math.abs(atS - last.fromS - last.lengthS) > 0.3 * last.lengthS,
  );
  return scoreStrokes(judged, marked).f1 ?? 0;
};

/**
 * Rehearse the detector: the log's own average stroke is laid at a rate over the log's own rest, and the strokes
 * found are scored against where they were laid (a surrogate trial; Theiler et al. 1992, Physica D 58:77, for
 * the idea of judging a method on data made from the log's own parts). Nothing is drawn at random.
 * @returns null where the rest is too short
 */
export const injectionTest = (ask: InjectionSetup, rateSpm: number): InjectionResult | null => {
  const { channel, shapeMps2, axis, family } = ask;
  const stepS = usualIntervalS(channel.atS);
  if (stepS === null) return null;
  const cycles = cyclesAt(rateSpm);
  const lengthS = cycles.at(-1)!.fromS + cycles.at(-1)!.lengthS + GAUGE_SETTINGS.trialRestS;
  const count = Math.ceil(lengthS / stepS);
  const columns = repeatedRest(channel, ask.rests, stepS, count);
  if (columns === null) return null;
  const atS = Float64Array.from({ length: count }, (_, i) => i * stepS);
  const made: Channel = { ...channel, atS, columns, gaps: [] };
  if (channel.name === 'speed')
    lay(columns[0]!, speedShape(shapeMps2), cycles, stepS, ({ size, lengthS: s }) => size * s);
  else
    for (const [k, column] of columns.entries())
      lay(column, shapeMps2, cycles, stepS, ({ size }) => size * axis[k]!);
  return { rateSpm, f1: scored(marksIn(made, family), cycles) };
};

/**
 * Strokes a minute that are found in a log's own rest, looked at by itself as if nothing else were known: what waves
 * pass for.
 * @returns null where no rest is long enough to tell
 */
export const falseStrokesPerMin = ({
  channel,
  rests,
  family,
}: Pick<InjectionSetup, 'channel' | 'rests' | 'family'>): number | null => {
  const longest = longestOf(rests);
  if (longest === null || longest.toS - longest.fromS < GAUGE_SETTINGS.leastRestS) return null;
  const rest = excerptOf(channel, [longest]);
  return rest && (60 * marksIn(rest, family).length) / (longest.toS - longest.fromS);
};

/** Rates over a craft's range at which the detector is injected, spm. */
export const injectionRates = (family: CraftFamily): number[] => {
  const [low, high] = RATE_RANGE_SPM[family];
  const { rates } = GAUGE_SETTINGS;
  return Array.from({ length: rates }, (_, i) => Math.round(low + ((high - low) * i) / (rates - 1)));
};
