import type { Channel } from '../recording/index.js';
import { median } from '../signal/index.js';
import { COUNT_SETTINGS } from './stroke-settings.js';

/**
 * How many strokes one count of a logged cadence stands for, by strokes found in the signal at the same time:
 * some loggers count every second stroke of a paddle.
 * @param cadence counts per minute
 * @param marksS strokes that the signal shows, s
 * @returns 1, 2, or null where too few are common to both, or they agree in neither way
 */
export const strokesPerCount = (cadence: Channel, marksS: readonly number[]): 1 | 2 | null => {
  const { awayS, leastCommon, agreement } = COUNT_SETTINGS;
  const ratios: number[] = [];
  let sample = 0;
  for (let i = 0; i + 1 < marksS.length; i++) {
    const [fromS, toS] = [marksS[i]!, marksS[i + 1]!];
    const middleS = (fromS + toS) / 2;
    while (
      sample + 1 < cadence.atS.length &&
      Math.abs(cadence.atS[sample + 1]! - middleS) <= Math.abs(cadence.atS[sample]! - middleS)
    )
      sample++;
    const counts = cadence.columns[0]![sample]!;
    if (counts > 0 && Math.abs(cadence.atS[sample]! - middleS) <= awayS)
      ratios.push(60 / (toS - fromS) / counts);
  }
  if (ratios.length < leastCommon) return null;
  const usual = median(ratios);
  return ([1, 2] as const).find((strokes) => Math.abs(Math.log(usual / strokes)) < agreement) ?? null;
};
