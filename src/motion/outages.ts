import type { Channel, Gap, Warning } from '../recording/index.js';
import { MOTION_SETTINGS } from './settings.js';
import type { Interval } from './track.js';

/** Gaps between fixes that are not bridged: where the log begins anew, and where too long nothing was received. */
export const unbridgedGaps = ({ gaps }: Channel): readonly Gap[] =>
  gaps.filter((gap) => gap.kind === 'segment' || gap.toS - gap.fromS > MOTION_SETTINGS.longestBridgeS);

/** Gaps between fixes that are bridged, and long enough to be said. */
export const bridgedGaps = ({ gaps }: Channel): readonly Gap[] =>
  gaps.filter(
    (gap) =>
      gap.kind !== 'segment' &&
      gap.toS - gap.fromS > MOTION_SETTINGS.saidBridgeS &&
      gap.toS - gap.fromS <= MOTION_SETTINGS.longestBridgeS,
  );

/** What is said of gaps that are bridged; nothing where there are none. */
export const bridgeWarnings = (file: string, bridges: readonly Interval[]): Warning[] =>
  bridges.map(({ fromS, toS }) => ({
    code: 'position-bridged',
    file,
    where: `at ${fromS.toFixed(1)} s`,
    message: `no positions for ${(toS - fromS).toFixed(0)} s; the track is bridged there by the places, speeds and courses on both sides, so figures across it hold, with a wider ±, and speeds within it are of the bridge`,
  }));

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
      message: `the track is interrupted ${outages.length === 1 ? 'once' : `${outages.length} times`}, ${lostS.toFixed(0)} s in total; what was covered then is not counted`,
    },
  ];
};
