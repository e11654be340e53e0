import { median } from '../signal/index.js';
import { hypotenuse } from '../units/hypotenuse.js';
import type { Wander } from './noise.js';
import type { Section } from './section.js';
import { MOTION_SETTINGS } from './settings.js';

/** Whether the logged speed is the speed of these positions. */
export interface SpeedAgreement {
  readonly yes: boolean;
  /** Distance by the logged speed / distance by the positions, median over windows. */
  readonly ratio: number;
}

/**
 * Compare the logged speed, summed over windows of steady way, with the way between fixes. A wrong unit, a speed
 * over water or one of another sensor shows.
 * @returns null where no window is long enough to tell
 */
export const speedAgrees = (sections: readonly Section[], wander: Wander): SpeedAgreement | null => {
  const ratios: number[] = [];
  for (const section of sections) {
    let [from, summedM] = [0, 0];
    let lastSpeedAt = -1;
    for (let k = 1; k < section.count; k++) {
      if (section.hasSpeed[k]) {
        if (lastSpeedAt >= from)
          summedM +=
            ((section.speedMps[k]! + section.speedMps[lastSpeedAt]!) / 2) *
            (section.atS[k]! - section.atS[lastSpeedAt]!);
        lastSpeedAt = k;
      }
      if (section.atS[k]! - section.atS[from]! < MOTION_SETTINGS.agreementWindowS) continue;
      const pathM = hypotenuse(
        section.eastM[k]! - section.eastM[from]!,
        section.northM[k]! - section.northM[from]!,
      );
      if (pathM > MOTION_SETTINGS.agreementPathSds * wander.sdM) ratios.push(summedM / pathM);
      [from, summedM, lastSpeedAt] = [k, 0, section.hasSpeed[k] ? k : -1];
    }
  }
  if (ratios.length < 3) return null;
  const ratio = median(ratios);
  return { yes: Math.abs(ratio - 1) < MOTION_SETTINGS.speedAgreement, ratio };
};
