import type { Interval } from '../motion/track.js';
import { meanPeriodogram } from '../signal/index.js';
import type { StrokeSignal } from './stroke-signal.js';

/** Power of the surge by frequency, at rest and outside the rests. */
export interface SurgeSpectra {
  /** Hz. */
  readonly hz: readonly number[];
  /** (m/s²)²/Hz. */
  readonly rest: readonly number[];
  readonly rowing: readonly number[];
}

/** How spectra are made. */
export const SPECTRA_SETTINGS = Object.freeze({
  /** Length of a window at most, s; 8 to 20: 16 s tell rates 4 spm apart. */
  longestS: 16,
  /** Highest frequency given, Hz; 3 to 6: beyond lie rattles, no strokes. */
  highestHz: 5,
  /** Windows of rest at least; of fewer the spectrum is chance. */
  fewest: 2,
});

/** The largest power of two that is not above a number. */
const powerOfTwo = (most: number): number => 2 ** Math.floor(Math.log2(most));

/** Half-overlapped windows of a stretch, where the signal has no dropout. */
const windowsOf = (
  { surge, rawMps2 }: StrokeSignal,
  { fromS, toS }: Interval,
  size: number,
): Float64Array[] => {
  const first = Math.max(0, Math.ceil((fromS - surge.startS) * surge.rateHz));
  const last = Math.min(rawMps2.length, Math.floor((toS - surge.startS) * surge.rateHz));
  const windows: Float64Array[] = [];
  for (let i = first; i + size <= last; i += size / 2)
    if (!surge.mask.subarray(i, i + size).includes(1)) windows.push(rawMps2.slice(i, i + size));
  return windows;
};

/** What lies between stretches in order, and after the last. */
const between = (rests: readonly Interval[], endS: number): Interval[] => {
  let freeS = 0;
  const gaps = rests.map(({ fromS, toS }) => {
    const gap = { fromS: freeS, toS: fromS };
    freeS = toS;
    return gap;
  });
  return [...gaps, { fromS: freeS, toS: endS }].filter(({ fromS, toS }) => toS > fromS);
};

/**
 * Spectra of the surge at rest and outside the rests.
 * @param rests on the signal's clock, in order
 * @returns null where there are too few windows of either
 */
export const surgeSpectra = (signal: StrokeSignal, rests: readonly Interval[]): SurgeSpectra | null => {
  const { surge, rawMps2 } = signal;
  const { longestS, highestHz, fewest } = SPECTRA_SETTINGS;
  const longestRestS = rests.reduce((most, { fromS, toS }) => Math.max(most, toS - fromS), 0);
  const size = powerOfTwo(Math.min(longestS, longestRestS) * surge.rateHz);
  if (!(size >= 8)) return null;
  const of = (stretches: readonly Interval[]) =>
    stretches.flatMap((stretch) => windowsOf(signal, stretch, size));
  const [still, rowed] = [of(rests), of(between(rests, surge.startS + rawMps2.length / surge.rateHz))];
  if (still.length < fewest || rowed.length < fewest) return null;
  const [rest, rowing] = [meanPeriodogram(still, surge.rateHz), meanPeriodogram(rowed, surge.rateHz)];
  // The constant was taken out, so nothing is known at 0 Hz.
  const kept = Array.from(rest.keys()).filter((k) => k > 0 && (k * surge.rateHz) / size <= highestHz);
  return {
    hz: kept.map((k) => (k * surge.rateHz) / size),
    rest: kept.map((k) => rest[k]!),
    rowing: kept.map((k) => rowing[k]!),
  };
};
