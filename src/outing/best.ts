import type { Interval, Track } from '../motion/track.js';
import { firstAtLeast } from '../units/first-at-least.js';
import { bridged, type RowingInterval } from './rowing-interval.js';

/** A length of a best stretch: metres, or seconds. */
export type BestAsk = { readonly metres: number } | { readonly seconds: number };

/** The fastest stretch of unbroken rowing over a distance, or the longest over a time. */
export interface Best extends Interval {
  readonly ask: BestAsk;
  readonly durationSdS: number | null;
  readonly distanceM: number;
  readonly distanceSdM: number;
  /**
   * How many stretches of that length, end to end, it was chosen among. The fastest of many measured ones is a
   * biased fast one: it comes out fast by up to about sd · sqrt(2 ln choices), less where one stretch stands out.
   */
  readonly choices: number;
}

/** The path on the track's own times within unbroken rowing. */
interface Path {
  readonly atS: Float64Array;
  readonly alongM: Float64Array;
}

const pathOf = (track: Track, { fromS, toS }: Interval): Path => {
  let first = firstAtLeast(track.atS, fromS);
  if (track.atS[first] === fromS) first++;
  const end = Math.max(first, firstAtLeast(track.atS, toS));
  const last = end - first + 1;
  const atS = new Float64Array(last + 1);
  atS[0] = fromS;
  atS.set(track.atS.subarray(first, end), 1);
  atS[last] = toS;
  const alongM = new Float64Array(atS.length);
  let before = track.speedAt(fromS) ?? 0;
  for (let i = 1; i <= last; i++) {
    const speed = i < last ? track.speedMps[first + i - 1]! : (track.speedAt(toS) ?? 0);
    alongM[i] = alongM[i - 1]! + ((before + speed) / 2) * (atS[i]! - atS[i - 1]!);
    before = speed;
  }
  return { atS, alongM };
};

/** Start of the fastest window of one path, s, and how good it is (least seconds, or most metres as less). */
interface Window {
  readonly fromS: number;
  readonly score: number;
}

/**
 * Every window that begins at a sample, its end between samples.
 * @param xs what is to be least (sign 1) or most (sign -1) of a window
 * @param ys rising; every window is of this length in it
 */
const fastestOver = (
  atS: Float64Array,
  xs: Float64Array,
  ys: Float64Array,
  length: number,
  sign: 1 | -1,
): Window | null => {
  let found = -1;
  let least = Number.POSITIVE_INFINITY;
  let end = 0;
  for (let start = 0; start < xs.length; start++) {
    const wanted = ys[start]! + length;
    while (end < ys.length && ys[end]! < wanted) end++;
    if (end === ys.length) break;
    const before = Math.max(0, end - 1);
    const share = end === 0 ? 0 : (wanted - ys[before]!) / (ys[end]! - ys[before]!);
    const score = sign * (xs[before]! + share * (xs[end]! - xs[before]!) - xs[start]!);
    if (found < 0 || score < least) {
      found = start;
      least = score;
    }
  }
  return found < 0 ? null : { fromS: atS[found]!, score: least };
};

const fastest = ({ atS, alongM }: Path, ask: BestAsk): Window | null =>
  'metres' in ask
    ? fastestOver(atS, atS, alongM, ask.metres, 1)
    : fastestOver(atS, alongM, atS, ask.seconds, -1);

const cutAtOutages = (rowing: Interval, track: Track): Interval[] => {
  let [fromS, pieces]: [number, Interval[]] = [Math.max(rowing.fromS, track.fromS), []];
  for (const gap of track.outages) {
    if (gap.toS <= fromS || gap.fromS >= rowing.toS) continue;
    pieces = [...pieces, { fromS, toS: gap.fromS }];
    fromS = gap.toS;
  }
  return [...pieces, { fromS, toS: Math.min(rowing.toS, track.toS) }].filter(
    (piece) => piece.toS > piece.fromS,
  );
};

/**
 * The best stretch of each length asked for, within unbroken rowing and never across a gap in the track.
 * Lengths that no unbroken rowing reaches have none.
 */
export const bestStretches = (
  track: Track,
  rowingIntervals: readonly RowingInterval[],
  asks: readonly BestAsk[],
): Best[] => {
  const paths = bridged(track, rowingIntervals)
    .flatMap((rowing) => cutAtOutages(rowing, track))
    .map((piece) => pathOf(track, piece));
  return asks.flatMap((ask): Best[] => {
    const found = paths
      .map((path) => fastest(path, ask))
      .filter((window) => window !== null)
      .sort((a, b) => a.score - b.score)[0];
    if (found === undefined) return [];
    const { fromS } = found;
    const choices = paths.reduce((sum, path) => {
      const total = 'metres' in ask ? path.alongM.at(-1)! : path.atS.at(-1)! - path.atS[0]!;
      return sum + Math.floor(total / ('metres' in ask ? ask.metres : ask.seconds));
    }, 0);
    if ('metres' in ask) {
      const end = track.timeAfter(fromS, ask.metres);
      return end === null
        ? []
        : [
            {
              ask,
              fromS,
              toS: end.atS,
              durationSdS: end.durationSdS,
              distanceM: ask.metres,
              distanceSdM: 0,
              choices: Math.max(1, choices),
            },
          ];
    }
    const distance = track.distanceM(fromS, fromS + ask.seconds);
    return distance === null
      ? []
      : [
          {
            ask,
            fromS,
            toS: fromS + ask.seconds,
            durationSdS: null,
            distanceM: distance.value,
            distanceSdM: distance.sd,
            choices: Math.max(1, choices),
          },
        ];
  });
};
