import type { Scenario } from '../../src/contract/scenario.js';
import { openOuting } from '../../src/outing/index.js';
import { type LogSummary, logSummaryOf, seasonOf } from '../../src/season/index.js';
import { simulate } from '../../src/simulate/index.js';
import type { BoatTruth } from '../../src/simulate/truth.js';

const rest = (time_s: number) => ({ do: 'rest' as const, time_s });
const row = (rate_spm: number, time_s: number) => ({ do: 'row' as const, rate_spm, time_s });

const SCRIPTS: readonly Scenario['script'][] = [
  [rest(20), row(18, 560), rest(40), row(20, 560), rest(20)],
  [rest(20), row(19, 120), rest(60), { do: 'start', rate_spm: 33, high_spm: 40, distance_m: 2000 }, rest(40)],
  [rest(20), row(22, 600), rest(60), row(24, 480), rest(20)],
];

const scenario = (script: Scenario['script'], seed: number): Scenario => ({
  craft: '4x',
  seed,
  start_time: `2026-03-${String((seed % 20) + 1).padStart(2, '0')}T07:00:00Z`,
  origin: { lat_deg: 31.5, lon_deg: -37.25 },
  path: { kind: 'out_and_back', heading_deg: (seed * 37) % 360, leg_m: 3000 },
  script,
  sensors: {
    gnss: { hz: 1, position_sd_m: 2, correlation_s: 60, white_sd_m: 0.3, speed: true, speed_sd_mps: 0.06 },
    watch: { hz: 1, cadence: true },
  },
});

/** How long the hull runs on after the last stroke, s: the fastest 2000 m may end in it. */
const RUN_S = 8;

/** Shortest time over a length on the true path, s: within one stretch of rowing and the run after it. */
const trueBest = ({ alongM, stepS, stretches }: BoatTruth, metres: number): number => {
  let best = Number.POSITIVE_INFINITY;
  for (const { kind, fromS, toS } of stretches) {
    if (kind !== 'rowing') continue;
    const last = Math.min(alongM.length - 1, Math.floor((toS + RUN_S) / stepS));
    for (let from = Math.ceil(fromS / stepS), to = from; from < last; from++) {
      while (to < last && alongM[to]! - alongM[from]! < metres) to++;
      const over = alongM[to]! - alongM[from]! - metres;
      if (over < 0) break;
      const short = over / (alongM[to]! - alongM[to - 1]!);
      best = Math.min(best, (to - short - from) * stepS);
    }
  }
  return best;
};

/** The best 2000 m of one simulated season, as reported and as it was. */
export const seasonBest2000 = (
  seed: number,
): { readonly reportedS: number; readonly sdS: number; readonly trueS: number } => {
  const outings = SCRIPTS.map((script, i) => simulate(scenario(script, 1000 * seed + i)));
  const summaries: LogSummary[] = outings.map(({ track }) =>
    logSummaryOf(openOuting([track!], { craft: '4x' })),
  );
  const season = seasonOf(summaries, {
    zone: 'UTC',
    since: null,
    until: null,
    seasonFrom: null,
    sport: 'boats',
    groupBy: null,
    last: null,
    zonesBpm: null,
  });
  const best = season.bests.find(({ kind, asked_m }) => kind === 'stretch' && asked_m === 2000)!;
  return {
    reportedS: best.duration_s,
    sdS: best.duration_sd_s!,
    trueS: Math.min(...outings.map(({ truth }) => trueBest(truth, 2000))),
  };
};
