import { merged } from '../../src/contract/merged.js';
import type { SeatsResult } from '../../src/contract/seats.js';
import { openOuting } from '../../src/outing/index.js';
import { piecesResultOf } from '../../src/pieces/index.js';
import { makeRecording, type Recording } from '../../src/recording/index.js';
import { simulate } from '../../src/simulate/index.js';
import type { Simulated } from '../../src/simulate/simulated.js';
import { parseSeatPlan, seatsResultOf } from '../../src/workout/index.js';
import { makeRandom } from '../simulator/random.js';
import { simulateTwin } from '../simulator/twin.js';

const PIECE_S = 180;
const REST_S = 80;
/** Not 30: at two seconds a stroke a 1 Hz receiver sees the same two moments of every stroke. */
const RATE_SPM = 31;
/** The dynamic simulator's speed goes with the force on the blade to this power: measured from rest, 0.9 to 1.1 of it. */
const FORCE_POWER = 0.506;

/** Who sat in red and in blue: two pairs; b and c swap there, back and there again, then a and d. */
const SEATS = [
  ['ab', 'cd'],
  ['ac', 'bd'],
  ['ab', 'cd'],
  ['ac', 'bd'],
  ['dc', 'ba'],
  ['ac', 'bd'],
] as const;
/** The piece before each swap and the piece after it. */
const BORDERS = [
  [0, 1],
  [3, 4],
] as const;

const PLAN = [
  'piece,boat,bow,stroke',
  ...SEATS.flatMap((seats, i) =>
    seats.map((people, boat) => `${i + 1},${['red', 'blue'][boat]},${people[0]},${people[1]}`),
  ),
].join('\n');

/** How fast a boat is in each piece against the craft's usual, made in one of the two simulators. */
const rowed = (dynamic: boolean, seed: number, speeds: readonly number[]): Simulated =>
  dynamic
    ? simulate({
        craft: '2-',
        seed,
        script: [
          { do: 'rest', time_s: REST_S },
          ...speeds.flatMap((speed) => [
            {
              do: 'row' as const,
              rate_spm: RATE_SPM,
              time_s: PIECE_S,
              strength: speed ** (1 / FORCE_POWER),
              label: 'piece',
            },
            { do: 'rest' as const, time_s: REST_S },
          ]),
        ],
        sensors: {
          gnss: { hz: 1, speed: true, position_sd_m: 1.5, correlation_s: 120 },
          watch: { hz: 1, cadence: true },
        },
      })
    : simulateTwin({
        seed,
        craft: '2-',
        imu: null,
        receiver: { rateHz: 1, wanderSdM: 1.5, wanderS: 120 },
        script: [
          { restS: REST_S },
          ...speeds.flatMap((speed) => [
            { rowS: PIECE_S + 1, rateSpm: RATE_SPM, speedMps: 4.4 * speed, label: 'piece' },
            { restS: REST_S },
          ]),
        ],
      });

/** Cadence as a watch has it, for a simulator that logs none. */
const withCadence = ({ track, truth }: Simulated): Recording => {
  if (track!.channels.cadence !== undefined) return track!;
  const marks = truth.catchMarksS;
  const cadence = Float64Array.from({ length: Math.floor(track!.durationS) + 1 }, (_, atS) => {
    const last = marks.findLastIndex((mark) => mark <= atS);
    return last < 1 || atS - marks[last]! > 5 || marks[last]! - marks[last - 1]! > 5
      ? 0
      : Math.round(60 / (marks[last]! - marks[last - 1]!));
  });
  return makeRecording({
    provenance: track!.provenance,
    originUnixS: track!.startUnixS,
    channels: { ...track!.channels, cadence: { atS: cadence.map((_, i) => i), columns: [cadence] } },
  });
};

const named = (recording: Recording, file: string): Recording => ({
  ...recording,
  provenance: { ...recording.provenance, file },
});

/** What a seat race told, and what was true. */
export interface SeatSession {
  readonly result: SeatsResult;
  readonly swaps: readonly {
    readonly worthS: number;
    readonly sdS: number;
    readonly trueS: number;
    readonly shown: boolean;
  }[];
}

/**
 * A seat race of six pieces of three minutes in two pairs, whose four people have known shares in the speed.
 * @param gainSd how much people differ, sd of a boat's speed with one of them; 0 for all alike
 * @param formPct how much a crew varies from piece to piece, %
 * @param other another plan, made of the true one, and other names of logs
 */
export const seatSession = (
  dynamic: boolean,
  seed: number,
  gainSd: number,
  formPct: number,
  other: { readonly plan?: (text: string) => string; readonly files?: readonly string[] } = {},
): SeatSession => {
  const random = makeRandom(90_000 + seed);
  const gain: Record<string, number> = Object.fromEntries(
    [...'abcd'].map((person) => [person, gainSd * random.normal()]),
  );
  const form = SEATS.map(() => [0, 1].map(() => (formPct / 100) * random.normal()));
  const usual = SEATS.map((seats) =>
    seats.map((people) => 1 + [...people].reduce((sum, person) => sum + gain[person]!, 0)),
  );
  const logs = [0, 1].map((boat) =>
    rowed(
      dynamic,
      2 * seed + boat,
      usual.map((both, i) => both[boat]! * (1 + form[i]![boat]!)),
    ),
  );
  const results = logs.map((log, boat) =>
    piecesResultOf(
      openOuting([named(withCadence(log), `${['red', 'blue'][boat]}.csv`)], {
        craft: '2-',
        boat: { schema: 'thole/boat/1', position_sd_m: 1.5, correlation_s: 120 },
      }),
      { kind: 'time', seconds: PIECE_S },
      { by: 'distance', count: 1 },
    ),
  );
  const result = seatsResultOf(
    parseSeatPlan(other.plan?.(PLAN) ?? PLAN, 'plan.csv'),
    { files: other.files ?? ['red.csv', 'blue.csv'], pieces: merged(results[0]!, [results[1]!]) },
    formPct,
  );
  /**
   * Seconds over a length of the crew of a piece as it usually rows: the mean over all pieces that it rowed, since the
   * strokes of one piece alone vary by as much as is measured.
   */
  const usualS = (boat: number, piece: number, overM: number): number => {
    const { stretches, alongM, stepS } = logs[boat]!.truth;
    const rowedIn = stretches.filter(({ label }) => label === 'piece');
    const at = (atS: number) => alongM[Math.round(atS / stepS)]!;
    const speeds = SEATS.flatMap((seats, i) => {
      if ([...seats[boat]!].sort().join() !== [...SEATS[piece]![boat]!].sort().join()) return [];
      const { fromS } = rowedIn[i]!;
      return [(at(fromS + PIECE_S) - at(fromS)) / PIECE_S / (1 + form[i]![boat]!)];
    });
    return overM / (speeds.reduce((sum, speed) => sum + speed, 0) / speeds.length);
  };
  return {
    result,
    swaps: result.swaps.map((swap, k) => {
      const margin = (piece: number) => usualS(1, piece, swap.over_m) - usualS(0, piece, swap.over_m);
      const [before, after] = BORDERS[k]!;
      return {
        worthS: swap.worth_s,
        sdS: swap.worth_sd_s,
        trueS: (margin(before) - margin(after)) / 2,
        shown: swap.shown,
      };
    }),
  };
};
