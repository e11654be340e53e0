/** Splits by how round they are, s, the roundest first: whole ten minutes to half seconds. */
const ROUNDNESS_S = [600, 300, 120, 60, 30, 15, 10, 5, 2, 1, 0.5];

/** A split slower than this names no speed worth a tick, s per 500 m. */
const SLOWEST_S = 1200;

/** No tick is finer than this share of the range: beside 1:30 and 2:00 nobody looks for 1:42. */
const FINEST = 12;

/** One tick of an axis of speed. */
export interface RoundSplit {
  readonly splitS: number;
  readonly speedMps: number;
}

/**
 * Round splits within a range of speeds, the roundest first, each with room around it. Ticks at round speeds would
 * read as 1:37.1.
 * @param domain lowest and highest speed, m/s
 * @param lengthPx length of the axis, px
 * @param roomPx least room from tick to tick, px
 * @returns from slow to fast
 */
export const roundSplits = (
  [low, high]: readonly [number, number],
  lengthPx: number,
  roomPx: number,
): readonly RoundSplit[] => {
  if (high <= 0) return [];
  const perPx = (high - low) / lengthPx;
  const wanted = Math.max(2, Math.floor(lengthPx / roomPx));
  const [fastest, slowest] = [500 / high, Math.min(SLOWEST_S, 500 / Math.max(low, 1e-3))];
  const chosen: RoundSplit[] = [];
  for (const stepS of ROUNDNESS_S) {
    if (chosen.length >= wanted || stepS < (slowest - fastest) / FINEST) break;
    for (let splitS = Math.ceil(fastest / stepS) * stepS; splitS <= slowest; splitS += stepS) {
      const speedMps = 500 / splitS;
      if (chosen.every((other) => Math.abs(other.speedMps - speedMps) >= roomPx * perPx))
        chosen.push({ splitS, speedMps });
    }
  }
  return chosen.sort((a, b) => a.speedMps - b.speedMps);
};
