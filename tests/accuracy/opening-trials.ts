import { openOuting } from '../../src/outing/index.js';
import { findPieces } from '../../src/pieces/index.js';
import { openingRow } from '../../src/pieces/opening.js';
import { pieceStrokes } from '../../src/pieces/piece-strokes.js';
import { race } from '../pieces/simulated.js';
import { trueStart } from '../pieces/true-start.js';
import type { Comparison, Trial } from './frame.js';

const STROKES = 20;
/** A first catch mark from rest may lie so long before the first movement found, s. */
const FIRST_MARK_S = 1.5;

const openings: Trial = {
  name: 'the opening of a race, stroke by stroke',
  about: `${STROKES} strokes of 1500 m from a standing start; 10 Hz Doppler and a 100 Hz IMU, nothing told`,
  seeds: 50,
  run: (seed) => {
    const simulated = race(seed % 2 === 0 ? 'dynamic' : 'kinematic', { seed, imu: true });
    const outing = openOuting([simulated.track!, simulated.imu!], { craft: '2x', placement: 'hull' });
    const [piece] = findPieces(outing, { kind: 'distance', metres: 1500 }).pieces;
    const lost: Comparison = { quantity: 'not found', error: piece === undefined ? 1 : 0, sd: null };
    if (piece === undefined) return [lost];
    const opening = openingRow(outing, piece, 1, pieceStrokes(outing, piece), STROKES);
    const { alongM, stepS, catchMarksS, stretches } = simulated.truth;
    const alongAt = (atS: number): number => {
      const i = Math.floor(atS / stepS);
      return alongM[i]! + (alongM[i + 1]! - alongM[i]!) * (atS / stepS - i);
    };
    const marks = catchMarksS.filter((atS) => atS > piece.fromS - FIRST_MARK_S);
    const startS = trueStart(simulated.truth, stretches.findLast(({ kind }) => kind === 'rowing')!.fromS);
    const hundred = alongM.findIndex((metres) => metres >= alongAt(startS) + 100) * stepS - startS;
    return [
      lost,
      { quantity: 'strokes', error: opening.strokes.length - STROKES, sd: null },
      ...opening.strokes.flatMap((stroke, i): Comparison[] => {
        const [fromS, toS] = [marks[i]!, marks[i + 1]!];
        const rate = stroke.rate_spm! - 60 / (toS - fromS);
        return [
          {
            quantity: 'metres of a stroke',
            error: stroke.distance_m! - (alongAt(toS) - alongAt(fromS)),
            sd: stroke.distance_sd_m,
          },
          { quantity: i === 0 ? 'rate of the first stroke' : 'rate of a stroke', error: rate, sd: null },
        ];
      }),
      {
        quantity: 'time to 100 m',
        error: opening.time_to_100m_s! - hundred,
        sd: opening.time_to_100m_sd_s,
      },
    ];
  },
  gates: [
    { quantity: 'not found', unit: 'of 1', worstMost: 0 },
    { quantity: 'strokes', unit: 'strokes', worstMost: 0 },
    { quantity: 'metres of a stroke', unit: 'm', medianMost: 0.05, p95Most: 0.15, coveragePct: [88, 99] },
    { quantity: 'rate of a stroke', unit: 'spm', p95Most: 0.3 },
    { quantity: 'rate of the first stroke', unit: 'spm', p95Most: 1.5 },
    { quantity: 'time to 100 m', unit: 's', medianMost: 0.15, p95Most: 0.35 },
  ],
};

/** What is asked of the openings of pieces. */
export const OPENING_TRIALS: readonly Trial[] = [openings];
