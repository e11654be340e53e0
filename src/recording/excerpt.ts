import { firstAtLeast } from '../units/first-at-least.js';
import type { Channel, Gap } from './channel.js';

/**
 * What a channel holds within some stretches of time, on the same clock; between two of them stands a break.
 * @param stretches in time order, not overlapping; both ends belong to them
 * @returns null where no sample lies in any of them
 */
export const excerptOf = (
  channel: Channel,
  stretches: readonly { readonly fromS: number; readonly toS: number }[],
): Channel | null => {
  const ranges = stretches
    .map(({ fromS, toS }) => {
      const from = firstAtLeast(channel.atS, fromS);
      const until = firstAtLeast(channel.atS, toS);
      return { from, to: channel.atS[until] === toS ? until + 1 : until };
    })
    .filter(({ from, to }) => to > from);
  const count = ranges.reduce((sum, { from, to }) => sum + to - from, 0);
  if (count === 0) return null;
  const cut = (column: Float64Array): Float64Array => {
    const picked = new Float64Array(count);
    let at = 0;
    for (const { from, to } of ranges) {
      picked.set(column.subarray(from, to), at);
      at += to - from;
    }
    return picked;
  };
  const gaps: Gap[] = ranges.flatMap(({ from, to }, i) => {
    const [fromS, toS] = [channel.atS[from]!, channel.atS[to - 1]!];
    const within = channel.gaps.filter((gap) => gap.fromS >= fromS && gap.toS <= toS);
    const next = ranges[i + 1];
    return next === undefined
      ? within
      : [...within, { fromS: toS, toS: channel.atS[next.from]!, kind: 'segment' as const }];
  });
  return { name: channel.name, atS: cut(channel.atS), columns: channel.columns.map(cut), gaps };
};
