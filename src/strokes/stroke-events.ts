import { parabolaVertex, quantile } from '../signal/index.js';
import { type CraftFamily, RATE_RANGE_SPM } from '../units/craft.js';
import {
  type Blocks,
  blocksOf,
  type Match,
  matchTemplate,
  type NoisePower,
  noisePower,
  type Template,
} from './matched-filter.js';
import { type Candidate, changeCost, type PathLimits, strokePath } from './stroke-path.js';
import { EVENT_SETTINGS, PAUSE_S } from './stroke-settings.js';

/** A stroke found in a signal: its place, before its mark is refined. */
export interface StrokeEvent {
  /** Position in samples of the signal. */
  readonly position: number;
  /** Template that fitted best. */
  readonly which: number;
  /** Size of the stroke in units of that template. */
  readonly amplitude: number;
  /** Height of the match, where 1 is usual for this stretch of the log. */
  readonly share: number;
  /** Height of the match in standard deviations of noise. */
  readonly noiseSds: number;
  /** How likely it is a stroke, 0 to 1. */
  readonly confidence: number;
}

/** What a search found. */
export interface StrokeSearch {
  readonly events: readonly StrokeEvent[];
  /** Sum of the scores along the path. */
  readonly total: number;
}

/** Usual height of a stroke around each sample, from the highest match in each span of one slow stroke. */
const usualHeight = (
  amplitude: Float64Array,
  rateHz: number,
  slowestS: number,
  learning: boolean,
): Float64Array => {
  const block = Math.max(1, Math.round(slowestS * rateHz));
  const tops: number[] = [];
  for (let from = 0; from < amplitude.length; from += block) {
    let top = 0;
    for (let i = from; i < Math.min(from + block, amplitude.length); i++) top = Math.max(top, amplitude[i]!);
    tops.push(top);
  }
  const half = Math.max(1, Math.round(EVENT_SETTINGS.localHalfS / slowestS));
  const local = tops.map((_, b) => quantile(tops.slice(Math.max(0, b - half), b + half + 1), 0.7));
  const strongest = quantile(local, 0.9);
  const floor = strongest * (learning ? EVENT_SETTINGS.lessonFloorShare : EVENT_SETTINGS.floorShare);
  const made = new Float64Array(amplitude.length);
  for (let i = 0; i < made.length; i++) {
    const at = Math.max(0, Math.min(local.length - 1, (i + 0.5) / block - 0.5));
    const low = Math.floor(at);
    const high = Math.min(local.length - 1, low + 1);
    const here = local[low]! + (at - low) * (local[high]! - local[low]!);
    made[i] = Math.max(here, floor);
  }
  return made;
};

/** Gain of calling a peak a stroke; before a stroke has been learnt the noise is not known, and left out. */
const scoreOf = (share: number, noiseSds: number): number =>
  Math.min(
    EVENT_SETTINGS.mostScore,
    EVENT_SETTINGS.shareGain * (share - EVENT_SETTINGS.evenShare),
    noiseSds - EVENT_SETTINGS.noiseSd,
  );

interface Scored extends Candidate, Omit<StrokeEvent, 'confidence'> {}

/** Peaks of several matches, best of the templates at each place. */
const candidatesOf = (
  matches: readonly Match[],
  hole: Uint8Array,
  rateHz: number,
  slowestS: number,
  learning: boolean,
): Scored[] => {
  const size = hole.length;
  const share = new Float64Array(size).fill(Number.NEGATIVE_INFINITY);
  const which = new Uint8Array(size);
  for (const [m, { amplitude }] of matches.entries()) {
    const usual = usualHeight(amplitude, rateHz, slowestS, learning);
    for (let i = 0; i < size; i++) {
      const here = amplitude[i]! / usual[i]!;
      if (here > share[i]!) {
        share[i] = here;
        which[i] = m;
      }
    }
  }
  const found: Scored[] = [];
  for (let i = 1; i < size - 1; i++) {
    if (hole[i] || !(share[i]! > share[i - 1]! && share[i]! >= share[i + 1]!)) continue;
    const match = matches[which[i]!]!;
    const noiseSds = match.amplitude[i]! / match.noiseSd;
    const score = scoreOf(share[i]!, learning ? Number.POSITIVE_INFINITY : noiseSds);
    if (score < EVENT_SETTINGS.leastScore) continue;
    const { offset, height } = parabolaVertex(share[i - 1]!, share[i]!, share[i + 1]!);
    const position = i + offset;
    const amplitude = (match.amplitude[i]! * height) / share[i]!;
    found.push({
      position,
      atS: position / rateHz,
      which: which[i]!,
      amplitude,
      share: height,
      noiseSds,
      score,
    });
  }
  return found;
};

/** How likely each stroke of a path is one, from its score and from how well it fits the rate around it. */
const confidences = (path: readonly Candidate[], mostIntervalS: number): number[] => {
  const { base, score: perScore, change } = EVENT_SETTINGS.confidence;
  return path.map((candidate, i) => {
    const before = i > 0 ? candidate.atS - path[i - 1]!.atS : Number.POSITIVE_INFINITY;
    const after = i + 1 < path.length ? path[i + 1]!.atS - candidate.atS : Number.POSITIVE_INFINITY;
    const cost =
      before > mostIntervalS || after > mostIntervalS
        ? EVENT_SETTINGS.mostIntervalCost / 2
        : changeCost(after / before);
    return 1 / (1 + Math.exp(-(base + perScore * candidate.score + change * cost)));
  });
};

/** Signal less the strokes that were found in it, each in its own size. */
export const withoutStrokes = (
  values: Float64Array,
  templates: readonly Template[],
  events: readonly StrokeEvent[],
): Float64Array => {
  const rest = values.slice();
  for (const { position, which, amplitude } of events) {
    const template = templates[which]!;
    const at = Math.floor(position);
    const share = position - at;
    for (let i = 0; i <= template.values.length; i++) {
      const here = i < template.values.length ? template.values[i]! : 0;
      const value = here + share * ((i > 0 ? template.values[i - 1]! : 0) - here);
      const to = at + i - template.before;
      if (to >= 0 && to < rest.length) rest[to] = rest[to]! - amplitude * value;
    }
  }
  return rest;
};

/** How the search listens: the family's limits, in seconds. */
export interface Listening extends PathLimits {
  /** Span in which at least one stroke of a bout falls, s. */
  readonly slowestS: number;
}

/** Limits of a family of craft. */
export const listeningFor = (family: CraftFamily): Listening => {
  const [slowSpm, fastSpm] = RATE_RANGE_SPM[family];
  return {
    leastIntervalS: EVENT_SETTINGS.refractoryShare * (60 / fastSpm),
    mostIntervalS: 60 / slowSpm + PAUSE_S[family],
    slowestS: Math.min(EVENT_SETTINGS.slowestS, 60 / slowSpm),
  };
};

/** A signal made ready: its samples, where they are missing, and its blocks for the filters. */
export interface Heard {
  readonly values: Float64Array;
  readonly hole: Uint8Array;
  readonly blocks: Blocks;
}

/** Make a signal ready. */
export const heard = (values: Float64Array, hole: Uint8Array): Heard => ({
  values,
  hole,
  blocks: blocksOf(values),
});

/** Noise power of a signal, holes left out where that leaves anything; null where it is too short. */
export const powerOf = (values: Float64Array, hole: Uint8Array): NoisePower | null =>
  noisePower(
    values,
    hole.map((missing) => 1 - missing),
  ) ?? noisePower(values, new Uint8Array(values.length).fill(1));

/**
 * The likeliest strokes of a signal, for given templates in given noise.
 * @param learning true while the noise is not yet known: peaks are then judged by their share alone
 */
export const searchStrokes = (
  signal: Heard,
  templates: readonly Template[],
  noise: NoisePower,
  listening: Listening,
  learning: boolean,
): StrokeSearch => {
  const matches = templates.map((template) => matchTemplate(signal.blocks, template, noise));
  const candidates = candidatesOf(matches, signal.hole, EVENT_SETTINGS.rateHz, listening.slowestS, learning);
  const { chosen, total } = strokePath(candidates, listening);
  const path = chosen.map((i) => candidates[i]!);
  const confidence = confidences(path, listening.mostIntervalS);
  return { events: path.map((event, i) => ({ ...event, confidence: confidence[i]! })), total };
};
