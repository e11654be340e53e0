import { median, quantile, quantileInPlace } from '../signal/index.js';
import { BLOCK_STRIDE } from './blocks.js';
import { matchTwo, type NoisePower, roomFor, type Sought, type Template } from './matched-filter.js';
import { EVENT_SETTINGS } from './stroke-settings.js';

/** What a search matches with. */
export interface MatchedFilterBank {
  readonly templates: readonly Template[];
  /** Noise that each template is matched in: waves meet the hull otherwise at another rate and speed. */
  readonly noises: readonly NoisePower[];
  /** Which template is due at each sample, by the rate there; null to take the one that stands out most. */
  readonly due: Uint8Array | null;
  /** The first of the templates that are due at rest; null where none is. */
  readonly restFrom: number | null;
  /** Usual height of the strokes of each template; null for a first guess, whose size nobody knows. */
  readonly usual: readonly number[] | null;
}

/** The match at each sample, of the template that is due there or stands out most. */
export interface Matches {
  readonly which: Uint8Array;
  /** In units of the template. */
  readonly amplitude: Float64Array;
  /** Usual amplitude of a stroke around the sample. */
  readonly usual: Float64Array;
  /** sd of the amplitude in the noise around the sample. */
  readonly noiseSd: Float64Array;
  /** Part of the stroke after its check, alone: what a boat that is merely stopped does not show; null while no stroke is known. */
  readonly drive: { readonly amplitude: Float64Array; readonly noiseSd: Float64Array } | null;
  /** Usual height of the strokes of each template. */
  readonly usualOf: readonly number[] | null;
}

/** What follows the check of a stroke. */
const driveOf = ({ before, values }: Template): Template => {
  const from = Math.min(
    values.length - 2,
    before + Math.round(EVENT_SETTINGS.checkS * EVENT_SETTINGS.rateHz),
  );
  return { before: before - from, values: values.slice(from) };
};

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

/** Blocks in which a template is due, or so near that its height there tells what is usual. */
const blocksDue = (turn: Turn, reach: number): Uint8Array =>
  Uint8Array.from({ length: Math.ceil(turn.due.length / BLOCK_STRIDE) }, (_, b) =>
    isDue(turn, b * BLOCK_STRIDE - reach, (b + 1) * BLOCK_STRIDE + reach) ? 1 : 0,
  );

/**
 * Usual height of a stroke around each sample, from the highest match in each span of one slow stroke.
 * @param turn where the template is due; it is judged by the strongest of those stretches
 * @param into where it is put, where the template is due
 */
const usualHeight = (
  amplitude: Float64Array,
  slowestS: number,
  turn: Turn | null,
  into: Float64Array,
): void => {
  const block = Math.max(1, Math.round(slowestS * EVENT_SETTINGS.rateHz));
  const tops = new Float64Array(Math.ceil(amplitude.length / block));
  for (let b = 0; b < tops.length; b++) {
    const end = Math.min((b + 1) * block, amplitude.length);
    for (let i = b * block; i < end; i++) if (amplitude[i]! > tops[b]!) tops[b] = amplitude[i]!;
  }
  const half = Math.max(1, Math.round(EVENT_SETTINGS.localHalfS / slowestS));
  const local = new Float64Array(tops.length);
  for (let b = 0; b < local.length; b++)
    local[b] = quantileInPlace(tops.slice(Math.max(0, b - half), b + half + 1), 0.7);
  const own = local.filter((_, b) => isDue(turn, b * block, (b + 1) * block));
  const strongest = own.length > 0 ? quantile(own, 0.9) : 0;
  const floor = strongest * EVENT_SETTINGS.floorShare;
  for (let i = 0; i < into.length; i++) {
    if (turn && turn.due[i] !== turn.which) continue;
    const at = Math.max(0, Math.min(local.length - 1, (i + 0.5) / block - 0.5));
    const low = Math.floor(at);
    const high = Math.min(local.length - 1, low + 1);
    const here = local[low]! + (at - low) * (local[high]! - local[low]!);
    into[i] = Math.max(here, floor);
  }
};

/**
 * Standard deviation around each sample as the bulk of values there shows it: strokes not yet known are left out.
 * @param into where it is put, where the template is due
 */
const localSd = (values: Float64Array, turn: Turn | null, into: Float64Array): void => {
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
    nodes.push(
      count > 0 ? 1.4826 * quantileInPlace(near.subarray(0, count), 0.5) : (nodes[nodes.length - 1] ?? 0),
    );
  }
  for (let i = 0; i < into.length; i++) {
    if (turn && turn.due[i] !== turn.which) continue;
    const low = Math.floor(i / every);
    const share = i / every - low;
    into[i] = nodes[low]! + share * (nodes[low + 1]! - nodes[low]!) + 1e-9;
  }
};

/**
 * Usual height of a stroke where the highest match around is so high: by itself where that stands far out of the
 * noise, by the log's usual stroke where noise reaches as high.
 */
const believed = (
  local: number,
  usual: number,
  sd: number,
  trustedSds: readonly [number, number],
): number => {
  const { liftSds, leastUsualSds } = EVENT_SETTINGS;
  const place = (local / sd - trustedSds[0]) / (trustedSds[1] - trustedSds[0]);
  const trust = Math.max(0, Math.min(1, place));
  return trust * (local - liftSds * sd) + (1 - trust) * Math.max(usual, leastUsualSds * sd);
};

/** Matches where no template is known to be due: at each sample the one that stands farthest out. */
const foremost = (
  values: Float64Array,
  { templates, noises, usual: usualOf }: MatchedFilterBank,
  slowestS: number,
): Matches => {
  const which = new Uint8Array(values.length);
  const [amplitude, usual, noiseSd] = [roomFor(values), roomFor(values), roomFor(values)];
  const [sd, local] = [roomFor(values), roomFor(values)];
  const sought = templates.map((template, k): Sought => ({ template, power: noises[k]! }));
  for (let k = 0; k < sought.length; k += 2) {
    const heights = matchTwo(values, sought[k]!, sought[k + 1] ?? sought[k]!);
    for (let own = k; own < Math.min(k + 2, sought.length); own++) {
      const height = heights[own - k]!;
      // strokes are in it: it is too much where they stand far out, and does no harm there
      localSd(height, null, sd);
      if (usualOf !== null) usualHeight(height, slowestS, null, local);
      for (let i = 0; i < height.length; i++) {
        if (own > 0 && height[i]! * noiseSd[i]! <= amplitude[i]! * sd[i]!) continue;
        which[i] = own;
        amplitude[i] = height[i]!;
        noiseSd[i] = sd[i]!;
        usual[i] =
          usualOf === null
            ? EVENT_SETTINGS.guessedSds * sd[i]!
            : believed(local[i]!, usualOf[own]!, sd[i]!, EVENT_SETTINGS.trustedSds);
      }
    }
  }
  return { which, amplitude, usual, noiseSd, drive: null, usualOf };
};

/** Usual height of the strokes at their marks: in a train each match holds a little of its neighbours too. */
const usualAt = (height: Float64Array, { due, which }: Turn, marks: readonly number[]): number => {
  const reach = Math.round(EVENT_SETTINGS.nearS * EVENT_SETTINGS.rateHz);
  const heights: number[] = [];
  for (const mark of marks) {
    const at = Math.round(mark);
    if (due[at] !== which) continue;
    let most = Number.NEGATIVE_INFINITY;
    for (let i = Math.max(0, at - reach); i <= at + reach && i < height.length; i++)
      if (height[i]! > most) most = height[i]!;
    heights.push(most);
  }
  return heights.length > 0 ? median(heights) : 1;
};

/** Matches of the templates that are due. @param marks strokes known so far, in samples */
const inTurn = (
  values: Float64Array,
  { templates, noises, restFrom }: MatchedFilterBank,
  due: Uint8Array,
  slowestS: number,
  marks: readonly number[],
  without: Float64Array,
): Matches => {
  const flat = new Float64Array(noises[0]!.length).fill(1);
  const { rateHz, localHalfS, noiseHalfS, trustedSds, trustedAtRestSds } = EVENT_SETTINGS;
  const around = Math.round((Math.max(localHalfS, noiseHalfS) + slowestS) * rateHz);
  const [amplitude, usual, noiseSd] = [roomFor(values), roomFor(values), roomFor(values)];
  const drive = { amplitude: roomFor(values), noiseSd: roomFor(values) };
  // what a template leaves where it is not due is not looked at
  const room = [roomFor(values), roomFor(values)] as const;
  const usualOf: number[] = [];
  for (const [which, template] of templates.entries()) {
    const turn = { due, which };
    const wanted = blocksDue(turn, around);
    const whole = { template, power: noises[which]! };
    const part = { template: driveOf(template), power: flat };
    const [height, driveHeight] = matchTwo(values, whole, part, wanted, room);
    const own = usualAt(height, turn, marks);
    usualOf.push(own);
    usualHeight(height, slowestS, turn, usual);
    keepDue(height, turn, amplitude);
    keepDue(driveHeight, turn, drive.amplitude);
    const [rest, driveRest] = matchTwo(without, whole, part, wanted, room);
    localSd(rest, turn, noiseSd);
    localSd(driveRest, turn, drive.noiseSd);
    const trusted = which < (restFrom ?? templates.length) ? trustedSds : trustedAtRestSds;
    for (let i = 0; i < due.length; i++) {
      if (due[i] !== which) continue;
      usual[i] = believed(usual[i]!, own, noiseSd[i]!, trusted);
    }
  }
  return { which: due, amplitude, usual, noiseSd, drive, usualOf };
};

/** Take over values where a template is due. */
const keepDue = (values: Float64Array, { due, which }: Turn, into: Float64Array): void => {
  for (let i = 0; i < into.length; i++) if (due[i] === which) into[i] = values[i]!;
};

/** Strokes known so far, and the signal with them taken out, which tells the noise. */
export interface KnownStrokes {
  /** In samples, in order. */
  readonly marks: readonly number[];
  readonly left: Float64Array;
}

/**
 * Match templates against a signal.
 * @param slowestS span in which at least one stroke of an interval falls, s
 * @param known null while no strokes are known
 */
export const matchesOf = (
  values: Float64Array,
  bank: MatchedFilterBank,
  slowestS: number,
  known: KnownStrokes | null,
): Matches =>
  bank.due && known
    ? inTurn(values, bank, bank.due, slowestS, known.marks, known.left)
    : foremost(values, bank, slowestS);
