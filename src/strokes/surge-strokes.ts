import type { Track } from '../motion/track.js';
import type { Channel } from '../recording/index.js';
import { butterworth, median, parabolaVertex, zeroPhase } from '../signal/index.js';
import { type CraftFamily, RATE_RANGE_SPM } from '../units/craft.js';
import { speedSurge } from './speed-signal.js';
import { type LearntStrokes, learnStrokes } from './stroke-lesson.js';
import { EVENT_SETTINGS, SIGNAL_SETTINGS } from './stroke-settings.js';
import { type Surge, surgesOf } from './surge.js';
import { bendSkew } from './template.js';

/** Strokes found in a surge acceleration. */
export interface SurgeStrokes {
  /** Surge, forward positive. */
  readonly surge: Surge;
  /** Surge low-passed at the bandwidth of the catch mark, m/s². */
  readonly markBand: Float64Array;
  /** Catch marks, s on the recording's clock. */
  readonly marksS: readonly number[];
  /** How likely each is a stroke, 0 to 1. */
  readonly confidence: readonly number[];
}

/** Every so many samples of a signal, or the signal itself where it is slow enough. */
const atEventRate = (values: Float64Array, rateHz: number): Float64Array => {
  const step = Math.round(rateHz / EVENT_SETTINGS.rateHz);
  if (step <= 1) return values;
  const smooth = zeroPhase(values, butterworth(4, 0.8 / step));
  return Float64Array.from(
    { length: Math.floor((smooth.length - 1) / step) + 1 },
    (_, i) => smooth[i * step]!,
  );
};

const learnFrom = ({ mps2, heaveMps2, hole, rateHz }: Surge, family: CraftFamily): LearntStrokes => {
  const step = Math.round(rateHz / EVENT_SETTINGS.rateHz);
  const values = atEventRate(mps2, rateHz);
  return learnStrokes(
    values,
    Uint8Array.from(values, (_, i) => hole[i * step]!),
    heaveMps2 ? [atEventRate(heaveMps2, rateHz)] : [],
    family,
  );
};

/** Lowest point of a signal within a reach of a place, in samples; null where it is not a true minimum. */
const lowestNear = (values: Float64Array, position: number, reach: number): number | null => {
  const from = Math.max(1, Math.ceil(position - reach));
  const to = Math.min(values.length - 2, Math.floor(position + reach));
  let at = -1;
  for (let i = from; i <= to; i++) {
    const low = values[i]! <= values[i - 1]! && values[i]! < values[i + 1]!;
    if (low && (at < 0 || values[i]! < values[at]!)) at = i;
  }
  return at < 0 ? null : at + parabolaVertex(values[at - 1]!, values[at]!, values[at + 1]!).offset;
};

/** Where a mean acceleration and the track's own change of speed agree: > 0 for the same sign. */
const trackSign = (surge: Surge, track: Track | null): number => {
  if (!track) return 0;
  const window = Math.round(3 * surge.rateHz);
  let [both, own, theirs] = [0, 0, 0];
  for (let from = 0; from + window < surge.mps2.length; from += window) {
    const startS = surge.startS + from / surge.rateHz;
    const [first, last] = [track.speedAt(startS), track.speedAt(startS + 3)];
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
  mps2: surge.mps2.map((value) => -value),
  axis: surge.axis.map((value) => -value) as unknown as Surge['axis'],
});

/** Catch marks of events, on a surge that is forward positive. */
const marked = (surge: Surge, { events }: LearntStrokes): SurgeStrokes => {
  const cutoff = Math.min(0.9, SIGNAL_SETTINGS.markBandHz / (surge.rateHz / 2));
  const markBand = zeroPhase(surge.mps2, butterworth(2, cutoff));
  const step = Math.round(surge.rateHz / EVENT_SETTINGS.rateHz);
  const reach = SIGNAL_SETTINGS.markReachS * surge.rateHz;
  const lows = events.map((event) => lowestNear(markBand, event.position * step, reach));
  const offsets = lows.flatMap((low, i) => (low === null ? [] : [low - events[i]!.position * step]));
  const usual = offsets.length > 0 ? median(offsets) : 0;
  const marksS = events.map(
    (event, i) => surge.startS + (lows[i] ?? event.position * step + usual) / surge.rateHz,
  );
  const kept = marksS.map((_, i) => i).filter((i) => i === 0 || marksS[i]! > marksS[i - 1]!);
  return {
    surge,
    markBand,
    marksS: kept.map((i) => marksS[i]!),
    confidence: kept.map((i) => events[i]!.confidence),
  };
};

/**
 * Strokes of an accelerometer in any mount.
 * @returns null where the channel is sampled too slowly
 */
export const imuStrokes = (
  channel: Channel,
  track: Track | null,
  family: CraftFamily,
): SurgeStrokes | null => {
  const tries = surgesOf(channel).map((surge) => ({ surge, found: learnFrom(surge, family) }));
  if (tries.length === 0) return null;
  const { surge, found } = tries.reduce((p, q) => (q.found.gain > p.found.gain ? q : p));
  const agreement = trackSign(surge, track);
  const sign =
    Math.abs(agreement) > SIGNAL_SETTINGS.trackAgreement
      ? Math.sign(agreement)
      : found.template
        ? bendSkew(found.template.values)
        : 1;
  return marked(sign > 0 ? surge : turnedRound(surge), found);
};

/**
 * Strokes of a logged speed.
 * @returns null where it is sampled too slowly for the craft's highest rate
 */
export const speedStrokes = (channel: Channel, family: CraftFamily): SurgeStrokes | null => {
  const surge = speedSurge(channel, RATE_RANGE_SPM[family][1]);
  return surge && marked(surge, learnFrom(surge, family));
};
