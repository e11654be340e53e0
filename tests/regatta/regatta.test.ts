import { describe, expect, it } from 'vitest';
import { settle } from '../../src/contract/decimals.js';
import { regattaResult } from '../../src/contract/regatta.js';
import { regattaResults } from '../../src/regatta/index.js';
import { isoTime } from '../../src/units/instant.js';
import type { Step } from '../simulator/script.js';
import { type CrewAsk, casesOf, courseOf, START_UNIX_S, trueCrossingS } from './simulated-regatta.js';

const course = courseOf(600);
const last = course.lines.length - 1;
const GUN_S = 120;
const plan = { start: 'own', intervalS: null, targets: [], against: null } as const;
const together = { ...plan, start: 'together' } as const;

const race = (speedMps: number, rowS = 150): Step[] => [
  { restS: GUN_S, moored: true },
  { rowS, rateSpm: 34, startSpm: 42, speedMps },
  { restS: 60 },
];

const crew = (name: string, changes: Partial<CrewAsk> = {}): CrewAsk => ({
  crew: name,
  craft: '2x',
  seed: name.length * 31 + name.charCodeAt(0),
  script: race(4.6),
  bowAlongM: -0.1,
  bowRightM: 0,
  bowOffsetM: 5,
  cells: { bow_offset_m: '5' },
  ...changes,
});

const row = (results: ReturnType<typeof regattaResults>, name: string) =>
  results.results.find((candidate) => candidate.crew === name)!;

describe('a sprint regatta', () => {
  /** Rows down to the finish, turns, paddles back to the start, then races. */
  const warmUp: Step[] = [
    { restS: 5, moored: true },
    { rowS: 170, rateSpm: 24, speedMps: 4 },
    { restS: 40, turnDeg: 180 },
    { rowS: 196, rateSpm: 20, speedMps: 3.5 },
    { restS: 40, turnDeg: 180 },
    { restS: 60, moored: true },
    { rowS: 150, rateSpm: 34, startSpm: 40, speedMps: 4.55 },
    { restS: 40 },
  ];
  /** Goes too early, is called back, backs down, starts again. */
  const falseStart: Step[] = [
    { restS: 60, moored: true },
    { rowS: 12, rateSpm: 36, speedMps: 4 },
    { restS: 8, holdWater: true },
    { rowS: 45, rateSpm: 20, drill: 'back' },
    { restS: 6, holdWater: true },
    { restS: 60, moored: true },
    { rowS: 150, rateSpm: 34, startSpm: 42, speedMps: 4.7 },
    { restS: 40 },
  ];
  const sum = (steps: readonly Step[], count: number): number =>
    steps.slice(0, count).reduce((total, step) => total + ('rowS' in step ? step.rowS : step.restS), 0);
  const crews = [
    crew('Alder', { script: race(4.72), bowRightM: -30 }),
    crew('Birch', { script: race(4.5), bowRightM: -15 }),
    crew('Cedar', { script: race(4.6), cells: { bow_offset_m: '5', penalty_s: '10' } }),
    crew('Elder', { script: race(4.7, 60), bowRightM: 15 }),
    crew('Hazel', { script: [{ restS: 300, moored: true }], bowRightM: 30 }),
  ];
  const { cases, twins } = casesOf(crews, course);
  const results = regattaResults(cases, course, together, []);
  const truth = (name: string): number => {
    const i = crews.findIndex((candidate) => candidate.crew === name);
    return trueCrossingS(twins[i]!, course, last, crews[i]!.bowOffsetM) - twins[i]!.truth.catchMarksS[0]!;
  };

  it('finds the common start and times crews from it', () => {
    for (const name of ['Alder', 'Birch', 'Cedar']) {
      const found = row(results, name);
      expect(found.start_by).toBe('together');
      expect(Math.abs(found.duration_s! - truth(name))).toBeLessThan(0.6);
      expect(found.duration_sd_s!).toBeGreaterThan(0.05);
    }
  });

  it('puts penalties on the result and not on the time', () => {
    const cedar = row(results, 'Cedar');
    expect(cedar.result_s).toBeCloseTo(cedar.duration_s! + 10, 9);
    expect(results.results.map(({ crew, place }) => [crew, place])).toEqual([
      ['Alder', 1],
      ['Birch', 2],
      ['Cedar', 3],
      ['Elder', null],
      ['Hazel', null],
    ]);
    expect(row(results, 'Birch').marks.map(({ place }) => place)).toEqual([3, 3]);
  });

  it('tells who did not finish and who did not start', () => {
    expect(row(results, 'Elder').outcome).toBe('not_finished');
    expect(row(results, 'Hazel').outcome).toBe('not_started');
    expect(results.warnings.map(({ code }) => code)).toContain('no-finish');
  });

  it('gives margins in seconds and in lengths at the own speed', () => {
    const birch = row(results, 'Birch');
    expect(birch.margin_ahead_s).toBeCloseTo(birch.duration_s! - row(results, 'Alder').duration_s!, 9);
    expect(birch.margin_ahead_lengths! / ((birch.margin_ahead_s! * 4.5) / 10.4)).toBeCloseTo(1, 1);
    expect(birch.separable).toBe(true);
  });

  it('has sections and parts that add up', () => {
    const { marks, parts, duration_s } = row(results, 'Alder');
    const total = (seconds: readonly (number | null)[]) => seconds.reduce<number>((all, s) => all + s!, 0);
    expect(total(marks.map(({ section_s }) => section_s))).toBeCloseTo(duration_s!, 9);
    expect(total(parts.map((part) => part.duration_s))).toBeCloseTo(duration_s!, 9);
    expect(parts).toHaveLength(5);
    expect(marks.map(({ along_m }) => along_m)).toEqual([500, course.lengthM]);
  });

  it('points out a time by hand that no watch can have taken, and leaves a fair one alone', () => {
    const handed = (seconds: number, name: string) =>
      regattaResults(
        cases.map((one) =>
          one.entry.crew === name ? { ...one, entry: { ...one.entry, officialS: seconds } } : one,
        ),
        course,
        together,
        [],
      ).warnings.filter(({ code }) => code === 'hand-time-apart');
    expect(handed(truth('Birch') + 0.6, 'Birch')).toEqual([]);
    // With the penalty of 10 s on it, as a jury writes it.
    expect(handed(truth('Cedar') + 10, 'Cedar')).toEqual([]);
    const [apart, ...more] = handed(truth('Birch') + 10, 'Birch');
    expect(more).toEqual([]);
    expect(apart!.message).toMatch(
      /^the time by hand of "Birch", 2:\d\d\.\d, is (9|10)\.\d s longer than that of its log, 2:\d\d\.\d ±0\.\d: check official_s/,
    );
  });

  it('stands in its schema', () => {
    expect(regattaResult.safeParse(settle(results)).error?.issues).toBeUndefined();
  });

  it('takes the race and not the warm-up past the finish', () => {
    const asked = [crew('Maple', { script: warmUp, bowAlongM: -20 })];
    const made = casesOf(asked, course);
    const starts = sum(warmUp, 6);
    const own = row(regattaResults(made.cases, course, plan, []), 'Maple');
    const given = regattaResults(
      made.cases.map((one) => ({ ...one, entry: { ...one.entry, startUnixS: START_UNIX_S + starts } })),
      course,
      plan,
      [],
    );
    const finish = trueCrossingS(made.twins[0]!, course, last, 5);
    expect(finish).toBeGreaterThan(starts + 100);
    for (const found of [own, row(given, 'Maple')])
      expect(Math.abs(Date.parse(found.finish_time!) / 1000 - START_UNIX_S - finish)).toBeLessThan(0.5);
    expect(row(given, 'Maple').start_by).toBe('given');
    expect(row(given, 'Maple').duration_s!).toBeCloseTo(finish - starts, 0);
  });

  it('takes the second start after a false one', () => {
    const asked = [crew('Rowan', { script: falseStart })];
    const made = casesOf(asked, course);
    const found = row(regattaResults(made.cases, course, plan, []), 'Rowan');
    const startedAt = Date.parse(found.start_time!) / 1000 - START_UNIX_S;
    expect(startedAt).toBeGreaterThan(sum(falseStart, 6) - 1);
    expect(startedAt).toBeLessThan(sum(falseStart, 6) + 6);
    expect(found.outcome).toBe('finished');
  });

  it('says nothing of a finish that its log was cut off before', () => {
    const [one] = casesOf(
      [
        crew('Aspen', {
          script: race(4.6)
            .slice(0, 2)
            .map((s) => ('rowS' in s ? { ...s, rowS: 90 } : s)),
        }),
      ],
      course,
    ).cases;
    const found = regattaResults([one!], course, { ...plan }, []);
    expect(row(found, 'Aspen').outcome).toBeNull();
    expect(found.warnings.map(({ code }) => code)).toContain('finish-not-logged');
    expect(found.warnings.find(({ code }) => code === 'finish-not-logged')!.message).toMatch(
      /ends \d{3} m along the course at [345]\.\d m\/s/,
    );
  });

  it('refuses a start that is after the finish', () => {
    const late = { ...cases[0]!, entry: { ...cases[0]!.entry, startUnixS: START_UNIX_S + 7200 } };
    expect(() => regattaResults([late], course, plan, [])).toThrow(
      /line 2, column start_time: the start of "Alder" at .* is after its finish at .* correct the time or its offset/,
    );
  });

  it('counts time from intervals, by crew number', () => {
    const numbered = cases.slice(0, 3).map((one, i) => ({
      ...one,
      entry: {
        ...one.entry,
        crewNumber: String(3 - i),
        startUnixS: i === 2 ? START_UNIX_S + GUN_S - 40 : null,
      },
    }));
    const found = regattaResults(numbered, course, { ...plan, intervalS: 20 }, []);
    const starts = ['Cedar', 'Birch', 'Alder'].map((name) => row(found, name).start_time);
    expect(starts).toEqual([80, 100, 120].map((at) => isoTime(START_UNIX_S + at)));
    expect(row(found, 'Cedar').start_by).toBe('interval');
    expect(found.warnings.filter(({ code }) => code === 'start-apart').map(({ message }) => message)).toEqual(
      [expect.stringMatching(/"Cedar" started 40\.\d s after/)],
    );
  });

  it('compares with one crew', () => {
    const { gaps } = regattaResults(cases, course, { ...together, against: 'alder' }, []);
    expect(gaps.map(({ crew }) => crew)).toEqual(['Birch', 'Cedar', 'Elder', 'Hazel']);
    const finish = gaps[0]!.marks.at(-1)!;
    expect(finish.gap_s).toBeCloseTo(row(results, 'Birch').margin_ahead_s!, 9);
    expect(finish.gap_sd_s!).toBeGreaterThan(0.02);
    expect(() => regattaResults(cases, course, { ...plan, against: 'Aldr' }, [])).toThrow(
      /no crew is called "Aldr"; did you mean "Alder"/,
    );
  });

  it('lists an excluded crew without a place', () => {
    const excluded = cases.map((one, i) =>
      i === 0 ? { ...one, entry: { ...one.entry, excluded: true } } : one,
    );
    const found = regattaResults(excluded, course, together, []);
    expect(row(found, 'Alder')).toMatchObject({ outcome: 'excluded', place: null, margin_winner_s: null });
    expect(row(found, 'Alder').duration_s).not.toBeNull();
    expect(row(found, 'Birch').place).toBe(1);
  });

  it('ranks by the bow ball: a longer boat whose antenna is behind may be ahead', () => {
    const asked = [
      crew('Short', { seed: 4, bowOffsetM: 1, bowAlongM: -0.1, cells: { bow_offset_m: '1' } }),
      crew('Long', { seed: 4, bowOffsetM: 9, bowAlongM: 3.5, cells: { bow_offset_m: '9' } }),
    ];
    const gun = { startUnixS: START_UNIX_S + GUN_S };
    const made = casesOf(asked, course).cases.map((one) => ({ ...one, entry: { ...one.entry, ...gun } }));
    const byBow = regattaResults(made, course, plan, []);
    expect(byBow.results.map(({ crew }) => crew)).toEqual(['Long', 'Short']);
    expect(row(byBow, 'Short').margin_ahead_s! * 4.6).toBeCloseTo(3.6, 0);
  });

  it('widens the uncertainty where the bow offset is not told', () => {
    const bare = casesOf([crew('Alder', { script: race(4.72), cells: {} })], course).cases;
    const gun = { startUnixS: START_UNIX_S + GUN_S };
    const [told, assumed] = [cases[0]!, bare[0]!].map((one) =>
      regattaResults([{ ...one, entry: { ...one.entry, ...gun } }], course, plan, []),
    );
    expect(assumed!.results[0]!.duration_sd_s! / told!.results[0]!.duration_sd_s!).toBeGreaterThan(1.5);
    expect(assumed!.warnings.map(({ code }) => code)).toContain('bow-offset-assumed');
  });
});
