import type { Scenario } from '../contract/scenario.js';
import { randomFrom } from './random.js';
import type { Rowed } from './rowed.js';
import type { TrueStroke } from './truth.js';

/** Cadence and heart rate as a watch writes them, both whole numbers. Times on the true clock. */
export interface WatchLog {
  readonly stampS: Float64Array;
  readonly cadenceSpm: Float64Array | null;
  readonly heartRateBpm: Float64Array | null;
}

/** How a watch and a heart behave; common practice. */
export const WATCH_SETTINGS = Object.freeze({
  /** Cadence is the mean over this many strokes that are over, and gone this long after the last, s. */
  strokes: 3,
  forgetS: 5,
  restBpm: 85,
  maxBpm: 188,
  /** Share of the heart's range that the lowest and the highest usual rate ask for. */
  lowShare: 0.4,
  highShare: 1,
  /** Time constants of the heart rate going up and coming down, s. */
  upS: 35,
  downS: 60,
  noiseBpm: 0.8,
});

type Watch = NonNullable<Scenario['sensors']['watch']>;

/** The log of a watch. */
export const watchLog = (
  scenario: Scenario,
  watch: Watch,
  { grid, strokes }: Rowed,
  usualSpm: number,
): WatchLog => {
  const set = WATCH_SETTINGS;
  const random = randomFrom(scenario.seed, 'watch');
  const [restBpm, maxBpm] = [scenario.crew?.rest_bpm ?? set.restBpm, scenario.crew?.max_bpm ?? set.maxBpm];
  const endS = Math.min(
    (grid.count - 1) * grid.stepS,
    scenario.faults?.cut_off_s ?? Number.POSITIVE_INFINITY,
  );
  const count = Math.floor(endS * watch.hz + 1e-9) + 1;
  const [stampS, cadence, heart] = [0, 0, 0].map(() => new Float64Array(count)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  let bpm = restBpm;
  let [last, begun] = [-1, 0];
  const isStop = (stroke: TrueStroke, untilS: number): boolean =>
    untilS - stroke.atS > Math.max(set.forgetS, stroke.periodS);
  for (let i = 0; i < count; i++) {
    const atS = i / watch.hz;
    while (last + 1 < strokes.length && strokes[last + 1]!.atS <= atS) {
      last++;
      // A watch that has shown 0 knows nothing of the strokes before the stop.
      const before = strokes[last - 1];
      if (before && isStop(before, strokes[last]!.atS)) begun = last;
    }
    const forgotten = last < 0 || isStop(strokes[last]!, atS);
    // Only strokes that are over have a length.
    const recent = strokes.slice(Math.max(begun, last - set.strokes), last);
    const meanS = recent.reduce((sum, stroke) => sum + stroke.periodS, 0) / Math.max(1, recent.length);
    const rateSpm = forgotten || recent.length === 0 ? 0 : 60 / meanS;
    const effort = Math.min(1.1, Math.max(0, rateSpm / usualSpm - 0.5) / 0.6);
    const asked = rateSpm === 0 ? 0 : set.lowShare + (set.highShare - set.lowShare) * effort;
    const target = restBpm + (maxBpm - restBpm) * Math.min(1, asked);
    bpm += (target - bpm) / watch.hz / (target > bpm ? set.upS : set.downS);
    stampS[i] = atS;
    cadence[i] = Math.round(rateSpm);
    heart[i] = Math.round(bpm + set.noiseBpm * random.normal());
  }
  return {
    stampS,
    cadenceSpm: watch.cadence === true ? cadence : null,
    heartRateBpm: watch.heart_rate === true ? heart : null,
  };
};
