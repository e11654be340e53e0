import { median, parabolaVertex, quantile } from '../signal/index.js';
import { type CraftFamily, RATE_RANGE_SPM } from '../units/craft.js';
import { BLOCK_STRIDE } from './blocks.js';
import { matchTwo, type NoisePower, type Template } from './matched-filter.js';
import { withMissed } from './missed-strokes.js';
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

/** Where one of several templates is due. */
interface Turn {
  readonly due: Uint8Array;
  readonly which: number;
}

/** True where the template is due at some sample of a span, or nobody knows which one is. */
const isDue = (turn: Turn | null, from: number, to: number): boolean => {
  if (!turn) return true;
  const { due, which } = turn;
  for (let i = Math.max(0, from); i < to && i < due.length; i++) if (due[i] === which) return true;
  return false;
};

/** Blocks in which a template is due, or so near that its height there tells what is usual; null for all. */
const blocksDue = (turn: Turn | null, reach: number): Uint8Array | null =>
  turn &&
  Uint8Array.from({ length: Math.ceil(turn.due.length / BLOCK_STRIDE) }, (_, b) =>
    isDue(turn, b * BLOCK_STRIDE - reach, (b + 1) * BLOCK_STRIDE + reach) ? 1 : 0,
  );

/**
 * Usual height of a stroke around each sample, from the highest match in each span of one slow stroke.
 * @param turn where the template is due; it is judged by the strongest of those stretches
 */
const usualHeight = (
  amplitude: Float64Array,
  rateHz: number,
  slowestS: number,
  learning: boolean,
  turn: Turn | null,
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
  const own = local.filter((_, b) => isDue(turn, b * block, (b + 1) * block));
  const strongest = own.length > 0 ? quantile(own, 0.9) : 0;
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

interface LocalMatch {
  readonly amplitude: Float64Array;
  readonly usual: Float64Array;
  /** sd of the amplitude in the noise around each sample; null where it is not yet known. */
  readonly noiseSd: Float64Array | null;
  /** The part of the stroke after its check, alone: what a boat that is merely stopped does not show. */
  readonly drive: { readonly amplitude: Float64Array; readonly sd: Float64Array } | null;
}

/** What follows the check of a stroke. */
const driveOf = ({ before, values }: Template): Template => {
  const from = Math.min(
    values.length - 2,
    before + Math.round(EVENT_SETTINGS.checkS * EVENT_SETTINGS.rateHz),
  );
  return { before: before - from, values: values.slice(from) };
};

/** Loss of a peak whose drive is small against the whole: bounded, nothing where noise hides the drive. */
const driveLoss = (share: number, sds: number, chance: number): number => {
  const { driveShare, mostSlope, mostDriveLoss } = EVENT_SETTINGS;
  const slope = Math.min(mostSlope * 2, Math.max(0, sds * sds - chance));
  return Math.max(-mostDriveLoss, Math.min(0, slope * (share - driveShare)));
};

/**
 * Standard deviation around each sample as the bulk of values there shows it: strokes not yet known are left out.
 * @param turn where it will be asked for; null for everywhere
 */
const localSd = (values: Float64Array, turn: Turn | null): Float64Array => {
  const { rateHz, noiseHalfS, noiseEveryS, noiseStrideS } = EVENT_SETTINGS;
  const every = Math.round(noiseEveryS * rateHz);
  const half = Math.round(noiseHalfS * rateHz);
  const stride = Math.max(1, Math.round(noiseStrideS * rateHz));
  const near = new Float64Array(Math.ceil((2 * half) / stride) + 1);
  const nodes: number[] = [];
  for (let at = 0; at < values.length + every; at += every) {
    let count = 0;
    if (isDue(turn, at - every, at + every)) {
      // towards the ends of the log the span shrinks: the filters know less there, and the noise is more
      const inside = Math.max(0, Math.min(at, values.length - at));
      const span = Math.min(half, inside + every);
      for (let i = Math.max(0, at - span); i < Math.min(values.length, at + span); i += stride)
        near[count++] = Math.abs(values[i]!);
    }
    nodes.push(count > 0 ? 1.4826 * median(near.subarray(0, count)) : (nodes[nodes.length - 1] ?? 0));
  }
  const sd = new Float64Array(values.length);
  for (let i = 0; i < sd.length; i++) {
    const low = Math.floor(i / every);
    const share = i / every - low;
    sd[i] = nodes[low]! + share * (nodes[low + 1]! - nodes[low]!) + 1e-9;
  }
  return sd;
};

/** Peaks of several matches, best of the templates at each place. */
const candidatesOf = (
  matches: readonly LocalMatch[],
  due: Uint8Array | null,
  hole: Uint8Array,
  chance: number,
): Scored[] => {
  const { rateHz } = EVENT_SETTINGS;
  const size = hole.length;
  const share = new Float64Array(size).fill(Number.NEGATIVE_INFINITY);
  const which = new Uint8Array(size);
  for (const [m, { amplitude, usual }] of matches.entries())
    for (let i = 0; i < size; i++) {
      if (due && due[i] !== m) continue;
      const here = amplitude[i]! / usual[i]!;
      if (here > share[i]!) {
        share[i] = here;
        which[i] = m;
      }
    }
  const found: Scored[] = [];
  const edge = Math.round(EVENT_SETTINGS.edgeS * rateHz);
  for (let i = edge; i < size - edge; i++) {
    if (hole[i] || !(share[i]! > share[i - 1]! && share[i]! >= share[i + 1]!)) continue;
    const match = matches[which[i]!]!;
    const noiseSd = match.noiseSd ? match.noiseSd[i]! : match.usual[i]! / EVENT_SETTINGS.lessonSds;
    const noiseSds = match.amplitude[i]! / noiseSd;
    const whole = match.amplitude[i]!;
    const drive = match.drive && whole > 0 ? match.drive.amplitude[i]! / whole : null;
    // a light stroke far out of the noise, with all of its drive, is no lesser stroke for being light
    const { evenShare, light } = EVENT_SETTINGS;
    const lightly = drive !== null && drive >= light.driveShare && noiseSds >= light.sds;
    const usualSds = match.usual[i]! / noiseSd;
    const gain = scoreOf(share[i]!, usualSds, chance, lightly ? light.evenShare : evenShare);
    const loss = drive === null ? 0 : driveLoss(drive, whole / match.drive!.sd[i]!, chance);
    const score = gain + loss;
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

/** What a search listens with. */
export interface Ear {
  readonly templates: readonly Template[];
  /** Which template is due at each sample, by the rate there; null to take the one that stands out most. */
  readonly due: Uint8Array | null;
  readonly noise: NoisePower;
}

/**
 * The likeliest strokes of a signal, for given templates in given noise.
 * @param hole 1 where the signal is missing
 * @param without the signal with strokes known so far taken out, which tells the noise around each peak; null
 *   while none are known: peaks are then judged by their share of the usual height alone
 */
export const searchStrokes = (
  values: Float64Array,
  hole: Uint8Array,
  { templates, due, noise }: Ear,
  listening: Listening,
  without: Float64Array | null,
): StrokeSearch => {
  const flat = new Float64Array(noise.length).fill(1);
  const { rateHz, localHalfS, noiseHalfS } = EVENT_SETTINGS;
  const around = Math.round((Math.max(localHalfS, noiseHalfS) + listening.slowestS) * rateHz);
  const matches = templates.map((template, which): LocalMatch => {
    const whole = { template, power: noise };
    const part = { template: driveOf(template), power: flat };
    const turn = due && { due, which };
    const wanted = blocksDue(turn, around);
    const [amplitude, drive] = matchTwo(values, whole, part, wanted);
    const usual = usualHeight(amplitude, rateHz, listening.slowestS, without === null, turn);
    if (!without) return { amplitude, usual, noiseSd: null, drive: null };
    const [noiseMatch, driveNoise] = matchTwo(without, whole, part, wanted);
    return {
      amplitude,
      usual,
      noiseSd: localSd(noiseMatch, turn),
      drive: { amplitude: drive, sd: localSd(driveNoise, turn) },
    };
  });
  // noise reaches about sqrt(2 ln n) sd in n independent looks (extreme value theory)
  const chance = 2 * Math.log(listening.slowestS / EVENT_SETTINGS.lookS) + EVENT_SETTINGS.chanceMargin;
  const candidates = candidatesOf(matches, due, hole, chance);
  const { chosen, total } = strokePath(candidates, listening);
  const path = withMissed(candidates, chosen, listening.mostIntervalS).map((i) => candidates[i]!);
  const confidence = confidences(path, listening.mostIntervalS);
  return { events: path.map((event, i) => ({ ...event, confidence: confidence[i]! })), total };
};
