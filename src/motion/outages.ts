import type { Channel, Gap, Warning } from '../recording/index.js';
import { MOTION_SETTINGS } from './settings.js';
import type { Interval } from './track.js';

/** Gaps between fixes that are not bridged: where the log begins anew, and where too long nothing was received. */
export const unbridgedGaps = ({ gaps }: Channel): readonly Gap[] =>
  gaps.filter((gap) => gap.kind === 'segment' || gap.toS - gap.fromS > MOTION_SETTINGS.longestBridgeS);

/** What is said of stretches without fixes; nothing where there are none. */
export const outageWarnings = (file: string, outages: readonly Interval[]): Warning[] => {
  const [first] = outages;
  if (first === undefined) return [];
  const lostS = outages.reduce((sum, { fromS, toS }) => sum + toS - fromS, 0);
  return [
    {
      code: 'position-outage',
      file,
      where: `at ${first.fromS.toFixed(1)} s`,
      message: `the track is interrupted ${outages.length === 1 ? 'once' : `${outages.length} times`}, ${lostS.toFixed(0)} s in all; what was covered then is not counted`,
    },
  ];
};
