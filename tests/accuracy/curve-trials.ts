import type { ScriptStep } from '../../src/contract/scenario.js';
import { curveBlocks, curveOf } from '../../src/pieces/index.js';
import { simulate } from '../../src/simulate/index.js';
import type { Simulated } from '../../src/simulate/simulated.js';
import type { Craft } from '../../src/units/craft.js';
import { trueOuting } from '../pieces/true-outing.js';
import { speedAtRate } from '../simulator/craft-shape.js';
import { simulateTwin } from '../simulator/twin.js';
import type { Comparison, Trial } from './frame.js';

const CRAFTS: readonly Craft[] = ['1x', '2-', '4x', '8+'];
/** A training session: pieces of two minutes at these rates, in this order. */
const RATES = [20, 24, 28, 30, 32, 34, 36, 38, 40, 36, 38, 30, 34];
const PLATEAU_SPM = 34;
const [PIECE_S, REST_S] = [120, 25];

const byForces = (seed: number, plateauSpm: number | null): Simulated =>
  simulate({
    craft: CRAFTS[seed % CRAFTS.length]!,
    seed,
    crew: plateauSpm === null ? {} : { plateau_spm: plateauSpm },
    script: RATES.flatMap((rate_spm): ScriptStep[] => [
      { do: 'row', rate_spm, time_s: PIECE_S },
      { do: 'rest', time_s: REST_S },
    ]),
    sensors: { gnss: { hz: 1 } },
  });

/** The other simulator knows no law of rate and speed, so it is told the speed at each rate. */
const byMotion = (seed: number, plateauSpm: number | null): Simulated => {
  const craft = CRAFTS[seed % CRAFTS.length]!;
  const speedMps = (rate: number) =>
    speedAtRate(craft, 30) * (Math.min(rate, plateauSpm ?? rate) / 30) ** (1 / 3);
  return simulateTwin({
    craft,
    seed,
    imu: null,
    receiver: { rateHz: 1 },
    script: RATES.flatMap((rateSpm) => [
      { rowS: PIECE_S, rateSpm, speedMps: speedMps(rateSpm) },
      { restS: REST_S },
    ]),
  });
};

const measured = (simulated: Simulated) => {
  const curve = curveOf(curveBlocks(trueOuting(simulated)), 'ground');
  if ('why' in curve) throw new Error(curve.why);
  return curve;
};

const share = (quantity: string, is: boolean): Comparison => ({ quantity, error: is ? 1 : 0, sd: null });

const trialOf = (name: string, session: typeof byForces): Trial => ({
  name: `where more rate stops buying speed, ${name}`,
  about: `13 pieces of 2 min at 20 to 40 spm, true strokes and speeds; constant work, or no gain beyond ${PLATEAU_SPM} spm`,
  seeds: 100,
  run: (seed) => {
    const plain = measured(session(seed, null));
    const flat = measured(session(seed, PLATEAU_SPM)).plateau_spm;
    return [
      share('shown of constant work', plain.plateau_spm !== null),
      share('not found at 33 to 35 spm', flat === null || Math.abs(flat - PLATEAU_SPM) > 1),
      ...(flat === null ? [] : [{ quantity: 'rate found', error: flat - PLATEAU_SPM, sd: null }]),
      {
        quantity: 'exponent',
        error: plain.exponent - 1 / 3,
        // bounds at 95 % lie 1.96 sd out
        sd: (plain.exponent_high - plain.exponent_low) / (2 * 1.96),
      },
    ];
  },
  gates: [
    { quantity: 'shown of constant work', unit: 'of 1', meanMost: 0.05 },
    { quantity: 'not found at 33 to 35 spm', unit: 'of 1', meanMost: 0.05 },
    { quantity: 'rate found', unit: 'spm', medianMost: 1 },
    { quantity: 'exponent', unit: '', p95Most: 0.05, coveragePct: [90, 99] },
  ],
});

/** What is asked of a curve of rate and speed. */
export const CURVE_TRIALS: readonly Trial[] = [
  trialOf('boats moved by forces', byForces),
  trialOf('boats moved as told', byMotion),
];
