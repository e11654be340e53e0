import { openOuting } from '../../src/outing/index.js';
import { findPieces, type PieceAsk, pieceRow } from '../../src/pieces/index.js';
import type { Craft } from '../../src/units/craft.js';
import { trueStart } from '../pieces/true-start.js';
import type { Simulator } from './boats.js';
import type { Comparison, Trial } from './frame.js';
import { type AboardAsk, type Line, rowedLog, trueAlong } from './rowed-logs.js';

const CRAFTS: readonly Craft[] = ['8+', '4x', '1x', '2x'];
const bySeed = (seed: number): Simulator => (seed % 2 === 0 ? 'forces' : 'twin');
const craftOf = (seed: number): Craft => CRAFTS[Math.floor(seed / 2) % CRAFTS.length]!;

const LOGS: readonly AboardAsk[] = [
  { hz: 1, speed: false, watch: { meanOf: 3 } },
  { hz: 1, speed: true, watch: { meanOf: 1 } },
  { hz: 10, speed: true },
  { hz: 5, speed: true, imu: true },
];
const logOf = (seed: number): AboardAsk => LOGS[Math.floor(seed / 2) % LOGS.length]!;

/** A warm-up, then work that something of `gap` interrupts. */
const around = (gap: readonly Line[], from: number, to: number): Line[] => [
  { restS: 30 },
  { rowS: 200, rateSpm: 18, strength: 0.6 },
  { restS: 70 },
  { rowS: from, rateSpm: 27, label: 'first' },
  ...gap,
  { rowS: to, rateSpm: 27, label: 'second' },
  { restS: 60 },
];

const SCENES = {
  'light rowing under a bridge': { gap: [{ rowS: 20, rateSpm: 17, strength: 0.4 }], kind: 'slow' },
  'a stop for a buoy': { gap: [{ restS: 8, hold: true }], kind: 'stop' },
  'a stop of 20 s': { gap: [{ restS: 20 }], kind: 'stop' },
} as const;

const trialOf = (name: keyof typeof SCENES, ask: PieceAsk): Trial => ({
  name: `${ask.kind} through ${name}`,
  about:
    '5 and 6 min at 27 with an interruption, after a warm-up; watches, 10 Hz, 5 Hz with an accelerometer',
  seeds: 24,
  run: (seed) => {
    const craft = craftOf(Math.floor(seed / 8) + seed);
    const aboard = logOf(seed);
    const { gap, kind } = SCENES[name];
    const simulated = rowedLog(bySeed(seed), seed, craft, around(gap, 300, 360), aboard);
    const { truth, track, imu } = simulated;
    const outing = openOuting([track!, ...(aboard.imu && imu ? [imu] : [])], { craft, placement: 'hull' });
    const { pieces } = findPieces(outing, ask);
    const [first, second] = ['first', 'second'].map((label) =>
      truth.stretches.find((stretch) => stretch.label === label),
    );
    const whole = pieces.find(({ fromS, toS }) => fromS < first!.fromS + 10 && toS > second!.fromS + 30);
    const one: Comparison = {
      quantity: 'not one piece',
      error: pieces.length === 1 && whole ? 0 : 1,
      sd: null,
    };
    if (!whole) return [one];
    const row = pieceRow(outing, whole, 1);
    const startS = trueStart(truth, first!.fromS);
    const alongAt = trueAlong(truth);
    const trueS = (metres: number) => {
      let at = startS;
      while (alongAt(at) - alongAt(startS) < metres) at += 0.02;
      return at - startS;
    };
    return [
      one,
      {
        quantity: 'of another kind',
        error: whole.interruptions.length === 1 && whole.interruptions[0]!.kind === kind ? 0 : 1,
        sd: null,
      },
      {
        quantity: 'length of the interruption',
        error: row.stopped_s + row.slow_s - (second!.fromS - first!.toS),
        sd: null,
      },
      ...(ask.kind === 'distance'
        ? [
            { quantity: 'not complete', error: whole.outcome === 'complete' ? 0 : 1, sd: null },
            { quantity: 'time', error: row.duration_s - trueS(ask.metres), sd: row.duration_sd_s },
          ]
        : []),
    ];
  },
  gates: [
    { quantity: 'not one piece', unit: 'of 1', meanMost: 0.05 },
    // A slow stretch of less than 20 s does not stand out of a rate that varies; it is part of the piece all the same.
    ...(SCENES[name].kind === 'slow'
      ? [{ quantity: 'of another kind', unit: 'of 1', meanMost: 0.6 }]
      : [
          { quantity: 'of another kind', unit: 'of 1', meanMost: 0.05 },
          { quantity: 'length of the interruption', unit: 's', p95Most: 4 },
        ]),
    ...(ask.kind === 'distance'
      ? [
          { quantity: 'not complete', unit: 'of 1', worstMost: 0 },
          { quantity: 'time', unit: 's', p95Most: 2, coveragePct: [90, 100] as const },
        ]
      : []),
  ],
});

/** Pieces that a stop or a slow stretch interrupts. */
export const INTERRUPTED_TRIALS: readonly Trial[] = [
  trialOf('light rowing under a bridge', { kind: 'unaided' }),
  trialOf('light rowing under a bridge', { kind: 'distance', metres: 2000 }),
  trialOf('a stop for a buoy', { kind: 'unaided' }),
  trialOf('a stop for a buoy', { kind: 'distance', metres: 2000 }),
  trialOf('a stop of 20 s', { kind: 'unaided' }),
  trialOf('a stop of 20 s', { kind: 'time', seconds: 600 }),
];
