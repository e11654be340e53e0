import { quantile } from '../signal/index.js';
import type { CraftFamily } from '../units/craft.js';
import type { NoisePower, Template } from './matched-filter.js';
import {
  type Heard,
  heard,
  type Listening,
  listeningFor,
  powerOf,
  type StrokeEvent,
  searchStrokes,
  withoutStrokes,
} from './stroke-events.js';
import { EVENT_SETTINGS, LESSON_SETTINGS } from './stroke-settings.js';
import { firstGuesses, learnTemplate } from './template.js';

/** Strokes of a log, found with templates and noise learnt from the log itself. */
export interface LearntStrokes {
  readonly events: readonly StrokeEvent[];
  /** The crew's stroke over all rates; null where too few strokes were found to learn one. */
  readonly template: Template | null;
  /** How much better the signal is told with its strokes taken out: mean log ratio of two spectra. */
  readonly gain: number;
}

/** The liveliest minutes of a signal, joined, with a hole at each joint. */
const lessonOf = (values: Float64Array, hole: Uint8Array): Heard => {
  const block = LESSON_SETTINGS.blockS * EVENT_SETTINGS.rateHz;
  const wanted = Math.round(LESSON_SETTINGS.lengthS / LESSON_SETTINGS.blockS);
  const blocks = Math.floor(values.length / block);
  if (blocks <= wanted) return heard(values, hole);
  const power = Array.from({ length: blocks }, (_, b) => {
    let sum = 0;
    for (let i = b * block; i < (b + 1) * block; i++) sum += hole[i] ? 0 : values[i]! ** 2;
    return sum;
  });
  const chosen = power
    .map((_, b) => b)
    .sort((p, q) => power[q]! - power[p]! || p - q)
    .slice(0, wanted)
    .sort((p, q) => p - q);
  const joined = new Float64Array(wanted * block);
  const joints = new Uint8Array(wanted * block);
  for (const [k, b] of chosen.entries()) {
    joined.set(values.subarray(b * block, (b + 1) * block), k * block);
    joints.set(hole.subarray(b * block, (b + 1) * block), k * block);
    joints[k * block] = 1;
  }
  return heard(joined, joints);
};

/** Mean log ratio of a signal's spectrum to what is left of it, over the band of strokes (Whittle 1953). */
const gainOf = (whole: NoisePower, rest: NoisePower): number => {
  const [from, to] = [2, whole.length / 4];
  let sum = 0;
  for (let k = from; k < to; k++) sum += Math.log(whole[k]! / rest[k]!);
  return sum / (to - from);
};

const intervalsOf = (events: readonly StrokeEvent[], listening: Listening): number[] => {
  const intervals: number[] = [];
  for (let i = 1; i < events.length; i++) {
    const intervalS = (events[i]!.position - events[i - 1]!.position) / EVENT_SETTINGS.rateHz;
    if (intervalS <= listening.mostIntervalS) intervals.push(intervalS);
  }
  return intervals;
};

const templateOf = (
  values: Float64Array,
  events: readonly StrokeEvent[],
  listening: Listening,
): Template | null => {
  const intervals = intervalsOf(events, listening);
  if (intervals.length < LESSON_SETTINGS.leastStrokes) return null;
  const size =
    LESSON_SETTINGS.leastSize *
    quantile(
      events.map((event) => event.amplitude),
      0.8,
    );
  const marks = events
    .filter((event) => event.share > LESSON_SETTINGS.leastShare && event.amplitude > size)
    .map((event) => event.position);
  return learnTemplate(values, marks, quantile(intervals, 0.4), EVENT_SETTINGS.rateHz);
};

const firstNoise = (whole: NoisePower, sharp: boolean): NoisePower =>
  whole.map((_, k) => {
    if (!sharp) return 1;
    const hz = (Math.min(k, whole.length - k) * EVENT_SETTINGS.rateHz) / whole.length;
    return 1 + LESSON_SETTINGS.chopPower / (1 + (hz / LESSON_SETTINGS.chopCornerHz) ** 8);
  });

/** What the first lesson gives: one template, its noise, and how well they tell the signal. */
interface Lesson {
  readonly template: Template;
  readonly noise: NoisePower;
  readonly gain: number;
}

const learn = (lesson: Heard, family: CraftFamily, listening: Listening): Lesson | null => {
  const whole = powerOf(lesson.values, lesson.hole);
  if (!whole) return null;
  let best: Lesson | null = null;
  for (const guess of firstGuesses(family, EVENT_SETTINGS.rateHz)) {
    let noise = firstNoise(whole, guess.sharp);
    let { events } = searchStrokes(lesson, guess.templates, noise, listening, true);
    for (let round = 0; round < LESSON_SETTINGS.rounds; round++) {
      const template = templateOf(lesson.values, events, listening);
      if (!template) break;
      ({ events } = searchStrokes(lesson, [template], noise, listening, true));
      const rest = withoutStrokes(lesson.values, [template], events);
      const left = powerOf(rest, lesson.hole) ?? whole;
      const gain = gainOf(whole, left) - (guess.sharp ? 0 : LESSON_SETTINGS.smoothHandicap);
      noise = left.map((power, k) => power + LESSON_SETTINGS.unlikeness * whole[k]!);
      if (!best || gain > best.gain) best = { template, noise, gain };
    }
  }
  return best;
};

/** Strokes parted by their rate into ranges that each have enough to learn from. */
const byRate = (events: readonly StrokeEvent[], listening: Listening): StrokeEvent[][] => {
  const timed = events.flatMap((event, i) => {
    const next = events[i + 1];
    if (!next) return [];
    const intervalS = (next.position - event.position) / EVENT_SETTINGS.rateHz;
    return intervalS <= listening.mostIntervalS ? [{ event, intervalS }] : [];
  });
  timed.sort((p, q) => p.intervalS - q.intervalS);
  const { rateRanges, rangeStrokes, rangeRatio } = LESSON_SETTINGS;
  const ranges: StrokeEvent[][] = [];
  let from = 0;
  for (let i = 0; i < timed.length; i++) {
    const wide = timed[i]!.intervalS / timed[from]!.intervalS >= rangeRatio;
    const left = timed.length - i;
    if (wide && i - from >= rangeStrokes && left >= rangeStrokes && ranges.length < rateRanges - 1) {
      ranges.push(timed.slice(from, i).map(({ event }) => event));
      from = i;
    }
  }
  ranges.push(timed.slice(from).map(({ event }) => event));
  return ranges.map((range) => range.sort((p, q) => p.position - q.position));
};

/**
 * Strokes in an evenly sampled signal: matched first with shapes that boats show, then with the stroke learnt
 * from this log, in its own noise; of several first guesses the one whose strokes explain most is kept. At
 * last each range of rates has a template of its own.
 * @param values stroke signal at EVENT_SETTINGS.rateHz, either sign
 * @param hole 1 where the signal is missing
 */
export const learnStrokes = (values: Float64Array, hole: Uint8Array, family: CraftFamily): LearntStrokes => {
  const listening = listeningFor(family);
  const lesson = learn(lessonOf(values, hole), family, listening);
  if (!lesson) return { events: [], template: null, gain: 0 };
  const signal = heard(values, hole);
  const { events } = searchStrokes(signal, [lesson.template], lesson.noise, listening, false);
  const templates = byRate(events, listening)
    .map((range) => templateOf(values, range, listening))
    .filter((template) => template !== null);
  if (templates.length < 2) return { events, ...lesson };
  const again = searchStrokes(signal, templates, lesson.noise, listening, false);
  const noise = powerOf(withoutStrokes(values, templates, again.events), hole) ?? lesson.noise;
  const last = searchStrokes(signal, templates, noise, listening, false);
  return { events: last.events, ...lesson };
};
