import { nthSmallest } from '../units/nth-smallest.js';
import type { Channel, Gap } from './channel.js';
import { CHANNEL_SHAPES, type ChannelName } from './channel-name.js';
import { firstOutside, PHYSICAL_RANGES } from './physical-range.js';
import type { Warning } from './warning.js';

/** Where the logger sat. */
export const PLACEMENTS = ['hull', 'cox', 'wrist', 'pocket', 'body', 'unknown'] as const;
export type Placement = (typeof PLACEMENTS)[number];

/** A lap or segment that the log itself marks, on the recording's clock. */
export interface Lap {
  readonly fromS: number;
  readonly toS: number;
}

/** How the log states time: `utc` is an absolute clock; `relative` counts from a start that is not known. */
export type ClockKind = 'utc' | 'relative';

/** Where a recording came from. */
export interface Provenance {
  /** The log as the user named it. */
  readonly file: string;
  /** `gpx`, `tcx`, `fit`, `nmea`, `csv`. */
  readonly format: string;
  /** What the log says of the device, cleaned; null where it says nothing. */
  readonly device: string | null;
  /** What the log says of the sport, cleaned; null where it says nothing. */
  readonly sport: string | null;
}

/** A log in memory: channels with their own time base, SI units. Plain, readonly, checked on the way in. */
export interface Recording {
  readonly provenance: Provenance;
  readonly clock: ClockKind;
  /** Unix time of `at_s` = 0, s; null where the clock is relative. */
  readonly startUnixS: number | null;
  /** Seconds from the first sample to the last. */
  readonly durationS: number;
  readonly channels: Readonly<Partial<Record<ChannelName, Channel>>>;
  /** Laps of the log itself, in time order. */
  readonly laps: readonly Lap[];
  /** Position sd by the log's own accuracy fields, m; null where it has none. */
  readonly statedPositionSdM: number | null;
  /** Where the log itself says it was worn; null where it does not. */
  readonly statedPlacement: Placement | null;
  /** True where the log says that it was made on land (an ergometer, no position). */
  readonly land: boolean;
  readonly warnings: readonly Warning[];
}

/** What a channel is built from. */
export interface ChannelDraft {
  readonly atS: Float64Array;
  readonly columns: readonly Float64Array[];
  /** Times at which the log begins anew (between two samples), s. */
  readonly breaksS?: readonly number[];
}

/** What a recording is built from; times on any common origin. */
export interface RecordingDraft {
  readonly provenance: Provenance;
  /** Unix time of draft time 0, s; null where there is no absolute clock. */
  readonly originUnixS: number | null;
  readonly channels: Readonly<Partial<Record<ChannelName, ChannelDraft>>>;
  readonly laps?: readonly Lap[];
  readonly statedPositionSdM?: number | null;
  readonly statedPlacement?: Placement | null;
  readonly land?: boolean;
  readonly warnings?: readonly Warning[];
}

/** A missing stretch is longer than this many usual sample intervals, and than the floor. */
export const GAP_SETTINGS = Object.freeze({
  /** Usual intervals; 5 keeps a logger that skips now and then free of gaps. */
  intervals: 5,
  /** Seconds; below this nothing is called a gap in a log of whole-second or slower records. */
  floorS: 0.5,
});

/** The steps from one time to the next, s. */
interface Steps {
  /** Their median. */
  readonly usualS: number;
  readonly longestS: number;
}

/** So many steps are looked at to guess the median. */
const GUESSED_FROM = 1000;

/** Median of some of the steps, taken evenly. */
const guessedStep = (atS: Float64Array): number => {
  const count = atS.length - 1;
  const stride = Math.ceil(count / GUESSED_FROM);
  const some = new Float64Array(Math.ceil(count / stride));
  for (let i = 0; i < some.length; i++) some[i] = atS[i * stride + 1]! - atS[i * stride]!;
  return nthSmallest(some, some.length >> 1);
};

/** Steps are alike as a rule, so a guess at the median is counted before all are put in order. */
const countedSteps = (atS: Float64Array): Steps => {
  const count = atS.length - 1;
  const place = count >> 1;
  const guess = guessedStep(atS);
  let below = 0;
  let same = 0;
  let longestS = 0;
  for (let i = 0; i < count; i++) {
    const step = atS[i + 1]! - atS[i]!;
    if (step < guess) below++;
    else if (step === guess) same++;
    if (step > longestS) longestS = step;
  }
  if (below <= place && place < below + same) return { usualS: guess, longestS };
  const steps = new Float64Array(count);
  for (let i = 0; i < count; i++) steps[i] = atS[i + 1]! - atS[i]!;
  return { usualS: nthSmallest(steps, place), longestS };
};

const knownSteps = new WeakMap<Float64Array, Steps>();

/** Null with fewer than two times. Found once for each array of them. */
const stepsOf = (atS: Float64Array): Steps | null => {
  if (atS.length < 2) return null;
  const known = knownSteps.get(atS);
  if (known !== undefined) return known;
  const steps = countedSteps(atS);
  knownSteps.set(atS, steps);
  return steps;
};

/** Median interval between samples, s; null with fewer than two. */
export const usualIntervalS = (atS: Float64Array): number | null => stepsOf(atS)?.usualS ?? null;

const fail = (file: string, name: string, what: string): never => {
  throw new Error(
    `recording of ${file}: channel ${name} ${what}; a reader handed on samples it should have mended`,
  );
};

const gapsOf = (atS: Float64Array, breaksS: readonly number[]): Gap[] => {
  const steps = stepsOf(atS);
  if (steps === null) return [];
  const limitS = Math.max(steps.usualS * GAP_SETTINGS.intervals, GAP_SETTINGS.floorS);
  if (breaksS.length === 0 && steps.longestS <= limitS) return [];
  const gaps: Gap[] = [];
  let next = 0;
  for (let i = 1; i < atS.length; i++) {
    const fromS = atS[i - 1]!;
    const toS = atS[i]!;
    while (next < breaksS.length && breaksS[next]! <= fromS) next++;
    const broken = next < breaksS.length && breaksS[next]! <= toS;
    if (broken) gaps.push({ fromS, toS, kind: 'segment' });
    else if (toS - fromS > limitS) gaps.push({ fromS, toS, kind: 'missing' });
  }
  return gaps;
};

/** The time base of a draft, checked and shifted. */
interface TimeBase {
  readonly draft: ChannelDraft;
  readonly atS: Float64Array;
  readonly gaps: readonly Gap[];
}

/**
 * Times less a shift, and the first of them that is not above the one before; the number of times where none is.
 * Without a shift they are not copied.
 */
const shifted = (times: Float64Array, shiftS: number) => {
  const atS = shiftS === 0 ? times : new Float64Array(times.length);
  let last = Number.NEGATIVE_INFINITY;
  let odd = 0;
  for (; odd < atS.length; odd++) {
    const at = times[odd]! - shiftS;
    if (!(at > last) || at === Number.POSITIVE_INFINITY) break;
    if (shiftS !== 0) atS[odd] = at;
    last = at;
  }
  return { atS, odd };
};

const timeBaseOf = (file: string, name: ChannelName, draft: ChannelDraft, shiftS: number): TimeBase => {
  const { atS, odd } = shifted(draft.atS, shiftS);
  if (odd < atS.length) fail(file, name, `has times that do not increase at sample ${odd}`);
  const breaksS = (draft.breaksS ?? []).map((at) => at - shiftS).sort((a, b) => a - b);
  return { draft, atS, gaps: gapsOf(atS, breaksS) };
};

const channelOf = (
  file: string,
  name: ChannelName,
  draft: ChannelDraft,
  { atS, gaps }: TimeBase,
): Channel => {
  const { components } = CHANNEL_SHAPES[name];
  const count = draft.atS.length;
  if (count === 0) fail(file, name, 'is empty');
  if (draft.columns.length !== components.length) fail(file, name, `has ${draft.columns.length} columns`);
  for (const [i, column] of draft.columns.entries()) {
    if (column.length !== count) fail(file, name, 'has columns of unequal length');
    const range = PHYSICAL_RANGES[name][i]!;
    const odd = firstOutside(column, range);
    if (odd < count)
      fail(file, name, `has ${column[odd]} outside ${range.low} to ${range.high} at sample ${odd}`);
  }
  return { name, atS, columns: draft.columns, gaps };
};

/**
 * The one way to make a recording. Shifts all times so that the first sample of any channel is at 0 s, finds
 * the gaps, and checks every invariant: times strictly increase, arrays are of one length, every value is within what
 * its quantity can be (PHYSICAL_RANGES).
 * @throws Error (ours) where a reader hands on what breaks an invariant
 */
export const makeRecording = (draft: RecordingDraft): Recording => {
  const named = Object.entries(draft.channels) as [ChannelName, ChannelDraft][];
  if (named.length === 0) throw new Error(`recording of ${draft.provenance.file} has no channel`);
  const firstS = Math.min(...named.map(([, channel]) => channel.atS[0] ?? Number.POSITIVE_INFINITY));
  const channels: Partial<Record<ChannelName, Channel>> = {};
  let durationS = 0;
  const bases: TimeBase[] = [];
  const { file } = draft.provenance;
  for (const [name, channel] of named) {
    // Channels of one time base share it.
    const known = bases.find(({ draft: one }) => one.atS === channel.atS && one.breaksS === channel.breaksS);
    const base = known ?? timeBaseOf(file, name, channel, firstS);
    bases.push(base);
    const made = channelOf(file, name, channel, base);
    channels[name] = made;
    durationS = Math.max(durationS, made.atS[made.atS.length - 1]!);
  }
  return {
    provenance: draft.provenance,
    clock: draft.originUnixS === null ? 'relative' : 'utc',
    startUnixS: draft.originUnixS === null ? null : draft.originUnixS + firstS,
    durationS,
    channels,
    laps: (draft.laps ?? []).map((lap) => ({ fromS: lap.fromS - firstS, toS: lap.toS - firstS })),
    statedPositionSdM: draft.statedPositionSdM ?? null,
    statedPlacement: draft.statedPlacement ?? null,
    land: draft.land ?? false,
    warnings: draft.warnings ?? [],
  };
};
