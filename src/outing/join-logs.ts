import {
  type Channel,
  type ChannelDraft,
  type ChannelName,
  makeRecording,
  type Recording,
} from '../recording/index.js';

/** How one log's clock runs on another's: there = offsetS + here / (1 + driftPpm / 10⁶). */
export interface ClockFit {
  /** Time on the other clock of this log's 0 s, s. */
  readonly offsetS: number;
  /** How fast this log's clock runs ahead of the other, parts per million. */
  readonly driftPpm: number;
}

/** A log with the place of its clock on the clock of the log that names the outing. */
export interface PlacedLog {
  readonly recording: Recording;
  readonly clock: ClockFit;
}

const PPM = 1e-6;

/** A time on the log's own clock, put on the other clock. */
export const onClock = (clock: ClockFit, atS: number): number =>
  clock.offsetS + atS / (1 + clock.driftPpm * PPM);

const timesOnClock = (clock: ClockFit, atS: Float64Array): Float64Array => {
  const made = new Float64Array(atS.length);
  for (let i = 0; i < made.length; i++) made[i] = onClock(clock, atS[i]!);
  return made;
};

/** Sensors of movement come from one log together: its axes belong to one mount. */
const OF_THE_MOUNT: readonly ChannelName[] = ['acceleration', 'rotation'];

/** A time base put on another clock: channels that share one go on sharing it. */
type Bases = Map<Float64Array, Pick<ChannelDraft, 'atS' | 'breaksS'>>;

const moved = ({ atS, columns, gaps }: Channel, clock: ClockFit, bases: Bases): ChannelDraft => {
  const known = bases.get(atS);
  if (known !== undefined) return { ...known, columns };
  const base = {
    atS: clock.offsetS === 0 && clock.driftPpm === 0 ? atS : timesOnClock(clock, atS),
    breaksS: gaps
      .filter((gap) => gap.kind === 'segment')
      .map((gap) => onClock(clock, (gap.fromS + gap.toS) / 2)),
  };
  bases.set(atS, base);
  return { ...base, columns };
};

/**
 * Several logs of one boat as one recording, each channel on its own time base, all on the clock of `main`.
 * Where two logs hold the same quantity, `main` is believed; acceleration and rotation come from the last log
 * that has an accelerometer. 0 s is the first sample of any of them.
 */
export const joinLogs = (main: Recording, others: readonly PlacedLog[]): Recording => {
  if (others.length === 0) return main;
  const logs: readonly PlacedLog[] = [{ recording: main, clock: { offsetS: 0, driftPpm: 0 } }, ...others];
  const mount = logs.findLast(({ recording }) => recording.channels.acceleration !== undefined);
  const channels: Partial<Record<ChannelName, ChannelDraft>> = {};
  for (const log of logs) {
    const bases: Bases = new Map();
    for (const channel of Object.values(log.recording.channels)) {
      if (OF_THE_MOUNT.includes(channel.name) ? log !== (mount ?? log) : channel.name in channels) continue;
      channels[channel.name] = moved(channel, log.clock, bases);
    }
  }
  return makeRecording({
    provenance: main.provenance,
    originUnixS: main.startUnixS,
    channels,
    laps: main.laps,
    statedPositionSdM: main.statedPositionSdM,
    statedPlacement: (mount?.recording ?? main).statedPlacement ?? main.statedPlacement,
    land: main.land && others.every(({ recording }) => recording.land),
    warnings: logs.flatMap(({ recording }) => recording.warnings),
  });
};
