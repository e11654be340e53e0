import { openOuting } from '../../src/outing/index.js';
import { type LogSummary, logSummaryOf } from '../../src/season/index.js';
import { simulate } from '../../src/simulate/index.js';
import { randomFrom } from '../../src/simulate/random.js';
import { speedAtRate } from '../simulator/craft-shape.js';
import { simulateTwin } from '../simulator/twin.js';
import { summary } from './summaries.js';

const CRAFT = '2x';
export const CREW = { crew: 'Heron', craft: CRAFT } as const;

/** How the speed of a crew goes with its rate: the law of each simulator. */
export const LAWS = {
  'constant work a stroke': (spm: number) => 4.85 * (spm / 32) ** (1 / 3),
  'the other simulator': (spm: number) => speedAtRate(CRAFT, spm),
} as const;
export type Law = keyof typeof LAWS;

/** A season of outings' figures. */
export interface SeasonAsked {
  readonly law: Law;
  readonly pctPerMonth: number;
  /** How much one day differs from another, sd, %. */
  readonly dayPct: number;
  /** sd of a figure by the logs, %: what the pipeline shows, see the test. */
  readonly logPct: number;
}

const DAY_MS = 86_400_000;
const FIRST = Date.parse('2026-03-02T07:00:00Z');
/** Thirty outings, one every four days: four months. */
export const OUTINGS = 30;
const EVERY_DAYS = 4;
const MONTH_DAYS = 30.4375;

/** Sessions in turn: their rates. */
const SESSIONS: readonly (readonly number[])[] = [
  [18, 22],
  [19, 26],
  [20, 30],
];
const BANDS = [
  [null, 20],
  [20, 24],
  [24, 28],
  [28, 32],
] as const;

const timeOf = (outing: number): string => new Date(FIRST + outing * EVERY_DAYS * DAY_MS).toISOString();

/** One season at the level of outings' figures. */
export const figureSeason = (
  seed: number,
  { law, pctPerMonth, dayPct, logPct }: SeasonAsked,
): LogSummary[] => {
  const random = randomFrom(seed, 'season');
  return Array.from({ length: OUTINGS }, (_, i) => {
    const months = (i * EVERY_DAYS) / MONTH_DAYS;
    const day = (1 + pctPerMonth / 100) ** months * (1 + (dayPct / 100) * random.normal());
    const steady = SESSIONS[i % SESSIONS.length]!.flatMap((asked) => {
      const rate = asked + 0.4 * random.normal();
      const band = BANDS.find(([from, to]) => rate >= (from ?? 0) && rate < to);
      if (band === undefined) return [];
      const speed = LAWS[law](rate) * day * (1 + (logPct / 100) * random.normal());
      return {
        from_spm: band[0],
        to_spm: band[1],
        rate_spm: rate,
        speed_mps: speed,
        speed_sd_mps: (speed * logPct) / 100,
        stroke_count: 200,
      };
    });
    return summary({ ...CREW, file: `${i}.csv`, start_time: timeOf(i) }, { steady });
  });
};

/** Outings through the whole pipeline, each of a day that was so much faster than usual. */
export const loggedSeason = (law: Law, faster: readonly number[]): LogSummary[] =>
  faster.map((factor, i) => {
    const rates = [18, 22];
    const simulated =
      law === 'constant work a stroke'
        ? simulate({
            craft: CRAFT,
            seed: 300 + i,
            start_time: timeOf(i),
            crew: { power: factor ** 3 },
            path: { kind: 'out_and_back', heading_deg: 40, leg_m: 900 },
            script: [
              { do: 'rest', time_s: 20 },
              ...rates.flatMap((rate_spm) => [
                { do: 'row' as const, rate_spm, time_s: 200 },
                { do: 'rest' as const, time_s: 30 },
              ]),
            ],
            sensors: { gnss: { hz: 1, speed: true }, watch: { hz: 1, cadence: true } },
          })
        : simulateTwin({
            craft: CRAFT,
            seed: 300 + i,
            startUnixS: Date.parse(timeOf(i)) / 1000,
            receiver: { rateHz: 5 },
            imu: { rateHz: 50 },
            script: [
              { restS: 20 },
              ...rates.flatMap((rateSpm) => [
                { rowS: 200, rateSpm, speedMps: factor * speedAtRate(CRAFT, rateSpm) },
                { restS: 30 },
              ]),
            ],
          });
    const { track, imu } = simulated;
    const outing = openOuting([track!, ...(imu === null ? [] : [imu])], { craft: CRAFT });
    const made = logSummaryOf(outing);
    return { ...made, outing: { ...made.outing, ...CREW, file: `${i}` } };
  });
