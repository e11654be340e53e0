import { destination } from '../../src/geodesy/index.js';
import { smoothTrack, type Track } from '../../src/motion/index.js';
import { type Boat, boatOf, type Receiver, type Simulator, type Stretch } from './boats.js';
import type { Comparison, Gate, Trial } from './frame.js';

/** Half of the seeds ride with each simulator. */
const simulatorOf = (seed: number): Simulator => (seed % 2 === 0 ? 'forces' : 'twin');

const trackOf = (boat: Boat, index: number, told: Receiver | null): Track => {
  const { track } = smoothTrack(boat.tracks[index]!, {
    // The simulated Doppler error is white.
    boat: told && {
      position_sd_m: told.positionSdM,
      correlation_s: told.correlationS,
      speed_wander_sd_mps: 0,
    },
  });
  if (track === null) throw new Error('no track from a simulated log');
  return track;
};

const OUTING: readonly Stretch[] = [{ rowS: 750, rateSpm: 22 }, { restS: 900 }, { rowS: 750, rateSpm: 26 }];
const DOPPLER: Receiver = { hz: 10, positionSdM: 1.5, correlationS: 120, whiteSdM: 0.15, speedSdMps: 0.05 };
const SLOW_DOPPLER: Receiver = { ...DOPPLER, hz: 1, whiteSdM: 0.3 };
const FIVE: Receiver = { hz: 5, positionSdM: 0.01, correlationS: 60, whiteSdM: 0.3, speedSdMps: null };
const ONE: Receiver = { hz: 1, positionSdM: 0.01, correlationS: 60, whiteSdM: 1.2, speedSdMps: null };

/** Error of the whole length, % of it, and of one steady leg, m. */
const distances = (boat: Boat, track: Track, name: string): Comparison[] => {
  const whole = track.distanceM(track.fromS, track.toS)!;
  const trueM = boat.alongAt(track.toS) - boat.alongAt(track.fromS);
  const leg = track.distanceM(60, 700)!;
  return [
    {
      quantity: `distance, ${name}`,
      error: (100 * (whole.value - trueM)) / trueM,
      sd: (100 * whole.sd) / trueM,
    },
    {
      quantity: `steady leg, ${name}`,
      error: leg.value - (boat.alongAt(700) - boat.alongAt(60)),
      sd: leg.sd,
    },
  ];
};

const COVERED = [92, 98] as const;
const distanceGates = (name: string, medianMost: number, p95Most: number, told: boolean): Gate[] => [
  {
    quantity: `distance, ${name}`,
    unit: '%',
    medianMost,
    p95Most,
    ...(told ? { coveragePct: COVERED } : {}),
  },
  { quantity: `steady leg, ${name}`, unit: 'm', ...(told ? { coveragePct: COVERED } : {}) },
];

const outing: Trial = {
  name: 'distance over ground',
  about: '1500 s of rowing with 15 min of rest inside; the receiver told by a boat file, or not',
  seeds: 200,
  run: (seed) => {
    const boat = boatOf(simulatorOf(seed), seed, OUTING, [DOPPLER, FIVE, ONE, SLOW_DOPPLER]);
    return [
      ...distances(boat, trackOf(boat, 0, DOPPLER), '10 Hz Doppler'),
      ...distances(boat, trackOf(boat, 1, FIVE), '5 Hz positions'),
      ...distances(boat, trackOf(boat, 2, ONE), '1 Hz positions'),
      ...distances(boat, trackOf(boat, 3, SLOW_DOPPLER), '1 Hz Doppler'),
      // What a user gets who has no boat file; it costs as much as all the rest, so half of the seeds tell.
      ...(seed % 4 < 2
        ? []
        : [
            ...distances(boat, trackOf(boat, 0, null), '10 Hz Doppler, default error'),
            ...distances(boat, trackOf(boat, 2, null), '1 Hz positions, default error'),
          ]),
    ];
  },
  gates: [
    ...distanceGates('10 Hz Doppler', 0.05, 0.15, true),
    ...distanceGates('10 Hz Doppler, default error', 0.05, 0.15, false),
    ...distanceGates('5 Hz positions', 0.15, 0.4, true),
    ...distanceGates('1 Hz positions', 0.15, 0.4, true),
    ...distanceGates('1 Hz Doppler', 0.15, 0.4, true),
    ...distanceGates('1 Hz positions, default error', 0.15, 0.4, false),
  ],
};

const moored: Trial = {
  name: 'moored',
  about: '20 min tied up, position error of 2.5 m over 60 s, nothing told; with and without Doppler speed',
  seeds: 200,
  run: (seed) => {
    const receiver = { hz: 1, positionSdM: 2.5, correlationS: 60, whiteSdM: 0.3, speedSdMps: null };
    const boat = boatOf(
      simulatorOf(seed),
      seed,
      [{ mooredS: 1200 }],
      [receiver, { ...receiver, speedSdMps: 0.05 }],
    );
    return [0, 1].map((index) => {
      const track = trackOf(boat, index, null);
      const { value } = track.distanceM(track.fromS, track.toS)!;
      return {
        quantity: index === 0 ? 'over ground, positions' : 'over ground, Doppler',
        error: value,
        sd: null,
      };
    });
  },
  gates: [
    { quantity: 'over ground, positions', unit: 'm', p95Most: 15 },
    { quantity: 'over ground, Doppler', unit: 'm', p95Most: 15 },
  ],
};

const lines: Trial = {
  name: 'line to line',
  about: '1000 m between two lines at about 4.5 m/s, position error 0.8 m over 200 s, told; 10 Hz Doppler',
  seeds: 200,
  run: (seed) => {
    const receiver: Receiver = {
      hz: 10,
      positionSdM: 0.8,
      correlationS: 200,
      whiteSdM: 0.15,
      speedSdMps: 0.05,
    };
    const boat = boatOf(simulatorOf(seed), seed, [{ rowS: 320, rateSpm: 30, start: true }], [receiver]);
    const track = trackOf(boat, 0, receiver);
    const startS = 60;
    let finishS = startS;
    while (boat.alongAt(finishS) - boat.alongAt(startS) < 1000) finishS += 0.01;
    const [first, last] = [startS, finishS].map((atS) => {
      const heading = boat.headingAt(atS);
      const place = boat.placeAt(atS);
      const found = track.crossings({
        from: destination(place, heading - 90, 40),
        to: destination(place, heading + 90, 40),
        bowOffsetM: 0,
        bowOffsetSdM: 0,
      });
      return found[0]!;
    });
    return [
      {
        quantity: 'time between lines',
        error: last!.atS - first!.atS - (finishS - startS),
        sd: track.crossingDurationSdS(first!, last!),
      },
      { quantity: 'time of crossing', error: first!.atS - startS, sd: first!.sdS },
    ];
  },
  gates: [
    { quantity: 'time between lines', unit: 's', medianMost: 0.2, p95Most: 0.6, coveragePct: COVERED },
    { quantity: 'time of crossing', unit: 's', coveragePct: COVERED },
  ],
};

const race: Trial = {
  name: '1500 m from a true start',
  about:
    '1500 m and its fifths, timed from the true instant of the start; 10 Hz Doppler, 1.5 m over 120 s, told',
  seeds: 200,
  run: (seed) => {
    const script: readonly Stretch[] = [
      { restS: 60 },
      { rowS: 400, rateSpm: 32, start: true },
      { restS: 30 },
    ];
    const boat = boatOf(simulatorOf(seed), seed, script, [DOPPLER]);
    const track = trackOf(boat, 0, DOPPLER);
    const startS = boat.truth.catchMarksS[0]!;
    const trueAfter = (metres: number): number => {
      const goal = boat.alongAt(startS) + metres;
      let [low, high] = [startS, boat.truth.alongM.length * boat.truth.stepS];
      while (high - low > 1e-4) {
        const middle = (low + high) / 2;
        if (boat.alongAt(middle) < goal) low = middle;
        else high = middle;
      }
      return high;
    };
    const marks = [0, 300, 600, 900, 1200, 1500];
    const times = marks.map((metres) => (metres === 0 ? startS : track.timeAfter(startS, metres)!.atS));
    const trueTimes = marks.map((metres) => (metres === 0 ? startS : trueAfter(metres)));
    const whole = track.timeAfter(startS, 1500)!;
    return [
      { quantity: 'time for 1500 m', error: times[5]! - trueTimes[5]!, sd: whole.durationSdS },
      ...[1, 2, 3, 4].map((fifth) => ({
        quantity: 'time for a fifth',
        error: times[fifth + 1]! - times[fifth]! - (trueTimes[fifth + 1]! - trueTimes[fifth]!),
        sd: track.timeAfter(times[fifth]!, 300)!.durationSdS,
      })),
    ];
  },
  gates: [
    { quantity: 'time for 1500 m', unit: 's', medianMost: 0.2, p95Most: 0.6, coveragePct: COVERED },
    { quantity: 'time for a fifth', unit: 's', medianMost: 0.12, p95Most: 0.3, coveragePct: COVERED },
  ],
};

/** What is asked of the track itself. */
export const MOTION_TRIALS: readonly Trial[] = [outing, moored, lines, race];
