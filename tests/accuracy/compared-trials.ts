import { openOuting } from '../../src/outing/index.js';
import { comparedPieces, piecesResultOf } from '../../src/pieces/index.js';
import { simulate } from '../../src/simulate/index.js';
import type { Simulated } from '../../src/simulate/simulated.js';
import { trueStart } from '../pieces/true-start.js';
import { speedAtRate } from '../simulator/craft-shape.js';
import { simulateTwin } from '../simulator/twin.js';
import type { Comparison, Trial } from './frame.js';

/** Pieces of a day, their length and rate. */
const PIECES = 4;
const PIECE_S = 120;
const RATE_SPM = 28;
const CRAFT = '2x';

/** A receiver, as both simulators take it, and what the tool is told of it. */
interface Receiver {
  readonly hz: number;
  readonly told: boolean;
}

const WANDER = { sdM: 1.5, correlationS: 120 };

/** A crew's day: so many pieces from a standing start, all by this much faster. */
const day = (seed: number, faster: number, { hz }: Receiver): Simulated =>
  seed % 2 === 0
    ? simulate({
        craft: CRAFT,
        seed,
        // power goes with the cube of speed
        crew: { power: faster ** 3 },
        script: [
          { do: 'rest', time_s: 30 },
          {
            do: 'repeat',
            times: PIECES,
            script: [
              { do: 'row', rate_spm: RATE_SPM, time_s: PIECE_S, label: 'piece' },
              { do: 'rest', time_s: 60 },
            ],
          },
        ],
        sensors: {
          gnss: { hz, speed: true, position_sd_m: WANDER.sdM, correlation_s: WANDER.correlationS },
        },
      })
    : simulateTwin({
        craft: CRAFT,
        seed,
        imu: null,
        receiver: { rateHz: hz, wanderSdM: WANDER.sdM, wanderS: WANDER.correlationS },
        script: [
          { restS: 30 },
          ...Array.from({ length: PIECES }, () => [
            {
              rowS: PIECE_S,
              rateSpm: RATE_SPM,
              speedMps: faster * speedAtRate(CRAFT, RATE_SPM),
              label: 'piece',
            },
            { restS: 60 },
          ]).flat(),
        ],
      });

/** True mean speeds of the pieces of a day, from first movement to the end of the last stroke, m/s. */
const trueSpeeds = ({ truth }: Simulated): number[] => {
  const { alongM, stepS, stretches } = truth;
  const alongAt = (atS: number) => alongM[Math.round(atS / stepS)]!;
  return stretches
    .filter(({ label }) => label === 'piece')
    .map(({ fromS, toS }) => {
      const startS = trueStart(truth, fromS);
      return (alongAt(toS) - alongAt(startS)) / (toS - startS);
    });
};

const piecesOf = (simulated: Simulated, { told }: Receiver) =>
  piecesResultOf(
    openOuting([simulated.track!], {
      craft: CRAFT,
      ...(told ? { boat: { position_sd_m: WANDER.sdM, correlation_s: WANDER.correlationS } } : {}),
    }),
    { kind: 'unaided' },
  );

/** Seeds of the two days never meet. */
const OTHER_DAY = 10_000;

const compared = (seed: number, faster: number, name: string, receiver: Receiver): Comparison[] => {
  const [now, then] = [day(seed, faster, receiver), day(seed + OTHER_DAY, 1, receiver)];
  const [own, other] = [trueSpeeds(now), trueSpeeds(then)];
  const result = comparedPieces(piecesOf(now, receiver), piecesOf(then, receiver));
  const rows = result.compared!;
  const lost: Comparison = { quantity: 'pieces without a match', error: PIECES - rows.length, sd: null };
  if (rows.length !== PIECES) return [lost];
  const truths = rows.map((row) => 100 * (own[row.piece - 1]! / other[row.with_piece - 1]! - 1));
  const mean = result.compared_mean!;
  const trueMean = truths.reduce((sum, pct) => sum + pct, 0) / PIECES;
  const share = (quantity: string, is: boolean): Comparison => ({ quantity, error: is ? 1 : 0, sd: null });
  return [
    lost,
    ...rows.flatMap(({ difference_pct, difference_sd_pct, verdict }, i): Comparison[] => [
      { quantity: name, error: difference_pct! - truths[i]!, sd: difference_sd_pct },
      share(
        'told the wrong way',
        (verdict === 'faster' && truths[i]! < 0) || (verdict === 'slower' && truths[i]! > 0),
      ),
      faster === 1
        ? share('told apart without a change', verdict === 'faster' || verdict === 'slower')
        : share('1 % not shown in a piece', verdict !== 'faster'),
    ]),
    {
      quantity: `${name}, mean of ${PIECES}`,
      error: mean.difference_pct - trueMean,
      sd: mean.difference_sd_pct,
    },
    ...(faster === 1
      ? [share('told of the mean without a change', mean.verdict === 'faster' || mean.verdict === 'slower')]
      : [share(`1 % not shown in the mean of ${PIECES}`, mean.verdict !== 'faster')]),
  ];
};

const COVERED = [92, 100] as const;

const trialOf = (name: string, about: string, receiver: Receiver, mostPct: number): Trial => ({
  name,
  about,
  seeds: 50,
  run: (seed) => [
    ...compared(seed, 1, 'no change', receiver),
    ...compared(seed + 5000, 1.01, '1 % faster', receiver),
  ],
  gates: [
    { quantity: 'pieces without a match', unit: 'pieces', worstMost: 0 },
    { quantity: 'no change', unit: '%', p95Most: mostPct, coveragePct: COVERED },
    { quantity: '1 % faster', unit: '%', p95Most: mostPct, coveragePct: COVERED },
    { quantity: `no change, mean of ${PIECES}`, unit: '%', p95Most: mostPct },
    { quantity: `1 % faster, mean of ${PIECES}`, unit: '%', p95Most: mostPct },
    { quantity: 'told the wrong way', unit: 'of 1', meanMost: 0.025 },
    { quantity: 'told apart without a change', unit: 'of 1', meanMost: 0.05 },
    { quantity: 'told of the mean without a change', unit: 'of 1', meanMost: 0.05 },
    { quantity: '1 % not shown in a piece', unit: 'of 1' },
    { quantity: `1 % not shown in the mean of ${PIECES}`, unit: 'of 1' },
  ],
});

/** What is asked of pieces held against those of another day. */
export const COMPARED_TRIALS: readonly Trial[] = [
  trialOf(
    'the same crew on two days, 10 Hz',
    `${PIECES} pieces of 2 min at 28, with and without a change of 1 %; 10 Hz Doppler, 1.5 m over 120 s, told`,
    { hz: 10, told: true },
    0.8,
  ),
  trialOf(
    'the same crew on two days, 1 Hz',
    `${PIECES} pieces of 2 min at 28, with and without a change of 1 %; 1 Hz Doppler, nothing told, no strokes`,
    { hz: 1, told: false },
    3,
  ),
];
