import { quantile, quantileInPlace } from '../signal/index.js';
import { BLOCK_STRIDE } from './blocks.js';
import { matchTwo, type NoisePower, roomFor, type Sought, type Template } from './matched-filter.js';
import { EVENT_SETTINGS } from './stroke-settings.js';

/** What a search listens with. */
export interface MatchedFilterBank {
  readonly templates: readonly Template[];
  /** Which template is due at each sample, by the rate there; null to take the one that stands out most. */
  readonly due: Uint8Array | null;
  readonly noise: NoisePower;
}

/** The match at each sample, of the template that is due there or stands out most. */
export interface Matches {
  readonly which: Uint8Array;
  /** In units of the template. */
  readonly amplitude: Float64Array;
  /** Usual amplitude of a stroke around the sample. */
  readonly usual: Float64Array;
  /** One over the other. */
  readonly share: Float64Array;
  /** What the noise around each sample does; null where it is not yet known. */
  readonly noise: NoiseMatches | null;
}

/** What is known of a match once the noise is. */
interface NoiseMatches {
  /** sd of the amplitude. */
  readonly sd: Float64Array;
  /** Amplitude of the part of the stroke after its check, alone: what a boat that is merely stopped does not show. */
  readonly drive: Float64Array;
  readonly driveSd: Float64Array;
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
  learning: boolean,
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
  const floor = strongest * (learning ? EVENT_SETTINGS.learningFloorShare : EVENT_SETTINGS.floorShare);
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
const localSd = (values: Float64Array, turn: Turn, into: Float64Array): void => {
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
    if (turn.due[i] !== turn.which) continue;
    const low = Math.floor(i / every);
    const share = i / every - low;
    into[i] = nodes[low]! + share * (nodes[low + 1]! - nodes[low]!) + 1e-9;
  }
};

/** Matches where no template is known to be due: at each sample the one that stands out most. */
const foremost = (
  values: Float64Array,
  { templates, noise }: MatchedFilterBank,
  slowestS: number,
): Matches => {
  const size = values.length;
  const which = new Uint8Array(size);
  const amplitude = roomFor(values);
  const usual = roomFor(values);
  const usualHere = roomFor(values);
  const share = roomFor(values).fill(Number.NEGATIVE_INFINITY);
  const sought = templates.map((template): Sought => ({ template, power: noise }));
  for (let k = 0; k < sought.length; k += 2) {
    const heights = matchTwo(values, sought[k]!, sought[k + 1] ?? sought[k]!);
    for (let i = 0; i < heights.length && k + i < sought.length; i++) {
      usualHeight(heights[i]!, slowestS, true, null, usualHere);
      keepGreater(heights[i]!, usualHere, k + i, { which, amplitude, usual, share });
    }
  }
  return { which, amplitude, usual, share, noise: null };
};

/** Take over the match of a template wherever it stands out more than those before it. */
const keepGreater = (
  height: Float64Array,
  usualHere: Float64Array,
  template: number,
  { which, amplitude, usual, share }: Omit<Matches, 'noise'>,
): void => {
  for (let i = 0; i < height.length; i++) {
    const here = height[i]! / usualHere[i]!;
    if (!(here > share[i]!)) continue;
    share[i] = here;
    which[i] = template;
    amplitude[i] = height[i]!;
    usual[i] = usualHere[i]!;
  }
};

/** Matches of the templates that are due. */
const inTurn = (
  values: Float64Array,
  { templates, noise: power }: MatchedFilterBank,
  due: Uint8Array,
  slowestS: number,
  without: Float64Array | null,
): Matches => {
  const flat = new Float64Array(power.length).fill(1);
  const { rateHz, localHalfS, noiseHalfS } = EVENT_SETTINGS;
  const around = Math.round((Math.max(localHalfS, noiseHalfS) + slowestS) * rateHz);
  const [amplitude, usual, share] = [roomFor(values), roomFor(values), roomFor(values)];
  const noise = without && { sd: roomFor(values), drive: roomFor(values), driveSd: roomFor(values) };
  // what a template leaves where it is not due is not looked at
  const room = [roomFor(values), roomFor(values)] as const;
  for (const [which, template] of templates.entries()) {
    const turn = { due, which };
    const wanted = blocksDue(turn, around);
    const whole = { template, power };
    const part = { template: driveOf(template), power: flat };
    const [height, drive] = matchTwo(values, whole, part, wanted, room);
    usualHeight(height, slowestS, without === null, turn, usual);
    keepDue(height, turn, amplitude);
    if (!without || !noise) continue;
    keepDue(drive, turn, noise.drive);
    const [rest, driveRest] = matchTwo(without, whole, part, wanted, room);
    localSd(rest, turn, noise.sd);
    localSd(driveRest, turn, noise.driveSd);
  }
  for (let i = 0; i < share.length; i++) share[i] = amplitude[i]! / usual[i]!;
  return { which: due, amplitude, usual, share, noise };
};

/** Take over values where a template is due. */
const keepDue = (values: Float64Array, { due, which }: Turn, into: Float64Array): void => {
  for (let i = 0; i < into.length; i++) if (due[i] === which) into[i] = values[i]!;
};

/**
 * Match templates against a signal.
 * @param slowestS span in which at least one stroke of a rowing interval falls, s
 * @param without the signal with strokes known so far taken out, which tells the noise; null while none are known
 */
export const matchesOf = (
  values: Float64Array,
  bank: MatchedFilterBank,
  slowestS: number,
  without: Float64Array | null,
): Matches =>
  bank.due ? inTurn(values, bank, bank.due, slowestS, without) : foremost(values, bank, slowestS);
