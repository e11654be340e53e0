import { nthSmallest } from '../units/nth-smallest.js';
import type { Channel, Gap } from './channel.js';
import { CHANNEL_SHAPES, type ChannelName } from './channel-name.js';
import type { Warning } from './warning.js';

/** Where the logger sat. */
export const PLACEMENTS = ['hull', 'cox', 'wrist', 'pocket', 'body', 'unknown'] as const;
export type Placement = (typeof PLACEMENTS)[number];

/** A lap or segment that the log itself marks, on the recording's clock. */
export interface Lap {
  readonly fromS: number;
  readonly toS: number;
}

/** How the log told time: `utc` is an absolute clock; `relative` counts from a start that is not known. */
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

const usualIntervals = new WeakMap<Float64Array, number>();

/** Median interval between samples, s; null with fewer than two. Found once for each array of times. */
export const usualIntervalS = (atS: Float64Array): number | null => {
  if (atS.length < 2) return null;
  const known = usualIntervals.get(atS);
  if (known !== undefined) return known;
  const steps = new Float64Array(atS.length - 1);
  for (let i = 0; i < steps.length; i++) steps[i] = atS[i + 1]! - atS[i]!;
  const usual = nthSmallest(steps, steps.length >> 1);
  usualIntervals.set(atS, usual);
  return usual;
};

const fail = (file: string, name: string, what: string): never => {
  throw new Error(
    `recording of ${file}: channel ${name} ${what}; a reader handed on samples it should have mended`,
  );
};

const gapsOf = (atS: Float64Array, breaksS: readonly number[]): Gap[] => {
  const usual = usualIntervalS(atS);
  if (usual === null) return [];
  const limitS = Math.max(usual * GAP_SETTINGS.intervals, GAP_SETTINGS.floorS);
  const gaps: Gap[] = [];
  let next = 0;
  for (let i = 1; i < atS.length; i++) {
    const [fromS, toS] = [atS[i - 1]!, atS[i]!];
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

const timeBaseOf = (file: string, name: ChannelName, draft: ChannelDraft, shiftS: number): TimeBase => {
  const count = draft.atS.length;
  const atS = new Float64Array(count);
  let last = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i++) {
    const at = draft.atS[i]! - shiftS;
    if (!(at > last) || at === Number.POSITIVE_INFINITY)
      fail(file, name, `has times that do not increase at sample ${i}`);
    atS[i] = at;
    last = at;
  }
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
  for (const column of draft.columns) {
    if (column.length !== count) fail(file, name, 'has columns of unequal length');
    for (let i = 0; i < count; i++)
      if (!Number.isFinite(column[i]!)) fail(file, name, `has a value that is not finite at sample ${i}`);
  }
  if (name === 'position')
    for (let i = 0; i < count; i++)
      if (Math.abs(draft.columns[0]![i]!) > 90 || Math.abs(draft.columns[1]![i]!) > 180)
        fail(file, name, `is off the Earth at sample ${i}`);
  return { name, atS, columns: draft.columns, gaps };
};

/**
 * The one way to make a recording. Shifts all times so that the first sample of any channel is at 0 s, finds
 * the gaps, and checks every invariant: times strictly increase, arrays are of one length, values are finite,
 * positions are on the Earth.
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
