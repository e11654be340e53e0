import type { Work } from './work.js';

/** When rowing is light beside harder work of the same outing. */
export const LIGHT_ROWING_SETTINGS = Object.freeze({
  /** Harder: rate times at least this; 1.2 to 1.3: 18 against 24 is 1.33. Also the gap between light and hard rates. */
  harderRate: 1.25,
  /** … and speed times at least this; 1.03 to 1.1: a fair stream may hide more. */
  harderSpeed: 1.05,
  /** Or harder by speed alone, times at least this; 1.4 to 1.6: handling the boat; no stream does it. */
  harderSpeedAlone: 1.5,
  /** All harder work together lasts at least this share of all the light; 0.1 to 0.3: a few bursts do not make an hour light. */
  harderShare: 0.15,
});

/** Is `b` clearly harder work than `a`? */
export const isHarder = (b: Work, a: Work): boolean => {
  const set = LIGHT_ROWING_SETTINGS;
  if (isFaster(b, a)) return true;
  if (a.rateSpm === null || b.rateSpm === null) return false;
  const speed = speedRatio(b, a);
  return b.rateSpm >= set.harderRate * a.rateSpm && (speed === null || speed >= set.harderSpeed);
};

const speedRatio = (b: Work, a: Work): number | null =>
  b.speedMps === null || a.speedMps === null ? null : b.speedMps / Math.max(a.speedMps, 0.1);

const isFaster = (b: Work, a: Work): boolean =>
  (speedRatio(b, a) ?? 0) >= LIGHT_ROWING_SETTINGS.harderSpeedAlone;

const lengthS = (works: readonly Work[]): number =>
  works.reduce((sum, { fromS, toS }) => sum + toS - fromS, 0);

/** Work below the widest gap between rates in use, where that is wide enough: the steps of a ladder have none. */
const belowTheGap = (works: readonly Work[]): readonly Work[] => {
  const rising = works.filter(({ rateSpm }) => rateSpm !== null).toSorted((a, b) => a.rateSpm! - b.rateSpm!);
  const gaps = rising.slice(1).map((work, i) => work.rateSpm! / rising[i]!.rateSpm!);
  const widest = gaps.indexOf(Math.max(...gaps));
  if (widest < 0 || gaps[widest]! < LIGHT_ROWING_SETTINGS.harderRate) return [];
  const above = rising.slice(widest + 1);
  return rising.slice(0, widest + 1).filter((work) => above.some((other) => isHarder(other, work)));
};

/** Work parted into what the outing was rowed for, and light rowing before, between and after. */
export const splitLightRowing = (
  works: readonly Work[],
): { readonly hard: readonly Work[]; readonly light: readonly Work[] } => {
  const gentle = belowTheGap(works);
  const light = works.filter((work) => gentle.includes(work) || works.some((other) => isFaster(other, work)));
  const hard = works.filter((work) => !light.includes(work));
  return lengthS(hard) < LIGHT_ROWING_SETTINGS.harderShare * lengthS(light)
    ? { hard: works, light: [] }
    : { hard, light };
};
