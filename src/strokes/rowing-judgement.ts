import type { Interval, Track } from '../motion/track.js';
import { meanSquare, median } from '../signal/index.js';
import { type CraftFamily, RATE_RANGE_SPM } from '../units/craft.js';
import { cycleFigures } from './cycle-figures.js';
import { footfallIn } from './footfall.js';
import { evidenceOfCycles, evidenceOfStrength, evidenceOfWay } from './rowing-evidence.js';
import { rowingProbabilities, type WeighedSpan } from './rowing-probability.js';
import { ROWING_SETTINGS } from './rowing-settings.js';
import { PAUSE_S } from './stroke-settings.js';
import type { SurgeStrokes } from './surge-strokes.js';

/** What is known beside the signal. */
export interface KnownBeside {
  /** Null where there is no track. */
  readonly track: Track | null;
  /** The time on the track's clock of a time on the signal's, s. */
  readonly toLog: (atS: number) => number;
  /** What the boat file calls the strength of this crew's strokes, m/s²; null where it does not. */
  readonly strengthMps2: number | null;
  /** True where the signal is fine enough to show what its cycles have in common: an accelerometer's. */
  readonly showsCycles: boolean;
}

/** A stretch in which something repeats that may be no rowing. On the recording's clock. */
export interface DoubtedStretch extends Interval {
  /** Times that something repeats in it. */
  readonly count: number;
  /** Probability that it was rowed, 0 to 1. */
  readonly probability: number;
  /** True where its strokes were left out. */
  readonly leftOut: boolean;
  /** True where the boat's way (or the want of it) speaks against it. */
  readonly byTrack: boolean;
}

/** Strokes that are believed, and what was not. */
export interface Judged {
  readonly strokes: SurgeStrokes;
  readonly doubted: readonly DoubtedStretch[];
}

/** A few strokes in a row: the first and last of their marks, by number. */
interface Window {
  readonly first: number;
  readonly last: number;
}

/** Marks cut into windows: at every interval that is longer than any stroke, and about every ten cycles. */
const windowsOf = (marksS: readonly number[], family: CraftFamily): Window[] => {
  const slowestS = 60 / RATE_RANGE_SPM[family][0] + PAUSE_S[family];
  const mostS = Math.min(slowestS, ROWING_SETTINGS.longestCycleS);
  const windows: Window[] = [];
  for (let from = 0; from < marksS.length; ) {
    let to = from;
    while (to + 1 < marksS.length && marksS[to + 1]! - marksS[to]! <= mostS) to++;
    const parts = Math.max(1, Math.round((to - from) / ROWING_SETTINGS.windowCycles));
    for (let part = 0; part < parts; part++)
      windows.push({
        first: from + Math.floor((part * (to - from)) / parts),
        last: from + Math.floor(((part + 1) * (to - from)) / parts),
      });
    from = to + 1;
  }
  return windows;
};

interface Weighed extends Window, WeighedSpan {
  /** Log odds by the boat's way alone. */
  readonly way: number;
}

const weighed = ({ first, last }: Window, found: SurgeStrokes, about: KnownBeside): Weighed => {
  const { surge, rawMps2, markBand, marksS } = found;
  const { startS, rateHz, heaveMps2 } = surge;
  const places = marksS.slice(first, last + 1).map((atS) => (atS - startS) * rateHz);
  const [fromS, toS] = [about.toLog(marksS[first]!), about.toLog(marksS[last]!)];
  const figures = about.showsCycles ? cycleFigures(markBand, heaveMps2, places, rateHz) : null;
  const few = last - first < ROWING_SETTINGS.leastCycles;
  const way = evidenceOfWay({ fromS, toS }, about.track, few);
  if (!about.showsCycles) return { first, last, fromS, toS, way, evidence: way };
  const [from, to] = [Math.floor(places[0]!), Math.ceil(places[places.length - 1]!)];
  const footfall = figures && heaveMps2 && footfallIn(heaveMps2, rawMps2, from, to, rateHz);
  const score = median(found.scores.slice(first, last + 1));
  const cycles = evidenceOfCycles({ figures, footfall, score });
  const rmsMps2 = figures && Math.sqrt(meanSquare(markBand.subarray(from, to)));
  const strength = evidenceOfStrength(rmsMps2, about.strengthMps2);
  return { first, last, fromS, toS, way, evidence: cycles + way + strength };
};

/** Doubted windows next to one another as one stretch. */
const stretchesOf = (
  windows: readonly Weighed[],
  probabilities: readonly number[],
  wanted: (probability: number) => boolean,
  leftOut: boolean,
): DoubtedStretch[] => {
  const stretches: DoubtedStretch[] = [];
  for (const [i, { first, last, fromS, toS, way }] of windows.entries()) {
    const probability = probabilities[i]!;
    if (!wanted(probability)) continue;
    const before = stretches[stretches.length - 1];
    const byTrack = way < 0;
    const joins = before && fromS - before.toS <= ROWING_SETTINGS.nearS && before.byTrack === byTrack;
    if (joins)
      stretches[stretches.length - 1] = {
        ...before,
        toS,
        count: before.count + last - first + (fromS > before.toS ? 1 : 0),
        probability: Math.max(before.probability, probability),
      };
    else stretches.push({ fromS, toS, count: last - first + 1, probability, leftOut, byTrack });
  }
  return stretches;
};

/**
 * Whether anybody rowed where strokes were found: by what their cycles have in common, by the way that the boat
 * made, by the boat file, and by what goes before and after. Strokes of stretches that were not rowed, or of which
 * that cannot be shown, are left out; those of the others are as likely as both say.
 * @param found strokes as the signal alone shows them
 */
export const judgeRowing = (found: SurgeStrokes, about: KnownBeside): Judged => {
  const { leastProbability, sureProbability } = ROWING_SETTINGS;
  const windows = windowsOf(found.marksS, found.family).map((window) => weighed(window, found, about));
  const probabilities = rowingProbabilities(windows);
  const rowed = new Float64Array(found.marksS.length);
  for (const [i, { first, last }] of windows.entries())
    for (let mark = first; mark <= last; mark++) rowed[mark] = Math.max(rowed[mark]!, probabilities[i]!);
  const kept = found.marksS.flatMap((_, mark) => (rowed[mark]! >= leastProbability ? [mark] : []));
  return {
    strokes: {
      ...found,
      marksS: kept.map((mark) => found.marksS[mark]!),
      confidence: kept.map((mark) => found.confidence[mark]! * rowed[mark]!),
      scores: kept.map((mark) => found.scores[mark]!),
    },
    doubted: [
      ...stretchesOf(windows, probabilities, (p) => p < leastProbability, true),
      ...stretchesOf(windows, probabilities, (p) => p >= leastProbability && p < sureProbability, false),
    ].sort((p, q) => p.fromS - q.fromS),
  };
};
