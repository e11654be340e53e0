import { describe, expect, it } from 'vitest';
import { openOuting } from '../../src/outing/index.js';
import { makeRecording, type Recording } from '../../src/recording/index.js';
import { type LogSummary, logSummaryOf, type SeasonAsk, seasonOf } from '../../src/season/index.js';
import { simulate } from '../../src/simulate/index.js';
import { speedAtRate } from '../simulator/craft-shape.js';
import { simulateTwin } from '../simulator/twin.js';

const ASK: SeasonAsk = {
  ...{ zone: 'UTC', since: null, until: null, seasonFrom: null, sport: 'boats' },
  ...{ groupBy: null, last: null, zonesBpm: null },
};

const SESSION = [
  [18, 240],
  [24, 120],
  [28, 90],
  [20, 150],
] as const;

const logOf = (
  recording: Recording,
  file: string,
  sport: string | null = null,
  startUnixS = recording.startUnixS,
): LogSummary => {
  const { channels, provenance } = recording;
  return logSummaryOf(
    openOuting(
      [makeRecording({ provenance: { ...provenance, file, sport }, originUnixS: startUnixS, channels })],
      { craft: '2x', placement: 'hull' },
    ),
  );
};

/** An outing of each simulator: its track, and the accelerometer's log of the same moments. */
const outings = [
  simulate({
    craft: '2x',
    seed: 21,
    start_time: '2026-04-07T06:30:00Z',
    path: { kind: 'out_and_back', heading_deg: 40, leg_m: 1500 },
    script: [
      { do: 'rest', time_s: 30 },
      ...SESSION.flatMap(([rate_spm, time_s]) => [
        { do: 'row' as const, rate_spm, time_s },
        { do: 'rest' as const, time_s: 40 + rate_spm },
      ]),
    ],
    sensors: { gnss: { hz: 1, speed: true }, watch: { hz: 1, cadence: true }, imu: { hz: 50, clock: 'utc' } },
  }),
  simulateTwin({
    craft: '2x',
    seed: 22,
    startUnixS: Date.parse('2026-04-08T06:30:00Z') / 1000,
    receiver: { rateHz: 5 },
    imu: { rateHz: 50 },
    script: [
      { restS: 30 },
      ...SESSION.flatMap(([rateSpm, rowS]) => [
        { rowS, rateSpm, speedMps: speedAtRate('2x', rateSpm) },
        { restS: 40 + rateSpm },
      ]),
    ],
  }),
];

const PILE = outings.flatMap(({ track, imu }, i) => [
  logOf(track!, `${i}-track`),
  logOf(imu!, `${i}-box-of-another-name`),
  logOf(imu!, `${i}-box-without-a-clock`, null, null),
  logOf(track!, `${i}-copy`),
]);
const OTHERS = [
  logOf(outings[0]!.track!, 'run', 'running', Date.parse('2026-04-09T17:00:00Z') / 1000),
  logOf(outings[0]!.track!, 'ride', 'Biking', Date.parse('2026-04-10T17:00:00Z') / 1000),
];

describe('a pile of logs with doubles and other sports', () => {
  const alone = seasonOf([PILE[0]!, PILE[4]!], ASK);
  const pile = seasonOf([...PILE, ...OTHERS], ASK);

  it('adds up to the outings that there were, exactly', () => {
    expect(pile.totals).toEqual(alone.totals);
    expect(pile.totals.outing_count).toBe(2);
    expect(pile.weeks).toEqual(alone.weeks);
    const times = ({ bests }: typeof pile) => bests.map(({ duration_s, kind }) => [kind, duration_s]);
    expect(times(pile)).toEqual(times(alone));
  }, 60_000);

  it('lists what is not counted, and why', () => {
    const why = new Map(pile.outings.map(({ file, kept_out }) => [file, kept_out]));
    expect(why.size).toBe(10);
    for (const i of [0, 1]) {
      expect(
        [...why].filter(([file, kept_out]) => file.startsWith(`${i}-`) && kept_out === null),
      ).toHaveLength(1);
      expect(why.get(`${i}-box-of-another-name`)).toBe('same_outing');
      expect(why.get(`${i}-box-without-a-clock`)).toBe('same_outing');
    }
    expect(why.get('run')).toBe('other_sport');
    expect(why.get('ride')).toBe('other_sport');
  });

  it('says other sports once, and counts them where that is asked', () => {
    const said = pile.warnings.filter(({ code }) => code === 'other-sport');
    expect(said).toHaveLength(1);
    expect(said[0]!.message).toMatch(
      /^2 logs are of no crew .*run \(it calls itself running\), ride \(it calls itself Biking\)/,
    );
    const any = seasonOf([...PILE, ...OTHERS], { ...ASK, sport: 'any' });
    expect(any.totals.outing_count).toBe(4);
    expect(any.totals.distance_m).toBeCloseTo(
      pile.totals.distance_m + OTHERS.reduce((sum, { outing }) => sum + outing.distance_m!, 0),
      6,
    );
  });

  it('leaves out a log without a clock that lies on none, and says so', () => {
    const other = { ...PILE[6]!, rates: [...PILE[6]!.rates].reverse() };
    const lone = seasonOf([PILE[0]!, other], ASK);
    expect(lone.totals.outing_count).toBe(1);
    expect(lone.outings.map(({ kept_out }) => kept_out).sort()).toEqual(['no_clock', null].sort());
    expect(lone.warnings.map(({ code }) => code)).toContain('no-clock');
  });

  it('keeps two crews apart that rowed the same session at the same time', () => {
    const [first, second] = [PILE[0]!, PILE[4]!];
    const other = {
      ...second,
      minutes: [],
      outing: { ...second.outing, start_time: first.outing.start_time },
    };
    const told = (summary: LogSummary, crew: string): LogSummary => ({
      ...summary,
      givenCrew: crew,
      outing: { ...summary.outing, crew },
    });
    expect(seasonOf([told(first, 'Heron'), told(other, 'Coot')], ASK).totals.outing_count).toBe(2);
  });
});
