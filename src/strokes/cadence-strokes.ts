import type { Channel } from '../recording/index.js';

/**
 * Strokes counted out of a logged cadence: the cadence integrated, a stroke at every whole number. Their number
 * is right, their places within a stroke are not known.
 * @param channel cadence, strokes per minute
 * @returns times, s; across gaps of the log nothing is counted
 */
export const cadenceStrokes = (channel: Channel): number[] => {
  const cadence = channel.columns[0]!;
  const marksS: number[] = [];
  const gapStarts = new Set(channel.gaps.map((gap) => gap.fromS));
  let phase = 1;
  for (let i = 0; i + 1 < channel.atS.length; i++) {
    const [fromS, toS] = [channel.atS[i]!, channel.atS[i + 1]!];
    const [first, last] = [Math.max(0, cadence[i]!), Math.max(0, cadence[i + 1]!)];
    if (gapStarts.has(fromS) || first === 0) {
      phase = 1;
      continue;
    }
    // a record says how the strokes before it went: the rate in between is the mean, or the first before a stop
    const perS = (last === 0 ? first : (first + last) / 2) / 60;
    let atS = fromS + (1 - phase) / perS;
    while (atS < toS) {
      marksS.push(atS);
      atS += 1 / perS;
    }
    phase = 1 - (atS - toS) * perS;
  }
  return marksS;
};
