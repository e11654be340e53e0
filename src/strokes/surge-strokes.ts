import type { Mount } from '../contract/boat.js';
import type { Progress } from '../motion/track.js';
import { type Channel, usualIntervalS } from '../recording/index.js';
import { butterworth, difference, negated, zeroPhase } from '../signal/index.js';
import { type CraftFamily, RATE_RANGE_SPM } from '../units/craft.js';
import { catchMarks, firstSurge, markBandOf } from './catch-marks.js';
import { speedSurge } from './speed-signal.js';
import { EVENT_SETTINGS, MARK_SETTINGS, SIGNAL_SETTINGS, SOURCE_SETTINGS } from './stroke-settings.js';
import { type Surge, surgesOf } from './surge.js';
import { forwardness } from './template.js';
import { type LearntStrokes, learnStrokes } from './template-learning.js';

/** Strokes found in a surge acceleration. */
export interface SurgeStrokes {
  /** Surge, forward positive, without what waves put into it as far as that was predicted. */
  readonly surge: Surge;
  /** The same with the waves left in, m/s². */
  readonly rawMps2: Float64Array;
  /** Surge low-passed at the bandwidth of the catch mark, m/s². */
  readonly markBand: Float64Array;
  /** Catch marks, s on the recording's clock. */
  readonly marksS: readonly number[];
  /** How likely each is a stroke, 0 to 1. */
  readonly confidence: readonly number[];
  /** How far each stands out of the noise, for itself: a bounded log-likelihood ratio. */
  readonly scores: readonly number[];
  /** The family whose range of rates was used: as given, or as guessed. */
  readonly family: CraftFamily;
  /** Energy of the strokes up and down, as a share of that along the surge axis; null where the upright is not known. */
  readonly heaveShare: number | null;
}

/** Every so many samples of a signal, or the signal itself where it is slow enough. */
const atEventRate = (values: Float64Array, rateHz: number): Float64Array => {
  const step = Math.round(rateHz / EVENT_SETTINGS.rateHz);
  if (step <= 1) return values;
  const smooth = zeroPhase(values, butterworth(4, 0.8 / step));
  const made = new Float64Array(Math.floor((smooth.length - 1) / step) + 1);
  for (let i = 0; i < made.length; i++) made[i] = smooth[i * step]!;
  return made;
};

/** Every so many gaps, for the first `count`. */
const maskAtEventRate = (mask: Uint8Array, rateHz: number, count: number): Uint8Array => {
  const step = Math.round(rateHz / EVENT_SETTINGS.rateHz);
  const made = new Uint8Array(count);
  for (let i = 0; i < count; i++) made[i] = mask[i * step]!;
  return made;
};

const learnFrom = ({ mps2, heaveMps2, mask, rateHz }: Surge, family: CraftFamily): LearntStrokes => {
  const values = atEventRate(mps2, rateHz);
  return learnStrokes(
    values,
    maskAtEventRate(mask, rateHz, values.length),
    heaveMps2 ? [atEventRate(heaveMps2, rateHz)] : [],
    family,
  );
};

/** Where a mean acceleration and the track's own change of speed agree: > 0 for the same sign. */
const trackSign = (surge: Surge, track: Progress | null): number => {
  if (!track) return 0;
  const window = Math.round(3 * surge.rateHz);
  let both = 0;
  let own = 0;
  let theirs = 0;
  for (let from = 0; from + window < surge.mps2.length; from += window) {
    const startS = surge.startS + from / surge.rateHz;
    const first = track.speedAt(startS);
    const last = track.speedAt(startS + 3);
    if (first === null || last === null) continue;
    let mean = 0;
    for (let i = from; i < from + window; i++) mean += surge.mps2[i]! / window;
    const gain = (last - first) / 3;
    both += mean * gain;
    own += mean * mean;
    theirs += gain * gain;
  }
  return own > 0 && theirs > 0 ? both / Math.sqrt(own * theirs) : 0;
};

const turnedRound = (surge: Surge): Surge => ({
  ...surge,
  mps2: negated(surge.mps2),
  rawMps2: negated(surge.rawMps2),
  axis: surge.axis.map((value) => -value) as unknown as Surge['axis'],
});

/** What waves put into a surge, by straight lines between its values at the events' rate; it ends level. */
const betweenEvents = (chop: Float64Array, perEvent: number, count: number): Float64Array => {
  const made = new Float64Array(count);
  const last = chop.length - 1;
  for (let i = 0; i < count; i++) {
    const low = Math.floor(i / perEvent);
    if (low > last) break;
    const share = i / perEvent - low;
    const here = chop[low]!;
    made[i] = here + share * (chop[Math.min(low + 1, last)]! - here);
  }
  return made;
};

/** Surge without what waves put into it, as far as that was predicted. */
const becalmed = (surge: Surge, chop: Float64Array, perEvent: number): Surge => {
  const waves = betweenEvents(chop, perEvent, surge.mps2.length);
  return { ...surge, mps2: difference(surge.mps2, waves), rawMps2: difference(surge.rawMps2, waves) };
};

interface Mark {
  /** Sample of the surge. */
  readonly at: number;
  readonly confidence: number;
  readonly score: number;
}

/**
 * Marks with first strokes from rest put where the boat first moved, and added where they were missed. A boat
 * that still runs shows the check of its first catch, and keeps its mark.
 */
const fromRest = (
  marks: readonly Mark[],
  markBand: Float64Array,
  raw: Float64Array,
  rateHz: number,
  early: number,
): Mark[] =>
  marks.flatMap((mark, i) => {
    const before = i > 0 ? marks[i - 1]!.at : 0;
    const next = marks[i + 1];
    if (!next || mark.at - before < MARK_SETTINGS.restS * rateHz) return [mark];
    const check = markBand[Math.round(mark.at)]! / markBand[Math.round(next.at)]!;
    const interval = next.at - mark.at;
    const until = Math.round(mark.at + MARK_SETTINGS.ownShare * interval);
    const seen = firstSurge(
      raw,
      rateHz,
      before + 2 * rateHz,
      until,
      MARK_SETTINGS.missedShare * interval,
      MARK_SETTINGS.backShare * interval,
    );
    if (seen === null) return [mark];
    const first = seen - early;
    const ahead = (mark.at - first) / interval;
    if (ahead > MARK_SETTINGS.missedShare) return [mark];
    if (ahead > MARK_SETTINGS.ownShare)
      return check > MARK_SETTINGS.wholeCheck ? [mark] : [{ ...mark, at: first }, mark];
    return [check > MARK_SETTINGS.runningCheck ? mark : { ...mark, at: first }];
  });

/** Catch marks of strokes, on a surge that is forward positive. */
const marked = (
  surge: Surge,
  found: LearntStrokes,
  family: CraftFamily,
  earlyS = 0,
  restLateS = 0,
): SurgeStrokes => {
  const perEvent = Math.round(surge.rateHz / EVENT_SETTINGS.rateHz);
  const calm = becalmed(surge, found.chop, perEvent);
  const markBand = markBandOf(calm.mps2, surge.rateHz);
  const all = catchMarks(markBand, perEvent, found.events, found.templates, found.left).map((at, i) => ({
    at,
    confidence: found.events[i]!.confidence,
    score: found.events[i]!.score,
  }));
  const likely = all.filter(({ confidence }) => confidence >= EVENT_SETTINGS.leastConfidence);
  const marks = fromRest(
    likely.filter((mark, i) => i === 0 || mark.at > likely[i - 1]!.at),
    markBand,
    markBandOf(calm.rawMps2, surge.rateHz),
    surge.rateHz,
    restLateS * surge.rateHz,
  ).filter(({ at }) => !surge.mask[Math.round(at)]);
  return {
    surge: calm,
    rawMps2: surge.mps2,
    markBand,
    marksS: marks.map(({ at }) => surge.startS + at / surge.rateHz + earlyS),
    confidence: marks.map(({ confidence }) => confidence),
    scores: marks.map(({ score }) => score),
    family,
    heaveShare: found.otherShare,
  };
};

/** Learnt strokes as they would be in the surge turned round. */
const mirrored = (found: LearntStrokes): LearntStrokes => ({
  ...found,
  templates: found.templates.map(({ before, values }) => ({ before, values: negated(values) })),
  chop: negated(found.chop),
  left: negated(found.left),
});

interface Try {
  readonly surge: Surge;
  readonly found: LearntStrokes;
  readonly family: CraftFamily;
}

/** The surge axis, and the family where it is not given, that tell the log best. */
const bestTry = (surges: readonly Surge[], family: CraftFamily | null): Try | null => {
  const families: readonly CraftFamily[] = family ? [family] : ['rowing', 'canoe', 'kayak'];
  let best: (Try & { readonly gain: number }) | null = null;
  for (const one of families)
    for (const surge of surges) {
      const found = learnFrom(surge, one);
      const trust = surge.given ? SIGNAL_SETTINGS.givenMargin : 1;
      const gain = (trust * found.gain) / (one === families[0] ? 1 : SOURCE_SETTINGS.guessMargin);
      if (!best || gain > best.gain) best = { surge, found, family: one, gain };
    }
  return best;
};

/**
 * Strokes of an accelerometer in any mount.
 * @param family null to guess it
 * @param mount how the sensor sits, as given; null to find it
 * @returns null where the channel is sampled too slowly
 */
export const imuStrokes = (
  channel: Channel,
  track: Progress | null,
  family: CraftFamily | null,
  mount: Mount | null = null,
): SurgeStrokes | null => {
  const best = bestTry(surgesOf(channel, mount), family);
  if (!best) return null;
  const { surge, found } = best;
  const agreement = trackSign(surge, track);
  const shape = found.templates.reduce((sum, { values }) => sum + forwardness(values), 0);
  const sign = Math.abs(agreement) > SIGNAL_SETTINGS.trackAgreement ? agreement : surge.given ? 1 : shape;
  return sign < 0
    ? marked(turnedRound(surge), mirrored(found), best.family)
    : marked(surge, found, best.family);
};

/**
 * Strokes of a logged speed.
 * @returns null where it is sampled too slowly for the craft's highest rate
 */
export const speedStrokes = (channel: Channel, family: CraftFamily): SurgeStrokes | null => {
  const surge = speedSurge(channel, RATE_RANGE_SPM[family][1]);
  const intervalS = usualIntervalS(channel.atS);
  if (!surge || intervalS === null) return null;
  return marked(
    surge,
    learnFrom(surge, family),
    family,
    SOURCE_SETTINGS.speedEarly * intervalS,
    SOURCE_SETTINGS.speedLate * intervalS,
  );
};
