import { smoothTrack, type Track } from '../../src/motion/index.js';
import { type Boat, boatOf, type Receiver, type Stretch } from './boats.js';
import type { Comparison, Gate, Trial } from './frame.js';

/** Pieces with rests between them, as in training. */
const PIECES: readonly Stretch[] = [
  { restS: 60 },
  { rowS: 240, rateSpm: 28, start: true },
  { restS: 90 },
  { rowS: 240, rateSpm: 24, start: true },
  { restS: 90 },
  { rowS: 240, rateSpm: 30, start: true },
  { restS: 60 },
];
/** Begin and end of what is asked for in each piece, at way, s. */
const STEADY = [
  [90, 270],
  [420, 600],
  [750, 930],
] as const;

const CLEAN: Receiver = { hz: 10, positionSdM: 1.5, correlationS: 120, whiteSdM: 0.15, speedSdMps: 0.05 };
const WATCH: Receiver = { hz: 1, positionSdM: 2, correlationS: 60, whiteSdM: 0.3, speedSdMps: 0.08 };

/** Receivers as they are, and as they are thought to be. */
export const RECEIVERS: Readonly<Record<string, Receiver>> = {
  'white errors, 10 Hz': CLEAN,
  'Doppler wanders 0.02 m/s over 3 s': { ...CLEAN, speedWander: [0.02, 3] },
  'Doppler wanders 0.05 m/s over 3 s': { ...CLEAN, speedWander: [0.05, 3] },
  'Doppler wanders 0.02 m/s over 30 s': { ...CLEAN, speedWander: [0.02, 30] },
  watch: WATCH,
  'watch, speed a mean of 3 s': { ...WATCH, speedSmoothS: 3 },
  'watch, speed and position means of 3 s': { ...WATCH, speedSmoothS: 3, positionSmoothS: 3 },
  'watch, positions alone': { ...WATCH, speedSdMps: null },
  'reflections of 4 m for 2 min, 10 Hz': { ...CLEAN, reflections: [[480, 600, 4, 20]] },
  'reflections of 4 m for 2 min, watch': { ...WATCH, reflections: [[480, 600, 4, 20]] },
  'reflections of 4 m for 2 min, positions alone': {
    ...WATCH,
    speedSdMps: null,
    reflections: [[480, 600, 4, 20]],
  },
  'worse than assumed, 3 m over 60 s, 10 Hz': { ...CLEAN, positionSdM: 3, correlationS: 60 },
  'worse than assumed, 3 m over 60 s, watch': { ...WATCH, positionSdM: 3 },
  'worse than assumed, 3 m over 60 s, positions alone': { ...WATCH, positionSdM: 3, speedSdMps: null },
  '20 s without fixes, 10 Hz': { ...CLEAN, outages: [[500, 520]] },
  '20 s without fixes, watch': { ...WATCH, outages: [[500, 520]] },
  '20 s without fixes, positions alone': { ...WATCH, speedSdMps: null, outages: [[500, 520]] },
};

const trueAfter = (boat: Boat, fromS: number, metres: number): number => {
  const goal = boat.alongAt(fromS) + metres;
  let [low, high] = [fromS, fromS + 400];
  while (high - low > 1e-4) {
    const middle = (low + high) / 2;
    if (boat.alongAt(middle) < goal) low = middle;
    else high = middle;
  }
  return high;
};

const figures = (boat: Boat, track: Track, name: string): Comparison[] => {
  const whole = track.distanceM(track.fromS, track.toS)!;
  const wholeM = boat.alongAt(track.toS) - boat.alongAt(track.fromS);
  return [
    ...STEADY.flatMap(([fromS, toS]): Comparison[] => {
      const part = track.distanceM(fromS, toS);
      const time = track.timeAfter(fromS, 500);
      return [
        {
          quantity: `distance of 180 s, ${name}`,
          error: (part?.value ?? Number.NaN) - (boat.alongAt(toS) - boat.alongAt(fromS)),
          sd: part?.sd ?? Number.NaN,
        },
        {
          quantity: `time for 500 m, ${name}`,
          error: (time?.atS ?? Number.NaN) - trueAfter(boat, fromS, 500),
          sd: time?.durationSdS ?? Number.NaN,
        },
      ];
    }),
    {
      quantity: `whole distance, ${name}`,
      error: (100 * (whole.value - wholeM)) / wholeM,
      sd: (100 * whole.sd) / wholeM,
    },
  ];
};

/** Coverage asked of every receiver: at least; where the log cannot show that an error is small, ± is too large. */
const gatesOf = (name: string): Gate[] =>
  ['distance of 180 s', 'time for 500 m', 'whole distance'].map((quantity) => ({
    quantity: `${quantity}, ${name}`,
    unit: quantity === 'time for 500 m' ? 's' : quantity === 'whole distance' ? '%' : 'm',
    coveragePct: [90, 100],
    oneSdPct: [60, 100],
  }));

/** What a user gets who tells nothing of a receiver. */
export const receiverTrial = (name: string): Trial => ({
  name: `receiver: ${name}`,
  about: 'three pieces of 4 min with rests; nothing told of the receiver; both simulators',
  seeds: 24,
  run: (seed) => {
    const boat = boatOf(seed % 2 === 0 ? 'forces' : 'twin', seed, PIECES, [RECEIVERS[name]!]);
    const { track } = smoothTrack(boat.tracks[0]!, { boat: null });
    return figures(boat, track!, name);
  },
  gates: gatesOf(name),
});

export const RECEIVER_TRIALS: readonly Trial[] = Object.keys(RECEIVERS).map(receiverTrial);
