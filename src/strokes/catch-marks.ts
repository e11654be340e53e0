import { butterworth, median, parabolaVertex, robustScale, zeroPhase } from '../signal/index.js';
import type { Template } from './matched-filter.js';
import type { StrokeEvent } from './stroke-events.js';
import { EVENT_SETTINGS, MARK_SETTINGS } from './stroke-settings.js';

/** Low-passed at the bandwidth by which the catch mark is defined. */
export const markBandOf = (values: Float64Array, rateHz: number): Float64Array =>
  zeroPhase(values, butterworth(2, Math.min(0.9, MARK_SETTINGS.bandHz / (rateHz / 2))));

/** Lowest true minimum of a signal within a reach of a place, in samples; null where there is none. */
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

/** Bend of a template at its mark, per sample squared. */
const bendOf = (template: Template): number => {
  const band = markBandOf(template.values, EVENT_SETTINGS.rateHz);
  const at = template.before;
  return Math.abs(band[at - 1]! - 2 * band[at]! + band[at + 1]!);
};

/** sd of what is left of a signal around a place, by its bulk, and sd of its slope per sample. */
const restAround = (
  band: Float64Array,
  position: number,
): { readonly sd: number; readonly slopeSd: number } => {
  const half = Math.round(MARK_SETTINGS.noiseHalfS * EVENT_SETTINGS.rateHz);
  const from = Math.max(1, Math.round(position) - half);
  const to = Math.min(band.length, Math.round(position) + half);
  const size: number[] = [0];
  const slope: number[] = [0];
  for (let i = from; i < to; i += 2) {
    size.push(Math.abs(band[i]!));
    slope.push(Math.abs(band[i]! - band[i - 1]!));
  }
  return { sd: 1.4826 * median(size), slopeSd: 1.4826 * median(slope) };
};

/**
 * Catch marks of strokes, in samples of the band: the minimum by definition where the signal is quiet, drawn
 * towards the place that the whole stroke's shape gives as noise moves the minimum about.
 * @param band surge low-passed by {@link markBandOf}, forward positive, `perEvent` samples to one of the events'
 * @param left what the strokes leave of the signal, at the events' rate
 */
export const catchMarks = (
  band: Float64Array,
  perEvent: number,
  events: readonly StrokeEvent[],
  templates: readonly Template[],
  left: Float64Array,
): number[] => {
  const { rateHz } = EVENT_SETTINGS;
  const rest = markBandOf(left, rateHz);
  const bends = templates.map(bendOf);
  const noise = events.map((event) => restAround(rest, event.position));
  const minima = events.map(({ position }) => {
    const low = lowestNear(band, position * perEvent, MARK_SETTINGS.reachS * rateHz * perEvent);
    return low === null ? null : low / perEvent;
  });
  const offsets = templates.map((_, which) => {
    const own = events.flatMap((event, i) =>
      event.which === which && minima[i] !== null ? [minima[i]! - event.position] : [],
    );
    return own.length > 0 ? median(own) : 0;
  });
  const likeness = MARK_SETTINGS.shapeSdS * rateHz;
  return events.map(({ position, which, amplitude }, i) => {
    const shape = position + offsets[which]!;
    const low = minima[i]!;
    if (low === null) return shape * perEvent;
    // a minimum moves by the noise's slope over the signal's bend
    const moved = noise[i]!.slopeSd / Math.max(1e-9, bends[which]! * Math.max(0.1, amplitude));
    const apart = low - shape;
    if (Math.abs(apart) > MARK_SETTINGS.outlierSds * Math.hypot(likeness, moved)) return shape * perEvent;
    const trust = likeness ** 2 / (likeness ** 2 + moved ** 2);
    return (shape + trust * apart) * perEvent;
  });
};

/**
 * First movement from rest: where the surge first stands out of the noise of the rest before it, and stays so.
 * @param band surge in the same band with slow drift left in: a filter that takes it out predicts the start
 * @param rateHz its rate
 * @param restFrom first sample of the rest
 * @param until sample by which it must have begun
 * @param sought samples before that in which it is sought, at least
 * @param mostBack samples by which a rise is followed back at most
 * @returns a sample, or null where nothing stands out, or the rest is too short to tell its noise
 */
export const firstSurge = (
  band: Float64Array,
  rateHz: number,
  restFrom: number,
  until: number,
  sought: number,
  mostBack: number,
): number | null => {
  const { restNoiseS, standSds, standS, standShare, riseS, mostBackS, calmMps2 } = MARK_SETTINGS;
  const span = Math.round(restNoiseS * rateHz);
  const quiet = Math.round(until - Math.max(span, sought));
  const from = Math.max(restFrom, quiet - 3 * span, 0);
  if (quiet - from < span) return null;
  const level = median(band.subarray(from, quiet));
  const limit = standSds * robustScale(band.subarray(from, quiet));
  const window = Math.round(standS * rateHz);
  for (let i = quiet; i < until && i + window < band.length; i++) {
    if (Math.abs(band[i]! - level) <= limit) continue;
    let beyond = 0;
    for (let k = i; k < i + window; k++) if (Math.abs(band[k]! - level) > limit) beyond++;
    if (beyond < standShare * window) continue;
    // the rougher the rest, the later a movement stands out of it: its rise is followed back to nothing
    const rise = Math.round(riseS * rateHz);
    const slope = (Math.abs(band[i + rise]! - level) - Math.abs(band[i]! - level)) / rise;
    return (
      i - (slope > 0 ? Math.min(Math.max(0, limit - calmMps2) / slope, mostBackS * rateHz, mostBack) : 0)
    );
  }
  return null;
};
