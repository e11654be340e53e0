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
  type RateLimits,
  rateLimitsFor,
  type StrokeEvent,
  searchStrokes,
  withoutStrokes,
} from './stroke-events.js';
import type { MatchedFilterBank } from './stroke-matches.js';
import { CHOP_SETTINGS, EVENT_SETTINGS, LEARNING_SETTINGS } from './stroke-settings.js';
import { averageAround, firstGuesses } from './template.js';

/** Strokes of a log, found with templates and noise learnt from the log itself. */
export interface LearntStrokes {
  readonly events: readonly StrokeEvent[];
  /** The crew's strokes, one a range of rates; none where too few strokes were found to learn one. */
  readonly templates: readonly Template[];
  /** What waves put into the signal, as far as other axes predict it. */
  readonly chop: Float64Array;
  /** What strokes and predicted waves leave of the signal. */
  readonly left: Float64Array;
  /** How much better the signal is reported with its strokes taken out: mean log ratio of two spectra. */
  readonly gain: number;
  /** Energy of the strokes in the first other axis, as a share of that in the signal; null where there is none. */
  readonly otherShare: number | null;
}

/** A stroke signal with the other axes that predict what waves put into it. */
interface Surroundings {
  readonly values: Float64Array;
  readonly mask: Uint8Array;
  readonly references: readonly Float64Array[];
}

/** Energy of the samples that are not missing. */
const energyIn = (values: Float64Array, mask: Uint8Array, from: number, to: number): number => {
  let sum = 0;
  for (let i = from; i < to; i++) if (mask[i] === 0) sum += values[i]! * values[i]!;
  return sum;
};

/** The highest-power minutes of a signal, joined, with a gap at each joint. */
const highestPowerSegments = (all: Surroundings): Surroundings => {
  const { values, mask, references } = all;
  const block = LEARNING_SETTINGS.blockS * EVENT_SETTINGS.rateHz;
  const wanted = Math.round(LEARNING_SETTINGS.lengthS / LEARNING_SETTINGS.blockS);
  const blocks = Math.floor(values.length / block);
  if (blocks <= wanted) return all;
  const power = Array.from({ length: blocks }, (_, b) => energyIn(values, mask, b * block, (b + 1) * block));
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
    joints.set(mask.subarray(b * block, (b + 1) * block), k * block);
    joints[k * block] = 1;
  }
  return { values: cut(values), mask: joints, references: references.map(cut) };
};

/** Mean log ratio of a signal's spectra to those of what is left of it, over the band of strokes (Whittle 1953). */
const gainOf = (whole: Spectra, rest: Spectra): number => {
  const [from, to] = [2, WINDOW_SAMPLES / 4];
  if (whole.power.length === 0) return 0;
  let all = 0;
  for (const power of whole.power) for (let k = from; k < to; k++) all += power[k]!;
  const floor = (LEARNING_SETTINGS.powerFloor * all) / ((to - from) * whole.power.length);
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
  const floor = (LEARNING_SETTINGS.powerFloor * all.reduce((sum, power) => sum + power, 0)) / all.length;
  const { mismatch, mismatchReach } = LEARNING_SETTINGS;
  const mismatched = broadened(all, mismatchReach);
  return left.map((power, k) => power + mismatch * mismatched[k]! + floor);
};

const firstNoise = (sharp: boolean): NoisePower =>
  Float64Array.from({ length: WINDOW_SAMPLES }, (_, k) => {
    if (!sharp) return 1;
    const hz = (Math.min(k, WINDOW_SAMPLES - k) * EVENT_SETTINGS.rateHz) / WINDOW_SAMPLES;
    return 1 + LEARNING_SETTINGS.chopPower / (1 + (hz / LEARNING_SETTINGS.chopCornerHz) ** 8);
  });

/** Templates, the strokes they find in a signal, and how well they tell it. */
interface TemplateFit {
  /** The signal that was searched: what waves put into it taken out, as far as it was predicted by then. */
  readonly values: Float64Array;
  readonly bank: MatchedFilterBank;
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
const ownStrokes = (reference: Float64Array, { bank, events }: TemplateFit): OwnStrokes => {
  const power = meanSquare(reference);
  let [strokes, own] = [0, 0];
  const templates = bank.templates.map(({ before, values }, which): Template => {
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

/** The signal that the next round searches, and its noise, by what a fit found. */
interface Cleared {
  readonly values: Float64Array;
  readonly left: Float64Array | null;
  readonly noise: NoisePower;
}

const cleared = ({ values: raw, mask, references }: Surroundings, fit: TemplateFit): Cleared => {
  let { left } = fit;
  let values = raw;
  if (references.length > 0) {
    const strokes = difference(fit.values, left);
    for (const reference of references) {
      const own = ownStrokes(reference, fit);
      // an axis in which strokes show about as much as in the signal would predict them too
      if (own.share > CHOP_SETTINGS.mostStrokeShare) continue;
      const referenceLeft = withoutStrokes(reference, own.templates, fit.events);
      values = withoutChop(values, reference, difference(values, strokes), referenceLeft);
    }
    left = difference(values, strokes);
  }
  return { values, left, noise: noiseAround(spectraOf(left, mask), spectraOf(values, mask), fit.events) };
};

/** True where two rounds found the same strokes: a third would learn nothing new. */
const settled = (before: readonly StrokeEvent[], after: readonly StrokeEvent[]): boolean =>
  before.length === after.length &&
  before.every(({ position }, i) => Math.abs(position - after[i]!.position) <= LEARNING_SETTINGS.sameSamples);

/** Learn from one signal, beginning with strokes already found in it. */
const study = (
  all: Surroundings,
  first: { readonly events: readonly StrokeEvent[]; readonly noise: NoisePower },
  rateLimits: RateLimits,
  rounds: number,
): TemplateFit | null => {
  const done: TemplateFit[] = [];
  const whole = spectraOf(all.values, all.mask);
  for (let round = 0; round < rounds; round++) {
    const last = done.at(-1);
    const now: Cleared = last ? cleared(all, last) : { values: all.values, left: null, noise: first.noise };
    const { values } = now;
    const learnt = rateTemplates(values, (last ?? first).events, rateLimits);
    if (!learnt) break;
    const bank: MatchedFilterBank = { ...learnt, noise: now.noise };
    const { events } = searchStrokes(values, all.mask, bank, rateLimits, now.left);
    const left = withoutStrokes(values, bank.templates, events);
    done.push({ values, bank, events, left, gain: gainOf(whole, spectraOf(left, all.mask)) });
    if (last && settled(last.events, events)) break;
  }
  // later rounds know more, unless they lost the strokes on the way
  const most = Math.max(...done.map(({ gain }) => gain));
  const least = most - (1 - LEARNING_SETTINGS.keptGain) * Math.abs(most);
  return done.findLast(({ gain }) => gain >= least) ?? null;
};

/** How much of the signal's energy the strokes are, as a log ratio: in chop a wrong guess explains little of it. */
const energyGain = (raw: Float64Array, { values, left }: TemplateFit): number => {
  let whole = 0;
  let rest = 0;
  for (let i = 0; i < raw.length; i++) {
    whole += raw[i]! ** 2;
    rest += (left[i]! + (raw[i]! - values[i]!)) ** 2;
  }
  return rest > 0 ? Math.log(whole / rest) : 0;
};

const learn = (segments: Surroundings, family: CraftFamily, rateLimits: RateLimits): TemplateFit | null => {
  if (segments.values.length < WINDOW_SAMPLES) return null;
  let best: TemplateFit | null = null;
  let mostWorth = Number.NEGATIVE_INFINITY;
  for (const guess of firstGuesses(family, EVENT_SETTINGS.rateHz)) {
    const noise = firstNoise(guess.sharp);
    const { events } = searchStrokes(
      segments.values,
      segments.mask,
      { templates: guess.templates, due: null, noise },
      rateLimits,
      null,
    );
    const found = study(segments, { events, noise }, rateLimits, LEARNING_SETTINGS.firstRounds);
    if (!found) continue;
    const gain = found.gain - (guess.sharp ? 0 : LEARNING_SETTINGS.smoothHandicap);
    const worth = gain + LEARNING_SETTINGS.energyWeight * energyGain(segments.values, found);
    if (best === null || worth > mostWorth) {
      best = { ...found, gain };
      mostWorth = worth;
    }
    if (mostWorth >= LEARNING_SETTINGS.enoughWorth) break;
  }
  return best;
};

/** False where what was learnt is noise: too small for any boat, hardly out of the noise around it, or no gain to take out. */
const stands = ({ bank, events, gain }: TemplateFit): boolean => {
  if (events.length === 0 || gain <= 0) return false;
  const sds = median(events.map(({ noiseSds }) => Math.min(noiseSds, 100)));
  const rms = bank.templates.map(({ values }) => Math.sqrt(meanSquare(values)));
  return sds >= LEARNING_SETTINGS.leastSds && Math.max(...rms) >= LEARNING_SETTINGS.leastMps2;
};

/**
 * Strokes in an evenly sampled signal: matched first with shapes that boats show, then with the strokes learnt
 * from this log, one for each range of rates, in its own noise; of several first guesses the first whose strokes
 * explain enough is kept, else the one whose strokes explain most.
 * @param values stroke signal at EVENT_SETTINGS.rateHz, either sign
 * @param mask 1 where the signal is missing
 * @param references other axes at the same samples, which predict what waves put into the signal; may be none
 */
export const learnStrokes = (
  values: Float64Array,
  mask: Uint8Array,
  references: readonly Float64Array[],
  family: CraftFamily,
): LearntStrokes => {
  const rateLimits = rateLimitsFor(family);
  const all: Surroundings = { values, mask, references };
  const part = highestPowerSegments(all);
  const fit = learn(part, family, rateLimits);
  const none = {
    events: [],
    templates: [],
    gain: 0,
    chop: new Float64Array(values.length),
    left: values,
    otherShare: null,
  };
  if (!fit) return none;
  const { noise } = cleared(part, fit);
  const bank: MatchedFilterBank = { ...fit.bank, due: null, noise };
  const events = part === all ? fit.events : searchStrokes(values, mask, bank, rateLimits, null).events;
  const last = study(all, { events, noise }, rateLimits, LEARNING_SETTINGS.lastRounds);
  if (!last || !stands(last)) return none;
  return {
    events: last.events,
    templates: last.bank.templates,
    chop: difference(values, last.values),
    left: last.left,
    gain: fit.gain,
    otherShare: references.length > 0 ? ownStrokes(references[0]!, last).share : null,
  };
};
