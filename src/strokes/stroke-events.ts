import { parabolaVertex } from '../signal/index.js';
import { type CraftFamily, RATE_RANGE_SPM } from '../units/craft.js';
import { type KnownStrokes, type MatchedFilterBank, type Matches, matchesOf } from './stroke-matches.js';
import { type Candidate, type PathLimits, strokePath } from './stroke-path.js';
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
  /** Gain of calling it a stroke, for itself: a bounded log-likelihood ratio. */
  readonly score: number;
  /** How likely it is a stroke, 0 to 1. */
  readonly confidence: number;
}

/** What a search found. */
export interface StrokeSearch {
  readonly events: readonly StrokeEvent[];
  /** Sum of the scores along the path, less its costs. */
  readonly total: number;
  /** Usual height of the strokes of each template; null where nobody knows it. */
  readonly usualOf: readonly number[] | null;
}

/**
 * Gain of calling a peak a stroke. For a stroke of known size d in unit noise the log-likelihood ratio is
 * d² · (share - 1/2), bounded above, for strokes are not all alike. A low peak counts against, a little: the sequence
 * decides whether it is one.
 * @param share height of the peak, where 1 is usual
 * @param usualSds usual height in standard deviations of noise
 * @param evenShare share at which it is as likely noise as stroke
 */
const scoreOf = (share: number, usualSds: number, evenShare: number): number => {
  const { mostScore, mostSlope } = EVENT_SETTINGS;
  const slope = Math.min(mostSlope, usualSds * usualSds);
  return Math.min(mostScore, slope * (share - evenShare));
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
  const { rateHz, evenShare, light, leastScore } = EVENT_SETTINGS;
  const { amplitude: height, usual, noiseSd, drive: driveMatch } = matches;
  const size = mask.length;
  const found: Scored[] = [];
  const edge = Math.round(EVENT_SETTINGS.edgeS * rateHz);
  for (let i = edge; i < size - edge; i++) {
    if (mask[i] || !(height[i]! > height[i - 1]! && height[i]! >= height[i + 1]!)) continue;
    const whole = height[i]!;
    const noiseSds = whole / noiseSd[i]!;
    const usualSds = usual[i]! / noiseSd[i]!;
    const drive = driveMatch && whole > 0 ? driveMatch.amplitude[i]! / whole : null;
    // a light stroke far out of the noise, with all of its drive, is no lesser stroke for being light
    const lightly = drive !== null && drive >= light.driveShare && noiseSds >= light.sds;
    const vertex = parabolaVertex(height[i - 1]!, whole, height[i + 1]!);
    const position = i + vertex.offset;
    const share = vertex.height / usual[i]!;
    const gain = scoreOf(share, usualSds, lightly ? light.evenShare : evenShare);
    const loss = drive === null ? 0 : driveLoss(drive, whole / driveMatch!.noiseSd[i]!, chance);
    if (gain + loss < leastScore) continue;
    found.push({
      position,
      atS: position / rateHz,
      which: matches.which[i]!,
      amplitude: vertex.height,
      share,
      noiseSds,
      score: gain + loss,
    });
  }
  return found;
};

/**
 * How likely each stroke of a path is one: by its own score, and by how well those around it stand, for a train
 * of strokes holds each of them.
 */
const confidences = (path: readonly Candidate[], mostIntervalS: number): number[] => {
  const { base, own, near, reach } = EVENT_SETTINGS.confidence;
  return path.map(({ atS, score }, i) => {
    let sum = 0;
    let count = 0;
    for (const way of [-1, 1]) {
      let lastS = atS;
      for (let k = i + way, n = 0; n < reach; k += way, n++) {
        const other = path[k];
        if (other === undefined || Math.abs(other.atS - lastS) > mostIntervalS) break;
        sum += other.score;
        count++;
        lastS = other.atS;
      }
    }
    const around = count > 0 ? sum / count : 0;
    return 1 / (1 + Math.exp(-(base + own * score + near * around)));
  });
};

/** What the search is limited to by the family, in seconds. */
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
  known: KnownStrokes | null,
): StrokeSearch => {
  // noise reaches about sqrt(2 ln n) sd in n independent looks (extreme value theory)
  const chance = 2 * Math.log(rateLimits.slowestS / EVENT_SETTINGS.lookS) + EVENT_SETTINGS.chanceMargin;
  const matches = matchesOf(values, bank, rateLimits.slowestS, known);
  const candidates = candidatesOf(matches, mask, chance);
  const { chosen, total } = strokePath(candidates, rateLimits);
  const path = chosen.map((k) => candidates[k]!);
  const confidence = confidences(path, rateLimits.mostIntervalS);
  const events = path.map((event, k) => ({ ...event, confidence: confidence[k]! }));
  return { events, total, usualOf: matches.usualOf };
};
