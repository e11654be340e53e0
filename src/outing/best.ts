import type { Interval, Track } from '../motion/track.js';
import { type Bout, bridged } from './bout.js';

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
   * lucky one: it comes out fast by up to about sd · sqrt(2 ln choices), less where one stretch stands out.
   */
  readonly choices: number;
}

/** The path on the track's own times within unbroken rowing. */
interface Path {
  readonly atS: Float64Array;
  readonly alongM: Float64Array;
}

const pathOf = (track: Track, { fromS, toS }: Interval): Path => {
  const inner = track.atS.filter((at) => at > fromS && at < toS);
  const atS = Float64Array.from([fromS, ...inner, toS]);
  const alongM = new Float64Array(atS.length);
  const speeds = atS.map((at) => track.speedAt(at) ?? 0);
  for (let i = 1; i < atS.length; i++)
    alongM[i] = alongM[i - 1]! + ((speeds[i - 1]! + speeds[i]!) / 2) * (atS[i]! - atS[i - 1]!);
  return { atS, alongM };
};

/** Where `ys` (rising) reaches `y`, on `xs`; `from` is a place before it. Null beyond the end. */
const reach = (xs: Float64Array, ys: Float64Array, y: number, from: number): [number, number] | null => {
  let i = from;
  while (i < ys.length && ys[i]! < y) i++;
  if (i >= ys.length) return null;
  if (i === 0) return [xs[0]!, 0];
  const share = (y - ys[i - 1]!) / (ys[i]! - ys[i - 1]!);
  return [xs[i - 1]! + share * (xs[i]! - xs[i - 1]!), i - 1];
};

/** Start of the fastest window of one path, s, and how good it is (least seconds, or most metres as less). */
const fastest = (path: Path, ask: BestAsk): { readonly fromS: number; readonly score: number } | null => {
  const [xs, ys, length] =
    'metres' in ask ? [path.atS, path.alongM, ask.metres] : [path.alongM, path.atS, ask.seconds];
  const sign = 'metres' in ask ? 1 : -1;
  let found: { fromS: number; score: number } | null = null;
  for (let start = 0, end = 0; start < xs.length; start++) {
    const at = reach(xs, ys, ys[start]! + length, end);
    if (at === null) break;
    end = at[1];
    const score = sign * (at[0] - xs[start]!);
    if (found === null || score < found.score) found = { fromS: path.atS[start]!, score };
  }
  return found;
};

const cutAtOutages = (bout: Interval, track: Track): Interval[] => {
  let [fromS, pieces]: [number, Interval[]] = [Math.max(bout.fromS, track.fromS), []];
  for (const gap of track.outages) {
    if (gap.toS <= fromS || gap.fromS >= bout.toS) continue;
    pieces = [...pieces, { fromS, toS: gap.fromS }];
    fromS = gap.toS;
  }
  return [...pieces, { fromS, toS: Math.min(bout.toS, track.toS) }].filter(
    (piece) => piece.toS > piece.fromS,
  );
};

/**
 * The best stretch of each length asked for, within unbroken rowing and never across a hole in the track.
 * Lengths that no unbroken rowing reaches have none.
 */
export const bestStretches = (track: Track, bouts: readonly Bout[], asks: readonly BestAsk[]): Best[] => {
  const paths = bridged(track, bouts)
    .flatMap((bout) => cutAtOutages(bout, track))
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
