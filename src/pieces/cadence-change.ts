import type { Channel } from '../recording/index.js';
import { firstAtLeast } from '../units/first-at-least.js';
import type { Moment } from './first-movement.js';

/** How a change of rate is read from a logged cadence. */
export const CADENCE_CHANGE_SETTINGS = Object.freeze({
  /** It has left the old rate where it is this share of the way to the new; 0.2 to 0.3: a mean of five strokes moves by a fifth a stroke. */
  leftShare: 0.25,
  /** … or so many spm, where that is more: whole numbers, and strokes that vary. */
  leastSpm: 1,
  /** … for each share of the way beyond that, a watch's mean of some strokes takes so many more. */
  strokesPerShare: 3,
  /** The new rate is kept for so many readings. */
  keptReadings: 3,
  /** Looked for so long to either side of where the change was roughly found, s. */
  reachS: 16,
  /** A watch shows a stroke as it is rowed, or once it is over: the change lies so many strokes before, ± so many. */
  beforeStrokes: 0.7,
  sdStrokes: 0.8,
});

/**
 * When the crew changed its rate, by when a logged cadence leaves the old one: however many strokes a watch takes
 * the mean of, the first new stroke moves it, at once or when it is over. So no lag has to be known.
 * @param cadence as logged, spm
 * @param nearS where the change was roughly found, s
 * @returns null where the cadence does not go from one rate to the other there
 */
export const cadenceChange = (
  cadence: Channel,
  fromSpm: number,
  toSpm: number,
  nearS: number,
): Moment | null => {
  const { leftShare, leastSpm, strokesPerShare, keptReadings, reachS, beforeStrokes, sdStrokes } =
    CADENCE_CHANGE_SETTINGS;
  const way = Math.sign(toSpm - fromSpm);
  const leaves = Math.max(leastSpm, leftShare * Math.abs(toSpm - fromSpm));
  if (way === 0 || leaves > Math.abs(toSpm - fromSpm)) return null;
  const spm = cadence.columns[0]!;
  const last = firstAtLeast(cadence.atS, nearS + reachS);
  const left = (i: number) => way * (spm[i]! - fromSpm) >= leaves;
  let best: number | null = null;
  for (let i = firstAtLeast(cadence.atS, nearS - reachS) + 1; i + keptReadings <= last; i++) {
    if (left(i - 1)) continue;
    let kept = true;
    for (let j = i; j < i + keptReadings && kept; j++) kept = left(j);
    if (kept && (best === null || Math.abs(cadence.atS[i]! - nearS) < Math.abs(cadence.atS[best]! - nearS)))
      best = i;
  }
  if (best === null) return null;
  const strokeS = 60 / toSpm;
  const more = (strokesPerShare / 2) * (leaves / Math.abs(toSpm - fromSpm) - leftShare);
  return {
    atS: (cadence.atS[best - 1]! + cadence.atS[best]!) / 2 - (beforeStrokes + Math.max(0, more)) * strokeS,
    sdS: (sdStrokes + Math.max(0, more)) * strokeS,
  };
};
