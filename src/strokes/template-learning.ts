import { difference, energyOf, meanSquare } from '../signal/index.js';
import type { CraftFamily } from '../units/craft.js';
import { withoutChop } from './chop-canceller.js';
import { cycleRemainder } from './cycle-remainder.js';
import { type NoisePower, type Spectra, spectraOf, type Template, WINDOW_SAMPLES } from './matched-filter.js';
import { noisePowerOf, withMismatch } from './noise-power.js';
import { rateTemplates } from './rate-templates.js';
import { type RateLimits, rateLimitsFor, type StrokeEvent, searchStrokes } from './stroke-events.js';
import type { MatchedFilterBank } from './stroke-matches.js';
import { EVENT_SETTINGS, LEARNING_SETTINGS } from './stroke-settings.js';
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

/** Templates, the strokes they find in a signal, and what those leave of it. */
interface TemplateFit {
  /** The signal that was searched: what waves put into it taken out, as far as it was predicted by then. */
  readonly values: Float64Array;
  readonly bank: MatchedFilterBank;
  readonly events: readonly StrokeEvent[];
  readonly total: number;
  readonly left: Float64Array;
}

const marksOf = (events: readonly StrokeEvent[]): number[] => events.map(({ position }) => position);

/** What strokes leave of a signal. */
const leftBy = (values: Float64Array, events: readonly StrokeEvent[], { mostIntervalS }: RateLimits) =>
  cycleRemainder(values, marksOf(events), mostIntervalS * EVENT_SETTINGS.rateHz);

/** What strokes show in another axis: its energy as a share of theirs in the signal. */
const shareIn = (reference: Float64Array, { bank, events }: TemplateFit): number => {
  const power = meanSquare(reference);
  let [strokes, own] = [0, 0];
  for (const [which, { before, values }] of bank.templates.entries()) {
    const marks = marksOf(events.filter((event) => event.which === which));
    const average = averageAround(reference, marks, before, values.length - 1 - before);
    if (!average) continue;
    strokes += energyOf(values);
    // what a median over so many marks shows of noise alone: pi / 2 of its power / count
    own += Math.max(0, energyOf(average) - (values.length * 1.57 * power) / marks.length);
  }
  return strokes > 0 ? own / strokes : 0;
};

/** A signal without what other axes predict of it, by the strokes known so far. */
const becalmed = (
  { values: raw, references }: Surroundings,
  { values: searched, events, left }: TemplateFit,
  rateLimits: RateLimits,
): Float64Array => {
  const strokes = difference(searched, left);
  let values = raw;
  for (const reference of references)
    values = withoutChop(
      values,
      reference,
      difference(values, strokes),
      leftBy(reference, events, rateLimits),
    );
  return values;
};

/** 1 for each window most of whose strokes are those of one template. */
const windowsOf = (
  from: readonly number[],
  events: readonly StrokeEvent[],
  due: Uint8Array,
  which: number,
): Uint8Array => {
  const chosen = new Uint8Array(from.length);
  let first = 0;
  for (let w = 0; w < from.length; w++) {
    while (first < events.length && events[first]!.position < from[w]!) first++;
    let [all, own] = [0, 0];
    for (let k = first; k < events.length && events[k]!.position < from[w]! + WINDOW_SAMPLES; k++) {
      all++;
      if (due[Math.round(events[k]!.position)] === which) own++;
    }
    if (all > 0 && own > all / 2) chosen[w] = 1;
  }
  return chosen;
};

/** 1 for each window that holds no stroke. */
const restWindows = (from: readonly number[], events: readonly StrokeEvent[]): Uint8Array => {
  const rest = new Uint8Array(from.length);
  let next = 0;
  for (let w = 0; w < from.length; w++) {
    while (next < events.length && events[next]!.position < from[w]!) next++;
    if (next === events.length || events[next]!.position >= from[w]! + WINDOW_SAMPLES) rest[w] = 1;
  }
  return rest;
};

/** Which template is due, with those due half a window or more from any stroke counted on after the last. */
const dueAtRest = (due: Uint8Array, events: readonly StrokeEvent[], templates: number): Uint8Array => {
  const made = due.map((which) => which + templates);
  const reach = WINDOW_SAMPLES / 2;
  for (const { position } of events) {
    const [from, to] = [Math.max(0, Math.round(position) - reach), Math.round(position) + reach];
    made.set(due.subarray(from, to), from);
  }
  return made;
};

/** Templates and noise by the strokes found so far, and the strokes that they find; null with too few. */
const fitTo = (
  values: Float64Array,
  mask: Uint8Array,
  events: readonly StrokeEvent[],
  rateLimits: RateLimits,
): TemplateFit | null => {
  const learnt = rateTemplates(values, events, rateLimits);
  if (!learnt) return null;
  const { templates, due } = learnt;
  const left = leftBy(values, events, rateLimits);
  const spectra = spectraOf(left, mask);
  const { noiseReach, mismatch } = LEARNING_SETTINGS;
  const noiseIn = (windows: Uint8Array, template: Template): NoisePower =>
    withMismatch(noisePowerOf(spectra, windows, noiseReach), template, mismatch, noiseReach);
  const noises = templates.map((template, which) =>
    noiseIn(windowsOf(spectra.from, events, due, which), template),
  );
  // a boat at rest meets the waves otherwise, and its own noise is what a stroke there has to stand out of
  const rest = restWindows(spectra.from, events);
  const rested = rest.includes(1);
  const bank: MatchedFilterBank = {
    templates: rested ? [...templates, ...templates] : templates,
    noises: rested ? [...noises, ...templates.map(() => noisePowerOf(spectra, rest, noiseReach))] : noises,
    due: rested ? dueAtRest(due, events, templates.length) : due,
    restFrom: rested ? templates.length : null,
    usual: null,
  };
  const known = { marks: marksOf(events), left };
  const found = searchStrokes(values, mask, bank, rateLimits, known);
  const own = found.events.map((event) => ({ ...event, which: event.which % templates.length }));
  return {
    values,
    bank: { templates, noises, due: null, restFrom: null, usual: found.usualOf },
    events: own,
    total: found.total,
    left: leftBy(values, own, rateLimits),
  };
};

/** True where two rounds found all but the same strokes: another would learn nothing new. */
const settled = (before: readonly StrokeEvent[], after: readonly StrokeEvent[]): boolean => {
  const { sameSamples, movedShare } = LEARNING_SETTINGS;
  const most = movedShare * before.length;
  if (Math.abs(before.length - after.length) > most) return false;
  let moved = 0;
  let k = 0;
  for (const { position } of before) {
    while (k < after.length && after[k]!.position < position - sameSamples) k++;
    if (k === after.length || after[k]!.position > position + sameSamples) moved++;
  }
  return moved <= most;
};

/** Strokes to begin with, and the signal that they were found in. */
interface Beginning {
  readonly values: Float64Array;
  /** True where what other axes predict is taken out of it. */
  readonly calm: boolean;
  readonly events: readonly StrokeEvent[];
}

/** Learn from one signal, beginning with strokes already found in it. */
const study = (
  all: Surroundings,
  first: Beginning,
  rateLimits: RateLimits,
  rounds: number,
): TemplateFit | null => {
  let fit: TemplateFit | null = null;
  for (let round = 0; round < rounds; round++) {
    const values = fit && first.calm ? becalmed(all, fit, rateLimits) : first.values;
    const next = fitTo(values, all.mask, (fit ?? first).events, rateLimits);
    if (!next) break;
    const same = fit !== null && settled(fit.events, next.events);
    fit = next;
    if (same) break;
  }
  return fit;
};

/**
 * How much better a signal is described with its strokes than without: mean log ratio of its spectra to those of
 * what the strokes leave (Whittle 1953), and a little for each stroke, for every second one would do as well.
 */
const gainOf = ({ values, left, events }: TemplateFit, mask: Uint8Array): number => {
  const whole: Spectra = spectraOf(values, mask);
  const rest: Spectra = spectraOf(left, mask);
  const [from, to] = LEARNING_SETTINGS.gainPoints;
  if (whole.power.length === 0) return 0;
  let all = 0;
  for (const power of whole.power) for (let k = from; k < to; k++) all += power[k]!;
  const ordinates = (to - from) * whole.power.length;
  const floor = (LEARNING_SETTINGS.powerFloor * all) / ordinates;
  let sum = 0;
  for (const [w, power] of whole.power.entries()) {
    let own = 0;
    for (let k = from; k < to; k++) own += Math.log((power[k]! + floor) / (rest.power[w]![k]! + floor));
    // strokes that differ too much from their neighbours to describe a window say nothing against their being there
    sum += Math.max(0, own);
  }
  // windows overlap by half: each ordinate counts for half of one
  return (sum / 2 + events.length) / (ordinates / 2);
};

/** A signal as it is, and without what other axes predict of it while no stroke is known, if there are any. */
const signalsOf = ({ values: raw, references }: Surroundings): Omit<Beginning, 'events'>[] => {
  let values = raw;
  for (const reference of references) values = withoutChop(values, reference, values, reference);
  return references.length > 0
    ? [
        { values: raw, calm: false },
        { values, calm: true },
      ]
    : [{ values: raw, calm: false }];
};

/** Strokes as the first guesses find them: of guesses that are like one another the one that finds most. */
const firstFinds = (
  signals: readonly Omit<Beginning, 'events'>[],
  mask: Uint8Array,
  family: CraftFamily,
  rateLimits: RateLimits,
): Beginning[] => {
  const noisy = signals.map((signal) => ({
    ...signal,
    noise: noisePowerOf(spectraOf(signal.values, mask), null, LEARNING_SETTINGS.firstReach),
  }));
  const found = firstGuesses(family, EVENT_SETTINGS.rateHz).map((group) => {
    const finds = noisy.flatMap(({ values, calm, noise }) =>
      group.map((template) => {
        const bank = { templates: [template], noises: [noise], due: null, restFrom: null, usual: null };
        const { events, total } = searchStrokes(values, mask, bank, rateLimits, null);
        return { values, calm, events, total };
      }),
    );
    return finds.reduce((p, q) => (q.total > p.total ? q : p));
  });
  const most = Math.max(...found.map(({ total }) => total));
  return found.filter(({ total }) => total >= LEARNING_SETTINGS.worthShare * most);
};

/** What was learnt, how well it describes the log, and whether what other axes predict is taken out. */
interface Learnt extends TemplateFit {
  readonly gain: number;
  readonly calm: boolean;
}

const learn = (all: Surroundings, family: CraftFamily, rateLimits: RateLimits): Learnt | null => {
  if (all.values.length < WINDOW_SAMPLES) return null;
  let best: Learnt | null = null;
  const attempt = (first: Beginning): void => {
    const fit = study(all, first, rateLimits, LEARNING_SETTINGS.firstRounds);
    if (!fit) return;
    const gain = gainOf(fit, all.mask);
    if (best === null || gain > best.gain) best = { ...fit, gain, calm: first.calm };
  };
  const signals = signalsOf(all);
  for (const first of firstFinds(signals, all.mask, family, rateLimits)) attempt(first);
  const found = best as Learnt | null;
  // an axis that the strokes show in predicts them too, and one that they do not show in is worth its while
  const other = found && signals.find(({ calm }) => calm !== found.calm);
  if (found && other) attempt({ ...other, events: found.events });
  return best;
};

/** False where what was learnt is noise: too small for any boat, or hardly out of the noise around it. */
const stands = ({ bank, events, total }: TemplateFit): boolean => {
  if (events.length === 0 || total < LEARNING_SETTINGS.leastMeanScore * events.length) return false;
  const rms = bank.templates.map(({ values }) => Math.sqrt(meanSquare(values)));
  return Math.max(...rms) >= LEARNING_SETTINGS.leastMps2;
};

/**
 * Strokes in an evenly sampled signal: matched first with shapes that boats show, in noise as the log's own
 * spectrum shows it, then with the strokes learnt from this log, one for each range of rates, in the noise that
 * they leave; of several first guesses the one is kept whose strokes describe the log best.
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
  const { calm } = fit;
  const whole = calm && part !== all ? signalsOf(all).at(-1)!.values : values;
  const first: Beginning =
    part === all
      ? fit
      : { values: whole, calm, events: searchStrokes(whole, mask, fit.bank, rateLimits, null).events };
  const last = study(all, first, rateLimits, LEARNING_SETTINGS.lastRounds);
  if (!last || !stands(last)) return none;
  return {
    events: last.events,
    templates: last.bank.templates,
    chop: difference(values, last.values),
    left: last.left,
    gain: fit.gain,
    otherShare: references.length > 0 ? shareIn(references[0]!, last) : null,
  };
};
