import type { Outing } from '../outing/index.js';
import type { Work } from './work.js';

/** A moment with its sd, s. */
export interface Moment {
  readonly atS: number;
  readonly sdS: number;
}

/** Settings of the search for the first movement. */
export const FIRST_MOVEMENT_SETTINGS = Object.freeze({
  /** sd where an accelerometer shows the first surge, s. */
  imuSdS: 0.1,
  /** sd where the speed shows it, s. */
  speedSdS: 0.25,
  /** sd where only the first stroke's place in a cadence or in the smoothed track shows it, s. */
  roughSdS: 1,
});

/** When the boat first moved at a standing start. */
export const firstMovement = (outing: Outing, work: Work): Moment => {
  const set = FIRST_MOVEMENT_SETTINGS;
  if (outing.strokes.source === 'imu') return { atS: work.fromS, sdS: set.imuSdS };
  return { atS: work.fromS, sdS: outing.strokes.source === 'speed' ? set.speedSdS : set.roughSdS };
};
