import { describe, expect, it } from 'vitest';
import { type Plan, plan as planFile, planOf } from '../../src/contract/plan.js';
import type { Scenario, ScriptStep } from '../../src/contract/scenario.js';
import { workoutResult } from '../../src/contract/workout.js';
import { openOuting } from '../../src/outing/index.js';
import { simulate } from '../../src/simulate/index.js';
import type { Craft } from '../../src/units/craft.js';
import { mergedWorkout, workoutResultOf } from '../../src/workout/index.js';

const rest = (seconds: number): ScriptStep => ({ do: 'rest', time_s: seconds });
const row = (rate: number, seconds: number): ScriptStep => ({ do: 'row', rate_spm: rate, time_s: seconds });
const rowM = (rate: number, metres: number): ScriptStep => ({
  do: 'row',
  rate_spm: rate,
  distance_m: metres,
});
const warmingUp = [rest(20), row(18, 240), rest(60)];
const home = [row(18, 180), rest(20)];

const IMU: Scenario['sensors'] = { gnss: { hz: 5, speed: true }, imu: { hz: 50, clock: 'utc' } };
const WATCH: Scenario['sensors'] = { gnss: { hz: 1 }, watch: { hz: 1, cadence: true } };

const rowed = (script: ScriptStep[], plan: Plan, craft: Craft, seed: number, sensors = IMU) => {
  const { track, imu, truth } = simulate({
    craft,
    seed,
    path: { kind: 'out_and_back', heading_deg: 40, leg_m: 2500 },
    script,
    sensors,
  });
  const outing = openOuting([track!, ...(imu === null ? [] : [imu])], { craft, placement: 'hull' });
  return { result: workoutResultOf(outing, planOf(planFile.parse(plan))), truth };
};

/** Worst border, s, and worst rate, spm, of the steps that were rowed. */
const worst = ({ result, truth }: ReturnType<typeof rowed>) => {
  const [borders, rates]: [number[], number[]] = [[], []];
  for (const step of result.steps) {
    if (step.start_at_s === null) continue;
    const off = (fromS: number) => Math.abs(fromS - step.start_at_s!);
    const found = truth.stretches
      .filter(({ kind }) => kind === 'rowing')
      .reduce((best, stretch) => (off(stretch.fromS) < off(best.fromS) ? stretch : best));
    const marks = truth.catchMarksS.filter(
      (_, i) => truth.strokes[i]!.atS >= found.fromS && truth.strokes[i]!.atS < found.toS,
    );
    const rate = (60 * (marks.length - 1)) / (marks.at(-1)! - marks[0]!);
    borders.push(off(found.fromS), Math.abs(found.toS - step.end_at_s!));
    rates.push(Math.abs(rate - step.rate_spm!));
  }
  return { borderS: Math.max(...borders), rateSpm: Math.max(...rates) };
};

const tens: Plan = { name: 'tens', steps: [{ time: '1:00', rate: 34, rest: '1:00', repeat: 10 }] };
const pyramid: Plan = {
  name: 'pyramid',
  steps: [{ time: ['1:00', '2:00', '3:00', '4:00'], rate: [24, 22, 20, 18], rest: '1:00', and_back: true }],
};
const ladder: Plan = {
  name: 'ladder',
  steps: [{ distance: [500, 750, 1000, 1250], rate: [30, 28, 26, 24], rest: '2:00' }],
};

const each = (rate: number, seconds: number, restS: number, times: number): ScriptStep => ({
  do: 'repeat',
  times,
  script: [row(rate, seconds), rest(restS)],
});

const CASES: readonly [string, Plan, ScriptStep[], string][] = [
  [
    'ten times a minute, the fourth sat out and the seventh cut short',
    tens,
    [
      ...warmingUp,
      each(34, 60, 60, 3),
      rest(120),
      each(34, 60, 60, 2),
      each(34, 38, 82, 1),
      each(34, 60, 60, 3),
    ],
    'rowed rowed rowed missed rowed rowed short rowed rowed rowed',
  ],
  [
    '1-2-3-4-3-2-1 minutes, the four cut short and the second two left out',
    pyramid,
    [
      ...warmingUp,
      ...[row(24, 60), rest(60), row(22, 120), rest(60), row(20, 180), rest(60), row(18, 150), rest(60)],
      ...[row(20, 180), rest(60), row(24, 60), rest(60)],
    ],
    'rowed rowed rowed short rowed missed rowed',
  ],
  [
    'a ladder of distances, the second rung left out and the last cut short',
    ladder,
    [...warmingUp, rowM(30, 500), rest(120), rowM(26, 1000), rest(120), rowM(24, 800), rest(120)],
    'rowed missed rowed short',
  ],
  [
    'a ladder without rests, its third rung cut short and the last left out',
    { name: 'unbroken', steps: [{ time: ['4:00', '3:00', '2:00', '1:00'], rate: [18, 20, 22, 24] }] },
    [rest(20), row(18, 240), row(20, 180), row(22, 70), rest(100)],
    'rowed rowed short missed',
  ],
  [
    'a pyramid without rests, the four cut short and the second two left out',
    { name: 'unbroken pyramid', steps: [{ ...pyramid.steps[0]!, rest: undefined }] },
    [
      ...warmingUp,
      ...[row(24, 60), row(22, 120), row(20, 180), row(18, 150), row(20, 180), row(24, 60), rest(60)],
    ],
    'rowed rowed rowed short rowed missed rowed',
  ],
  [
    'one more than asked, at late starts and long rests',
    { name: 'three', steps: [{ time: '2:00', rate: 28, rest: '1:00', repeat: 3 }] },
    [...warmingUp, rest(200), each(28, 120, 95, 4)],
    'rowed rowed rowed extra',
  ],
];

describe.each(CASES)('%s', (_, plan, script, wanted) => {
  it.each([
    ['1x', 1],
    ['8+', 3],
  ] as const)(
    'is told rightly of a %s with an IMU, rates within 0.3 spm and borders within 3 s',
    (craft, seed) => {
      const found = rowed([...script, ...home], plan, craft, seed);
      expect(found.result.steps.map(({ outcome }) => outcome).join(' ')).toBe(wanted);
      const { borderS, rateSpm } = worst(found);
      expect(borderS).toBeLessThan(3);
      expect(rateSpm).toBeLessThan(0.3);
      expect(workoutResult.parse(found.result).summary.asked_count).toBe(
        wanted.split(' ').filter((outcome) => outcome !== 'extra').length,
      );
    },
  );

  it('is told rightly from ten watches at 1 Hz with whole numbers of cadence, rates within 0.3 spm and borders within 3 s, or 4 s where nobody rested', () => {
    for (let seed = 1; seed <= 10; seed++) {
      const craft = (['1x', '2x', '4x', '8+', '2-', '4-'] as const)[seed % 6]!;
      const found = rowed([...script, ...home], plan, craft, seed, WATCH);
      expect(found.result.steps.map(({ outcome }) => outcome).join(' '), `seed ${seed}`).toBe(wanted);
      const { borderS, rateSpm } = worst(found);
      expect(rateSpm, `seed ${seed}`).toBeLessThan(0.3);
      // A watch's cadence is a mean over strokes that are over: its steps are told to a stroke or so.
      expect(borderS, `seed ${seed}`).toBeLessThan(plan.steps[0]!.rest === undefined ? 4 : 3);
    }
  });
});

describe('a workout', () => {
  it('tells the share of strokes at the rate and the time to it', () => {
    const steps: Plan = {
      name: 'rates',
      steps: [
        { time: '2:00', rate: 24 },
        { time: '2:00', rate: 30 },
      ],
    };
    const { result } = rowed(
      [
        rest(20),
        row(24, 120),
        rest(60),
        { do: 'row', rate_spm: 24, to_rate_spm: 30, time_s: 60 },
        row(30, 60),
        rest(30),
      ],
      steps,
      '4x',
      5,
    );
    const [first, second] = result.steps;
    expect(first!.within_rate_pct).toBeGreaterThan(95);
    expect(first!.time_to_rate_s).toBeLessThan(5);
    expect(second!.within_rate_pct).toBeGreaterThan(45);
    expect(second!.within_rate_pct).toBeLessThan(75);
    expect(second!.time_to_rate_s).toBeGreaterThan(35);
    expect(second!.time_to_rate_s).toBeLessThan(65);
  });

  it('of several boats is told boat by boat, sums together', () => {
    const script = [...warmingUp, each(34, 60, 60, 10), ...home];
    const [one, two] = [6, 7].map((seed) => rowed(script, tens, '2x', seed, WATCH).result) as [
      ReturnType<typeof workoutResultOf>,
      ReturnType<typeof workoutResultOf>,
    ];
    expect(mergedWorkout(one, [two]).summary).toEqual({
      asked_count: 20,
      rowed_count: 20,
      off_rate_count: 0,
      off_split_count: 0,
      short_count: 0,
      missed_count: 0,
      unknown_count: 0,
      extra_count: 0,
    });
  });

  it('that was not rowed at all is missed step by step', () => {
    const { result } = rowed([rest(20), row(18, 300), rest(20)], tens, '2x', 8, WATCH);
    expect(result.summary).toMatchObject({ asked_count: 10, missed_count: 10, rowed_count: 0 });
    expect(result.warnings.at(-1)!.message).toMatch(/No step of the plan was found; .*\(5:0\d at 18 spm\)/);
  });
});
