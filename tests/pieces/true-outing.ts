import type { Track } from '../../src/motion/track.js';
import type { Outing } from '../../src/outing/index.js';
import type { Simulated } from '../../src/simulate/simulated.js';
import type { Stroke } from '../../src/strokes/stroke.js';
import { evenStrokes, northTrack, outingOf } from '../outing/made-up.js';

/** A stop is longer than this between two catch marks, s. */
const STOP_S = 8;

const trueTrack = ({ truth }: Simulated): Track => {
  const { stepS, speedMps, alongM } = truth;
  const durationS = (alongM.length - 1) * stepS;
  const at = (signal: Float64Array, atS: number): number => {
    const i = Math.min(signal.length - 2, Math.max(0, Math.floor(atS / stepS)));
    return signal[i]! + (signal[i + 1]! - signal[i]!) * (atS / stepS - i);
  };
  return northTrack((atS) => Math.max(0, at(speedMps, atS)), durationS);
};

const trueStrokes = (marksS: readonly number[]): Stroke[] => {
  const like = evenStrokes([{ fromS: 0, toS: 10, rateSpm: 20 }])[0]!;
  return marksS.map((atS, i) => {
    const next = marksS[i + 1];
    return { ...like, atS, rateSpm: next === undefined || next - atS > STOP_S ? null : 60 / (next - atS) };
  });
};

/** The outing that perfect motion and perfect strokes would make of a simulated one: piece finding alone. */
export const trueOuting = (simulated: Simulated): Outing =>
  outingOf(trueTrack(simulated), trueStrokes(simulated.truth.catchMarksS));
