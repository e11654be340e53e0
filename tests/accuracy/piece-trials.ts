import { alignClocks } from '../../src/outing/align-clocks.js';
import { type Outing, openOuting, summarise } from '../../src/outing/index.js';
import { findPieces, pieceRow } from '../../src/pieces/index.js';
import { simulate } from '../../src/simulate/index.js';
import type { Simulated } from '../../src/simulate/simulated.js';
import { trueStart } from '../pieces/true-start.js';
import { simulateTwin } from '../simulator/twin.js';
import type { Comparison, Trial } from './frame.js';

/** Half of the seeds ride with each simulator. */
const byForces = (seed: number): boolean => seed % 2 === 0;

/** The receiver of these trials, told to the tool: 10 Hz, Doppler speed, 1.5 m wandering over 120 s. */
const BOAT = { position_sd_m: 1.5, correlation_s: 120 };
const RECEIVER = { wanderSdM: 1.5, wanderS: 120 };
const GNSS = { hz: 10, speed: true, position_sd_m: 1.5, correlation_s: 120 };

const COVERED = [92, 98] as const;

/** A light row, two rowing intervals of straightening strokes, then 1500 m from a standing start. */
const race = (seed: number): Simulated =>
  byForces(seed)
    ? simulate({
        craft: '2x',
        seed,
        script: [
          { do: 'rest', time_s: 20 },
          { do: 'row', rate_spm: 20, time_s: 120, strength: 0.6 },
          { do: 'rest', time_s: 45 },
          { do: 'straighten', strokes: 3 },
          { do: 'rest', time_s: 15 },
          { do: 'straighten', strokes: 2, back: true },
          { do: 'rest', time_s: 20 },
          { do: 'start', rate_spm: 33, high_spm: 40, distance_m: 1510 },
          { do: 'rest', time_s: 30 },
        ],
        sensors: { gnss: GNSS },
      })
    : simulateTwin({
        seed,
        imu: null,
        receiver: RECEIVER,
        script: [
          { restS: 20 },
          { rowS: 120, rateSpm: 20, drill: 'light' },
          { restS: 45 },
          { rowS: 8, rateSpm: 20, drill: 'light' },
          { restS: 15 },
          { rowS: 6, rateSpm: 20, drill: 'back' },
          { restS: 25, holdWater: true },
          { rowS: 325, rateSpm: 33, startSpm: 38, label: 'start' },
          { restS: 30 },
        ],
      });

/** The truth's path, read at any time and at any length. */
const pathOf = ({ truth }: Simulated) => {
  const { alongM, stepS } = truth;
  const alongAt = (atS: number): number => {
    const i = Math.min(alongM.length - 2, Math.max(0, Math.floor(atS / stepS)));
    return alongM[i]! + (alongM[i + 1]! - alongM[i]!) * (atS / stepS - i);
  };
  const timeAfter = (fromS: number, metres: number): number => {
    const goal = alongAt(fromS) + metres;
    let [low, high] = [fromS, alongM.length * stepS];
    while (high - low > 1e-4) {
      const middle = (low + high) / 2;
      if (alongAt(middle) < goal) low = middle;
      else high = middle;
    }
    return high;
  };
  return { alongAt, timeAfter };
};

/** First movement of the race. */
const raceStart = ({ truth }: Simulated): number =>
  trueStart(truth, truth.stretches.findLast(({ kind }) => kind === 'rowing')!.fromS);

const opened = (simulated: Simulated): Outing => openOuting([simulated.track!], { craft: '2x', boat: BOAT });

const standing: Trial = {
  name: '1500 m from a standing start',
  about:
    'found after a light row and two rowingIntervals of straightening strokes; 10 Hz Doppler, 1.5 m over 120 s, told; strokes found in the speed',
  seeds: 200,
  run: (seed) => {
    const simulated = race(seed);
    const outing = opened(simulated);
    const { pieces } = findPieces(outing, { kind: 'distance', metres: 1500 });
    const [piece] = pieces;
    const { timeAfter } = pathOf(simulated);
    const startS = raceStart(simulated);
    const found = pieces.length === 1 && piece!.start === 'standing' && piece!.outcome === 'complete';
    const missed: Comparison = { quantity: 'not found', error: found ? 0 : 1, sd: null };
    if (!found) return [missed];
    const row = pieceRow(outing, piece!, 1);
    const trueTimes = [0, 300, 600, 900, 1200, 1500].map((metres) => timeAfter(startS, metres));
    return [
      missed,
      { quantity: 'start', error: piece!.fromS - startS, sd: piece!.startSdS },
      { quantity: 'time', error: row.duration_s - (trueTimes[5]! - startS), sd: row.duration_sd_s },
      ...row.parts.map((part, i) => ({
        quantity: 'time of a fifth',
        error: part.duration_s - (trueTimes[i + 1]! - trueTimes[i]!),
        sd: part.duration_sd_s,
      })),
    ];
  },
  gates: [
    { quantity: 'not found', unit: 'of 1', worstMost: 0 },
    { quantity: 'start', unit: 's', medianMost: 0.15, p95Most: 0.35 },
    { quantity: 'time', unit: 's', medianMost: 0.2, p95Most: 0.6, coveragePct: COVERED },
    { quantity: 'time of a fifth', unit: 's', medianMost: 0.12, p95Most: 0.3, coveragePct: COVERED },
  ],
};

/** Six pieces of 2 min at 28, after a light row. */
const sixPieces = (seed: number): Simulated =>
  byForces(seed)
    ? simulate({
        craft: '2x',
        seed,
        script: [
          { do: 'rest', time_s: 20 },
          { do: 'row', rate_spm: 18, time_s: 240, strength: 0.6 },
          { do: 'rest', time_s: 50 },
          {
            do: 'repeat',
            times: 6,
            script: [
              { do: 'row', rate_spm: 28, time_s: 120, label: 'piece' },
              { do: 'rest', time_s: 40 },
            ],
          },
        ],
        sensors: { gnss: GNSS },
      })
    : simulateTwin({
        seed,
        imu: null,
        receiver: RECEIVER,
        script: [
          { restS: 20 },
          { rowS: 240, rateSpm: 18, drill: 'light' },
          { restS: 50 },
          ...Array.from({ length: 6 }, () => [
            { rowS: 120, rateSpm: 28, label: 'piece' },
            { restS: 40 },
          ]).flat(),
        ],
      });

const unaided: Trial = {
  name: 'six pieces of 2 min',
  about:
    'found unaided between rests of 40 s, after a light row; 10 Hz Doppler, told; and the best 400 m of them',
  seeds: 200,
  run: (seed) => {
    const simulated = sixPieces(seed);
    const outing = opened(simulated);
    const { pieces } = findPieces(outing, { kind: 'unaided' });
    const wanted = simulated.truth.stretches.filter(({ label }) => label === 'piece');
    const { alongAt, timeAfter } = pathOf(simulated);
    const count: Comparison = {
      quantity: 'pieces too many or few',
      error: pieces.length - wanted.length,
      sd: null,
    };
    const [best] = summarise(outing, { pieceCount: null, best: [{ metres: 400 }] }).row.best;
    let trueBestS = Number.POSITIVE_INFINITY;
    for (const stretch of wanted)
      for (let fromS = stretch.fromS; fromS < stretch.toS; fromS += 0.1) {
        const toS = timeAfter(fromS, 400);
        if (toS <= stretch.toS + 2) trueBestS = Math.min(trueBestS, toS - fromS);
      }
    const bests: Comparison[] =
      best === undefined
        ? []
        : [{ quantity: 'best 400 m', error: best.duration_s - trueBestS, sd: best.duration_sd_s }];
    if (pieces.length !== wanted.length) return [count, ...bests];
    return [
      count,
      ...bests,
      ...pieces.flatMap((piece, i): Comparison[] => {
        const row = pieceRow(outing, piece, i + 1);
        const own = alongAt(piece.toS) - alongAt(piece.fromS);
        const length = outing.track!.distanceM(piece.fromS, piece.toS)!;
        return [
          { quantity: 'border', error: piece.fromS - wanted[i]!.fromS, sd: null },
          { quantity: 'border', error: piece.toS - wanted[i]!.toS, sd: null },
          { quantity: 'distance between its borders', error: row.distance_m! - own, sd: length.sd },
        ];
      }),
    ];
  },
  gates: [
    { quantity: 'pieces too many or few', unit: 'pieces', worstMost: 0 },
    { quantity: 'border', unit: 's', worstMost: 4 },
    { quantity: 'distance between its borders', unit: 'm', coveragePct: COVERED },
    { quantity: 'best 400 m', unit: 's', medianMost: 0.2, p95Most: 0.6 },
  ],
};

const STARTS = [
  [60, 300, 20],
  [45, 240, 24],
  [80, 400, 22],
  [60, 200, 28],
] as const;

const clockless = (seed: number): Simulated =>
  byForces(seed)
    ? simulate({
        craft: '4x',
        seed,
        script: [
          ...STARTS.flatMap(([restS, rowS, rate]) => [
            { do: 'rest' as const, time_s: restS },
            { do: 'row' as const, rate_spm: rate, time_s: rowS },
          ]),
          { do: 'rest', time_s: 60 },
        ],
        chop: { surge_mps2: 0.3 },
        sensors: {
          gnss: GNSS,
          imu: { hz: 100, start_s: 20 + (seed % 30), drift_ppm: 200, mount: { yaw_deg: (seed * 37) % 360 } },
        },
      })
    : simulateTwin({
        seed,
        receiver: RECEIVER,
        chop: { surgeMps2: 0.3 },
        imuClock: false,
        imu: { mount: 'random', startS: 20 + (seed % 30), driftPpm: 200 },
        script: [
          ...STARTS.flatMap(([restS, rowS, rateSpm]) => [{ restS }, { rowS, rateSpm }]),
          { restS: 60 },
        ],
      });

const clocks: Trial = {
  name: 'clocks aligned',
  about:
    'a 100 Hz IMU log without a clock, 200 ppm fast, on an outing with four starts and stops; chop 0.3 m/s²',
  seeds: 200,
  run: (seed) => {
    const { track, imu, truth } = clockless(seed);
    const found = alignClocks(track!, imu!);
    const refused: Comparison = { quantity: 'refused', error: found.kind === 'refused' ? 1 : 0, sd: null };
    if (found.kind === 'refused') return [refused];
    return [
      refused,
      { quantity: 'offset', error: found.clock.offsetS - truth.imuStartS, sd: found.offsetSdS },
      { quantity: 'drift', error: found.clock.driftPpm - truth.imuDriftPpm, sd: found.driftSdPpm },
    ];
  },
  gates: [
    { quantity: 'refused', unit: 'of 1', worstMost: 0 },
    { quantity: 'offset', unit: 's', worstMost: 0.15 },
    { quantity: 'drift', unit: 'ppm', worstMost: 15 },
  ],
};

/** What is asked of pieces, best stretches and clocks. */
export const PIECE_TRIALS: readonly Trial[] = [standing, unaided, clocks];
