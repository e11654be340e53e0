import { parabolaVertex } from '../signal/index.js';
import { type CraftFamily, RATE_RANGE_SPM } from '../units/craft.js';
import type { Template } from './matched-filter.js';
import { withMissed } from './missed-strokes.js';
import { type MatchedFilterBank, type Matches, matchesOf } from './stroke-matches.js';
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

/**
 * Gain of calling a peak a stroke. For a stroke of known size d in unit noise the log-likelihood ratio is
 * d² · (share - 1/2); d² is lessened by what noise alone would show, and bounded, for strokes are not all alike.
 * @param share height of the peak, where 1 is usual
 * @param usualSds usual height in standard deviations of noise
 * @param chance square of the height that noise alone reaches
 * @param evenShare share at which it is as likely noise as stroke
 */
const scoreOf = (share: number, usualSds: number, chance: number, evenShare: number): number => {
  const { mostScore, mostSlope, standing } = EVENT_SETTINGS;
  const slope = Math.min(mostSlope, Math.max(0, usualSds * usualSds - chance));
  const score = Math.min(mostScore, slope * (share - evenShare));
  const beyond = Math.min(standing.most, standing.perSd * (share * usualSds - standing.fromSds));
  return score + Math.max(0, beyond) * Math.max(0, Math.min(1, 3 * (share - evenShare)));
};

interface Scored extends Candidate, Omit<StrokeEvent, 'confidence'> {}

/** Loss of a peak whose drive is small against the whole: bounded, nothing where noise hides the drive. */
const driveLoss = (share: number, sds: number, chance: number): number => {
  const { driveShare, mostSlope, mostDriveLoss } = EVENT_SETTINGS;
  const slope = Math.min(mostSlope * 2, Math.max(0, sds * sds - chance));
  return Math.max(-mostDriveLoss, Math.min(0, slope * (share - driveShare)));
};

/** Peaks of matches. */
const candidatesOf = (matches: Matches, mask: Uint8Array, chance: number): Scored[] => {
  const { rateHz, evenShare, light } = EVENT_SETTINGS;
  const { share, usual, noise } = matches;
  const size = mask.length;
  const found: Scored[] = [];
  const edge = Math.round(EVENT_SETTINGS.edgeS * rateHz);
  for (let i = edge; i < size - edge; i++) {
    if (mask[i] || !(share[i]! > share[i - 1]! && share[i]! >= share[i + 1]!)) continue;
    const noiseSd = noise ? noise.sd[i]! : usual[i]! / EVENT_SETTINGS.learningSds;
    const whole = matches.amplitude[i]!;
    const noiseSds = whole / noiseSd;
    const drive = noise && whole > 0 ? noise.drive[i]! / whole : null;
    // a light stroke far out of the noise, with all of its drive, is no lesser stroke for being light
    const lightly = drive !== null && drive >= light.driveShare && noiseSds >= light.sds;
    const usualSds = usual[i]! / noiseSd;
    const gain = scoreOf(share[i]!, usualSds, chance, lightly ? light.evenShare : evenShare);
    const loss = drive === null ? 0 : driveLoss(drive, whole / noise!.driveSd[i]!, chance);
    const score = gain + loss;
    if (score < EVENT_SETTINGS.leastScore) continue;
    const { offset, height } = parabolaVertex(share[i - 1]!, share[i]!, share[i + 1]!);
    const position = i + offset;
    const amplitude = (whole * height) / share[i]!;
    found.push({
      position,
      atS: position / rateHz,
      which: matches.which[i]!,
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

/**
 * Signal less the strokes that were found in it, each in the size that leaves least. The size is fitted to the
 * plain signal: a whitened fit would leave the slow part of strokes behind as noise, and whiten that away too.
 */
export const withoutStrokes = (
  values: Float64Array,
  templates: readonly Template[],
  events: readonly StrokeEvent[],
): Float64Array => {
  const rest = values.slice();
  for (const { position, which } of events) {
    const template = templates[which]!;
    const at = Math.floor(position);
    const share = position - at;
    const shape = new Float64Array(template.values.length + 1);
    for (let i = 0; i < shape.length; i++) {
      const here = i < template.values.length ? template.values[i]! : 0;
      shape[i] = here + share * ((i > 0 ? template.values[i - 1]! : 0) - here);
    }
    const first = at - template.before;
    let both = 0;
    let own = 0;
    for (let i = 0; i < shape.length; i++) {
      both += (values[first + i] ?? 0) * shape[i]!;
      own += shape[i]! ** 2;
    }
    const size = own > 0 ? Math.max(0, both / own) : 0;
    for (let i = 0; i < shape.length; i++) {
      const to = first + i;
      if (to >= 0 && to < rest.length) rest[to] = rest[to]! - size * shape[i]!;
    }
  }
  return rest;
};

/** How the search listens: the family's limits, in seconds. */
export interface RateLimits extends PathLimits {
  /** Span in which at least one stroke of a rowing interval falls, s. */
  readonly slowestS: number;
}

/** Limits of a family of craft. */
export const rateLimitsFor = (family: CraftFamily): RateLimits => {
  const [slowSpm, fastSpm] = RATE_RANGE_SPM[family];
  return {
    leastIntervalS: EVENT_SETTINGS.refractoryShare * (60 / fastSpm),
    mostIntervalS: 60 / slowSpm + PAUSE_S[family],
    slowestS: Math.min(EVENT_SETTINGS.slowestS, 60 / slowSpm),
  };
};

/**
 * The likeliest strokes of a signal, for given templates in given noise.
 * @param mask 1 where the signal is missing
 * @param without the signal with strokes known so far taken out, which tells the noise around each peak; null
 *   while none are known: peaks are then judged by their share of the usual height alone
 */
export const searchStrokes = (
  values: Float64Array,
  mask: Uint8Array,
  bank: MatchedFilterBank,
  rateLimits: RateLimits,
  without: Float64Array | null,
): StrokeSearch => {
  // noise reaches about sqrt(2 ln n) sd in n independent looks (extreme value theory)
  const chance = 2 * Math.log(rateLimits.slowestS / EVENT_SETTINGS.lookS) + EVENT_SETTINGS.chanceMargin;
  const candidates = candidatesOf(matchesOf(values, bank, rateLimits.slowestS, without), mask, chance);
  const { chosen, total } = strokePath(candidates, rateLimits);
  const path = withMissed(candidates, chosen, rateLimits.mostIntervalS).map((i) => candidates[i]!);
  const confidence = confidences(path, rateLimits.mostIntervalS);
  return { events: path.map((event, i) => ({ ...event, confidence: confidence[i]! })), total };
};
