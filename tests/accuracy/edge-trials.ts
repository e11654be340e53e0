import { openOuting } from '../../src/outing/index.js';
import { findPieces, pieceRow } from '../../src/pieces/index.js';
import type { Craft } from '../../src/units/craft.js';
import { trueStart } from '../pieces/true-start.js';
import type { Simulator } from './boats.js';
import type { Comparison, Trial } from './frame.js';
import { type AboardAsk, type Line, rowedLog, trueAlong, trueEdges } from './rowed-logs.js';

const CRAFTS: readonly Craft[] = ['8+', '4x', '2x', '1x'];
const bySeed = (seed: number): Simulator => (seed % 2 === 0 ? 'forces' : 'twin');
const craftOf = (seed: number): Craft => CRAFTS[Math.floor(seed / 2) % CRAFTS.length]!;
const PIECE = 'piece';

/** Light at 18, then pieces from rest, the hull left to glide after half of them. */
const fromRest = (seed: number): Line[] => [
  { restS: 40 },
  { rowS: 240, rateSpm: 18, strength: 0.6 },
  { restS: 80 },
  ...[300, 360, 240].flatMap((rowS, i): Line[] => [
    { rowS, rateSpm: 28 + 2 * i, label: PIECE, ...(i === 1 ? { startSpm: 38 } : {}) },
    { restS: 100, glide: (seed + i) % 3 !== 0 },
  ]),
];

/** Work between light rowing, never a rest between. */
const rolling: readonly Line[] = [
  { restS: 40 },
  { rowS: 200, rateSpm: 19, strength: 0.6 },
  ...[28, 30, 27].flatMap((rateSpm): Line[] => [
    { rowS: 240, rateSpm, label: PIECE },
    { rowS: 150, rateSpm: 19, strength: 0.6 },
  ]),
  { restS: 60 },
];

const trialOf = (
  name: string,
  about: string,
  lines: (seed: number) => readonly Line[],
  aboard: (seed: number) => AboardAsk,
  standing: boolean,
  most: number,
  rated = true,
): Trial => ({
  name,
  about,
  seeds: 24,
  run: (seed) => {
    const craft = craftOf(seed);
    const simulated = rowedLog(bySeed(seed), seed, craft, lines(seed), aboard(seed));
    const { truth } = simulated;
    const logs = [simulated.track!, ...(simulated.imu && aboard(seed).imu ? [simulated.imu] : [])];
    const outing = openOuting(logs, { craft, placement: 'hull' });
    const { pieces } = findPieces(outing, { kind: 'unaided' });
    const edges = trueEdges(truth, PIECE);
    const alongAt = trueAlong(truth);
    const count: Comparison = {
      quantity: 'pieces too many or few',
      error: pieces.length - edges.length,
      sd: null,
    };
    return [
      count,
      ...edges.flatMap((edge): Comparison[] => {
        const at = pieces.findIndex(
          ({ fromS, toS }) =>
            Math.min(toS, edge.toS) - Math.max(fromS, edge.fromS) > 0.6 * (edge.toS - edge.fromS),
        );
        if (at < 0) return [{ quantity: 'not found', error: 1, sd: null }];
        const piece = pieces[at]!;
        const row = pieceRow(outing, piece, at + 1);
        const startS = standing ? trueStart(truth, edge.fromS) : edge.fromS;
        return [
          { quantity: 'not found', error: 0, sd: null },
          { quantity: 'start', error: piece.fromS - startS, sd: piece.startSdS },
          { quantity: 'end', error: piece.toS - edge.toS, sd: piece.endSdS },
          { quantity: 'time', error: row.duration_s - (edge.toS - startS), sd: row.duration_sd_s },
          {
            quantity: 'distance',
            error: (row.distance_m ?? 0) - (alongAt(edge.toS) - alongAt(startS)),
            sd: row.distance_sd_m,
          },
        ];
      }),
    ];
  },
  gates: [
    { quantity: 'not found', unit: 'of 1', worstMost: 0 },
    // Without a rate light rowing is a piece too: nothing tells it from harder work against a stream.
    ...(rated ? [{ quantity: 'pieces too many or few', unit: 'pieces', worstMost: 0 }] : []),
    { quantity: 'start', unit: 's', p95Most: most, coveragePct: [90, 100], oneSdPct: [60, 92] },
    { quantity: 'end', unit: 's', p95Most: most, coveragePct: [90, 100], oneSdPct: [60, 92] },
    { quantity: 'time', unit: 's', coveragePct: [90, 100], oneSdPct: [60, 92] },
    { quantity: 'distance', unit: 'm', coveragePct: [90, 100], oneSdPct: [60, 92] },
  ],
});

const watches = [{ meanOf: 0 }, { meanOf: 1 }, { meanOf: 3 }, { meanOf: 5, forgetS: 6 }];
const watch = (seed: number) => watches[Math.floor(seed / 8) % watches.length]!;

/** Where pieces begin and end: 1 Hz logs, and what 10 Hz gives beside them. */
export const EDGE_TRIALS: readonly Trial[] = [
  trialOf('edges, 1 Hz positions', 'from rest', fromRest, () => ({ hz: 1, speed: false }), true, 5, false),
  trialOf('edges, 1 Hz speed', 'from rest', fromRest, () => ({ hz: 1, speed: true }), true, 5, false),
  trialOf(
    'edges, 1 Hz cadence',
    'from rest',
    fromRest,
    (s) => ({ hz: 1, speed: s % 4 > 1, watch: watch(s) }),
    true,
    3,
  ),
  trialOf(
    'edges, 1 Hz accelerometer',
    'from rest',
    fromRest,
    (s) => ({ hz: 1, speed: s % 4 > 1, imu: true }),
    true,
    3,
  ),
  trialOf('edges, 5 Hz positions', 'from rest', fromRest, () => ({ hz: 5, speed: false }), true, 5, false),
  trialOf(
    'edges, 5 Hz accelerometer',
    'from rest',
    fromRest,
    () => ({ hz: 5, speed: true, imu: true }),
    true,
    3,
  ),
  trialOf('edges, 10 Hz speed', 'from rest', fromRest, () => ({ hz: 10, speed: true }), true, 3),
  trialOf(
    'edges, 10 Hz accelerometer',
    'from rest',
    fromRest,
    () => ({ hz: 10, speed: true, imu: true }),
    true,
    3,
  ),
  trialOf(
    'rolling, 1 Hz positions',
    'no rest',
    () => rolling,
    () => ({ hz: 1, speed: false }),
    false,
    5,
    false,
  ),
  trialOf(
    'rolling, 1 Hz speed',
    'no rest',
    () => rolling,
    () => ({ hz: 1, speed: true }),
    false,
    5,
    false,
  ),
  trialOf(
    'rolling, 1 Hz cadence',
    'no rest',
    () => rolling,
    (s) => ({ hz: 1, speed: s % 4 > 1, watch: watch(s) }),
    false,
    3,
  ),
  trialOf(
    'rolling, 10 Hz speed',
    'no rest',
    () => rolling,
    () => ({ hz: 10, speed: true }),
    false,
    3,
  ),
  trialOf(
    'rolling, 10 Hz accelerometer',
    'no rest',
    () => rolling,
    () => ({ hz: 10, speed: true, imu: true }),
    false,
    3,
  ),
];
