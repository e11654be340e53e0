import type { Outing } from '../outing/index.js';
import { median } from '../signal/index.js';
import type { Moment } from './first-movement.js';

/** How the first movement forward is read from the surge of a first stroke. */
export const FORWARD_SETTINGS = Object.freeze({
  /** The hull at rest is looked at from so long before the mark up to so long before it, s. */
  restFromS: 3,
  restToS: 0.4,
  /** The surge is added up from so long before the mark, s, for so long. */
  leadS: 0.12,
  withinS: 2,
  /** Under way for good at this speed, m/s: no crew that shifts on its seats makes as much. */
  underWayMps: 0.4,
  /** A mark is that of a stroke found where they are so close, s. */
  sameS: 0.005,
  /** sd of the moment, s: on both simulators, to 1 m/s² of waves. */
  sdS: 0.08,
});

/**
 * When the hull first moved forward in a stroke from rest: the surge added up from the first movement, which may
 * go astern while the crew's weight goes to the bow and the blades have not yet taken hold.
 * @param markS catch mark of that stroke, s
 * @returns null where no accelerometer shows it
 */
export const firstForward = ({ strokes }: Pick<Outing, 'strokes'>, markS: number): Moment | null => {
  const { restFromS, restToS, leadS, withinS, underWayMps, sameS, sdS } = FORWARD_SETTINGS;
  for (const { source, surge, marksS, toLog } of strokes.signals) {
    if (source !== 'imu') continue;
    const own = marksS.find((at) => Math.abs(toLog(at) - markS) < sameS);
    if (own === undefined) continue;
    const { rawMps2, rateHz, startS } = surge;
    const sample = (at: number) => Math.round((at - startS) * rateHz);
    const [from, to] = [Math.max(0, sample(own - restFromS)), sample(own - restToS)];
    if (to - from < rateHz) return null;
    const level = median(rawMps2.subarray(from, to));
    let [speed, lastStill] = [0, sample(own - leadS)];
    const end = Math.min(rawMps2.length, sample(own + withinS));
    for (let i = lastStill; i < end; i++) {
      speed += (rawMps2[i]! - level) / rateHz;
      if (speed <= 0) lastStill = i;
      if (speed >= underWayMps) return { atS: toLog(startS + lastStill / rateHz), sdS };
    }
    return null;
  }
  return null;
};
