import { difference, energyOf, meanSquare, median } from '../signal/index.js';
import type { CraftFamily } from '../units/craft.js';
import { withoutChop } from './chop-canceller.js';
import {
  type NoisePower,
  type Spectra,
  spectraOf,
  type Template,
  usualPower,
  WINDOW_SAMPLES,
} from './matched-filter.js';
import { rateTemplates } from './rate-templates.js';
import {
  type Listening,
  listeningFor,
  type StrokeEvent,
  searchStrokes,
  withoutStrokes,
} from './stroke-events.js';
import type { Ear } from './stroke-matches.js';
import { CHOP_SETTINGS, EVENT_SETTINGS, LESSON_SETTINGS } from './stroke-settings.js';
import { averageAround, firstGuesses } from './template.js';

/** Strokes of a log, found with templates and noise learnt from the log itself. */
export interface LearntStrokes {
  readonly events: readonly StrokeEvent[];
  /** The crew's strokes, one a range of rates; none where too few strokes were found to learn one. */
  readonly templates: readonly Template[];
  /** What waves put into the signal, as far as other axes foretell it. */
  readonly chop: Float64Array;
  /** What strokes and foretold waves leave of the signal. */
  readonly left: Float64Array;
  /** How much better the signal is told with its strokes taken out: mean log ratio of two spectra. */
  readonly gain: number;
  /** Energy of the strokes in the first other axis, as a share of that in the signal; null where there is none. */
  readonly otherShare: number | null;
}

/** A stroke signal with the other axes that foretell what waves put into it. */
interface Surroundings {
  readonly values: Float64Array;
  readonly hole: Uint8Array;
  readonly references: readonly Float64Array[];
}

/** Energy of the samples that are not missing. */
const energyIn = (values: Float64Array, hole: Uint8Array, from: number, to: number): number => {
  let sum = 0;
  for (let i = from; i < to; i++) if (hole[i] === 0) sum += values[i]! * values[i]!;
  return sum;
};

/** The liveliest minutes of a signal, joined, with a hole at each joint. */
const lessonOf = (all: Surroundings): Surroundings => {
  const { values, hole, references } = all;
  const block = LESSON_SETTINGS.blockS * EVENT_SETTINGS.rateHz;
  const wanted = Math.round(LESSON_SETTINGS.lengthS / LESSON_SETTINGS.blockS);
  const blocks = Math.floor(values.length / block);
  if (blocks <= wanted) return all;
  const power = Array.from({ length: blocks }, (_, b) => energyIn(values, hole, b * block, (b + 1) * block));
  const chosen = power
    .map((_, b) => b)
    .sort((p, q) => power[q]! - power[p]! || p - q)
    .slice(0, wanted)
    .sort((p, q) => p - q);
  const cut = (column: Float64Array): Float64Array => {
    const joined = new Float64Array(wanted * block);
    for (const [k, b] of chosen.entries()) joined.set(column.subarray(b * block, (b + 1) * block), k * block);
    return joined;
  };
  const joints = new Uint8Array(wanted * block);
  for (const [k, b] of chosen.entries()) {
    joints.set(hole.subarray(b * block, (b + 1) * block), k * block);
    joints[k * block] = 1;
  }
  return { values: cut(values), hole: joints, references: references.map(cut) };
};

/** Mean log ratio of a signal's spectra to those of what is left of it, over the band of strokes (Whittle 1953). */
const gainOf = (whole: Spectra, rest: Spectra): number => {
  const [from, to] = [2, WINDOW_SAMPLES / 4];
  if (whole.power.length === 0) return 0;
  let all = 0;
  for (const power of whole.power) for (let k = from; k < to; k++) all += power[k]!;
  const floor = (LESSON_SETTINGS.powerFloor * all) / ((to - from) * whole.power.length);
  let sum = 0;
  for (const [w, power] of whole.power.entries())
    for (let k = from; k < to; k++) sum += Math.log((power[k]! + floor) / (rest.power[w]![k]! + floor));
  return sum / ((to - from) * whole.power.length);
};

/** Power spread over neighbouring frequencies, with triangular weights over so many points to either side. */
const broadened = (power: NoisePower, reach: number): NoisePower =>
  power.map((_, k) => {
    let sum = 0;
    for (let j = -reach; j <= reach; j++)
      sum += (reach + 1 - Math.abs(j)) * power[(k + j + power.length) % power.length]!;
    return sum / (reach + 1) ** 2;
  });

/** 1 for each window that holds a stroke. @param from first samples of the windows, in order */
const rowedWindows = (from: readonly number[], events: readonly StrokeEvent[]): Uint8Array => {
  const rowed = new Uint8Array(from.length);
  let next = 0;
  for (let w = 0; w < from.length; w++) {
    while (next < events.length && events[next]!.position < from[w]!) next++;
    if (next < events.length && events[next]!.position < from[w]! + WINDOW_SAMPLES) rowed[w] = 1;
  }
  return rowed;
};

/** Usual power of what strokes leave, while rowing: where the windows hold some of them. */
const noiseAround = (rest: Spectra, whole: Spectra, events: readonly StrokeEvent[]): NoisePower => {
  const rowed = rowedWindows(whole.from, events);
  const left = usualPower(rest, rowed) ?? usualPower(rest)!;
  const all = usualPower(whole, rowed) ?? usualPower(whole)!;
  const floor = (LESSON_SETTINGS.powerFloor * all.reduce((sum, power) => sum + power, 0)) / all.length;
  const { unlikeness, unlikenessReach } = LESSON_SETTINGS;
  const unlike = broadened(all, unlikenessReach);
  return left.map((power, k) => power + unlikeness * unlike[k]! + floor);
};

const firstNoise = (sharp: boolean): NoisePower =>
  Float64Array.from({ length: WINDOW_SAMPLES }, (_, k) => {
    if (!sharp) return 1;
    const hz = (Math.min(k, WINDOW_SAMPLES - k) * EVENT_SETTINGS.rateHz) / WINDOW_SAMPLES;
    return 1 + LESSON_SETTINGS.chopPower / (1 + (hz / LESSON_SETTINGS.chopCornerHz) ** 8);
  });

/** Templates, the strokes they find in a signal, and how well they tell it. */
interface Lesson {
  /** The signal that was listened to: what waves put into it taken out, as far as it was foretold by then. */
  readonly values: Float64Array;
  readonly ear: Ear;
  readonly events: readonly StrokeEvent[];
  readonly gain: number;
  /** What the strokes leave of the signal. */
  readonly left: Float64Array;
}

/** What strokes show in another axis: its energy as a share of theirs in the signal, and their shapes there. */
interface OwnStrokes {
  readonly share: number;
  readonly templates: readonly Template[];
}

/** A reference's own share of the strokes: what it shows at the same marks, averaged. */
const ownStrokes = (reference: Float64Array, { ear, events }: Lesson): OwnStrokes => {
  const power = meanSquare(reference);
  let [strokes, own] = [0, 0];
  const templates = ear.templates.map(({ before, values }, which): Template => {
    const marks = events.filter((event) => event.which === which).map((event) => event.position);
    const average = averageAround(reference, marks, before, values.length - 1 - before);
    if (!average) return { before, values: new Float64Array(values.length) };
    strokes += energyOf(values);
    // what a median over so many marks shows of noise alone: pi / 2 of its power / count
    own += Math.max(0, energyOf(average) - (values.length * 1.57 * power) / marks.length);
    return { before, values: average };
  });
  return { share: strokes > 0 ? own / strokes : 0, templates };
};

/** The signal that the next round listens to, and its noise, by what a lesson knows. */
interface Cleared {
  readonly values: Float64Array;
  readonly left: Float64Array | null;
  readonly noise: NoisePower;
}

const cleared = ({ values: raw, hole, references }: Surroundings, lesson: Lesson): Cleared => {
  let { left } = lesson;
  let values = raw;
  if (references.length > 0) {
    const strokes = difference(lesson.values, left);
    for (const reference of references) {
      const own = ownStrokes(reference, lesson);
      // an axis in which strokes show about as much as in the signal would foretell them too
      if (own.share > CHOP_SETTINGS.mostStrokeShare) continue;
      const referenceLeft = withoutStrokes(reference, own.templates, lesson.events);
      values = withoutChop(values, reference, difference(values, strokes), referenceLeft);
    }
    left = difference(values, strokes);
  }
  return { values, left, noise: noiseAround(spectraOf(left, hole), spectraOf(values, hole), lesson.events) };
};

/** True where two rounds found the same strokes: a third would learn nothing new. */
const settled = (before: readonly StrokeEvent[], after: readonly StrokeEvent[]): boolean =>
  before.length === after.length &&
  before.every(({ position }, i) => Math.abs(position - after[i]!.position) <= LESSON_SETTINGS.sameSamples);

/** Learn from one signal, beginning with strokes already found in it. */
const study = (
  all: Surroundings,
  first: { readonly events: readonly StrokeEvent[]; readonly noise: NoisePower },
  listening: Listening,
  rounds: number,
): Lesson | null => {
  const done: Lesson[] = [];
  const whole = spectraOf(all.values, all.hole);
  for (let round = 0; round < rounds; round++) {
    const last = done.at(-1);
    const now: Cleared = last ? cleared(all, last) : { values: all.values, left: null, noise: first.noise };
    const { values } = now;
    const learnt = rateTemplates(values, (last ?? first).events, listening);
    if (!learnt) break;
    const ear: Ear = { ...learnt, noise: now.noise };
    const { events } = searchStrokes(values, all.hole, ear, listening, now.left);
    const left = withoutStrokes(values, ear.templates, events);
    done.push({ values, ear, events, left, gain: gainOf(whole, spectraOf(left, all.hole)) });
    if (last && settled(last.events, events)) break;
  }
  // later rounds know more, unless they lost the strokes on the way
  const most = Math.max(...done.map(({ gain }) => gain));
  const least = most - (1 - LESSON_SETTINGS.keptGain) * Math.abs(most);
  return done.findLast(({ gain }) => gain >= least) ?? null;
};

/** How much of the signal's energy the strokes are, as a log ratio: in chop a wrong guess explains little of it. */
const energyGain = (raw: Float64Array, { values, left }: Lesson): number => {
  let whole = 0;
  let rest = 0;
  for (let i = 0; i < raw.length; i++) {
    whole += raw[i]! ** 2;
    rest += (left[i]! + (raw[i]! - values[i]!)) ** 2;
  }
  return rest > 0 ? Math.log(whole / rest) : 0;
};

const learn = (lesson: Surroundings, family: CraftFamily, listening: Listening): Lesson | null => {
  if (lesson.values.length < WINDOW_SAMPLES) return null;
  let best: Lesson | null = null;
  let mostWorth = Number.NEGATIVE_INFINITY;
  for (const guess of firstGuesses(family, EVENT_SETTINGS.rateHz)) {
    const noise = firstNoise(guess.sharp);
    const { events } = searchStrokes(
      lesson.values,
      lesson.hole,
      { templates: guess.templates, due: null, noise },
      listening,
      null,
    );
    const found = study(lesson, { events, noise }, listening, LESSON_SETTINGS.firstRounds);
    if (!found) continue;
    const gain = found.gain - (guess.sharp ? 0 : LESSON_SETTINGS.smoothHandicap);
    const worth = gain + LESSON_SETTINGS.energyWeight * energyGain(lesson.values, found);
    if (best === null || worth > mostWorth) {
      best = { ...found, gain };
      mostWorth = worth;
    }
    if (mostWorth >= LESSON_SETTINGS.enoughWorth) break;
  }
  return best;
};

/** False where what was learnt is noise: too small for any boat, hardly out of the noise around it, or no gain to take out. */
const stands = ({ ear, events, gain }: Lesson): boolean => {
  if (events.length === 0 || gain <= 0) return false;
  const sds = median(events.map(({ noiseSds }) => Math.min(noiseSds, 100)));
  const rms = ear.templates.map(({ values }) => Math.sqrt(meanSquare(values)));
  return sds >= LESSON_SETTINGS.leastSds && Math.max(...rms) >= LESSON_SETTINGS.leastMps2;
};

/**
 * Strokes in an evenly sampled signal: matched first with shapes that boats show, then with the strokes learnt
 * from this log, one for each range of rates, in its own noise; of several first guesses the first whose strokes
 * explain enough is kept, else the one whose strokes explain most.
 * @param values stroke signal at EVENT_SETTINGS.rateHz, either sign
 * @param hole 1 where the signal is missing
 * @param references other axes at the same samples, which foretell what waves put into the signal; may be none
 */
export const learnStrokes = (
  values: Float64Array,
  hole: Uint8Array,
  references: readonly Float64Array[],
  family: CraftFamily,
): LearntStrokes => {
  const listening = listeningFor(family);
  const all: Surroundings = { values, hole, references };
  const part = lessonOf(all);
  const lesson = learn(part, family, listening);
  const none = {
    events: [],
    templates: [],
    gain: 0,
    chop: new Float64Array(values.length),
    left: values,
    otherShare: null,
  };
  if (!lesson) return none;
  const { noise } = cleared(part, lesson);
  const ear: Ear = { ...lesson.ear, due: null, noise };
  const events = part === all ? lesson.events : searchStrokes(values, hole, ear, listening, null).events;
  const last = study(all, { events, noise }, listening, LESSON_SETTINGS.lastRounds);
  if (!last || !stands(last)) return none;
  return {
    events: last.events,
    templates: last.ear.templates,
    chop: difference(values, last.values),
    left: last.left,
    gain: lesson.gain,
    otherShare: references.length > 0 ? ownStrokes(references[0]!, last).share : null,
  };
};
