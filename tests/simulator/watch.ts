import type { ChannelDraft } from '../../src/recording/index.js';

/** A watch that shows a cadence, 1 Hz, whole numbers. */
export interface WatchAsk {
  /** Strokes that are over of which the cadence is the mean; 0 shows the stroke that is being rowed. */
  readonly meanOf: number;
  /** The cadence is gone so long after the last stroke, s. */
  readonly forgetS: number;
}

export const USUAL_WATCH: WatchAsk = { meanOf: 3, forgetS: 4 };

/** Longer than this between two marks is a stop, s. */
const STOP_S = 7;

/** The cadence that a watch logs of true catch marks: another make than `src/simulate` knows. */
export const logCadence = (marks: readonly number[], endS: number, ask: WatchAsk): ChannelDraft => {
  const atS = Float64Array.from({ length: Math.floor(endS) + 1 }, (_, i) => i);
  let last = -1;
  const cadence = atS.map((now) => {
    while (last + 1 < marks.length && marks[last + 1]! <= now) last++;
    if (last < 0) return 0;
    const next = marks[last + 1];
    const rows = next !== undefined && next - marks[last]! < STOP_S;
    if (!rows && now - marks[last]! > ask.forgetS) return 0;
    if (ask.meanOf === 0 && rows) return Math.round(60 / (next - marks[last]!));
    let [first, whole] = [last, 0];
    while (first > 0 && whole < Math.max(1, ask.meanOf) && marks[first]! - marks[first - 1]! < STOP_S) {
      first--;
      whole++;
    }
    return whole === 0 ? 0 : Math.round((60 * whole) / (marks[last]! - marks[first]!));
  });
  return { atS, columns: [cadence] };
};
