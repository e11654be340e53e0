import { describe, expect, it } from 'vitest';
import { planOfSteps } from '../../src/contract/plan.js';
import { parsePlanText } from '../../src/contract/plan-text.js';
import { openOuting } from '../../src/outing/index.js';
import { workoutView } from '../../src/report/workout.js';
import { simulate } from '../../src/simulate/index.js';
import { workoutResultOf } from '../../src/workout/index.js';
import { speedAtRate } from '../simulator/craft-shape.js';
import { simulateTwin } from '../simulator/twin.js';

const CRAFT = '2x';

/** Four pieces at 28, as each simulator makes them: seconds or metres of them. */
const outings = (rowS: number, logged: { readonly rates: boolean } = { rates: true }) => {
  const mps = speedAtRate(CRAFT, 28);
  return [
    simulate({
      craft: CRAFT,
      seed: 4,
      script: [
        { do: 'rest', time_s: 30 },
        {
          do: 'repeat',
          times: 4,
          script: [
            { do: 'row', rate_spm: 28, time_s: rowS },
            { do: 'rest', time_s: 60 },
          ],
        },
      ],
      sensors: logged.rates
        ? { gnss: { hz: 5, speed: true }, imu: { hz: 50, clock: 'utc' } }
        : { gnss: { hz: 1, speed: true } },
    }),
    simulateTwin({
      craft: CRAFT,
      seed: 5,
      receiver: { rateHz: logged.rates ? 5 : 1 },
      imu: logged.rates ? {} : null,
      script: [
        { restS: 30 },
        ...Array.from({ length: 4 }, () => [{ rowS, rateSpm: 28, speedMps: mps }, { restS: 60 }]).flat(),
      ],
    }),
  ].map(({ track, imu }) =>
    openOuting([track!, ...(imu === null ? [] : [imu])], { craft: CRAFT, placement: 'hull' }),
  );
};

const plan = (text: string) => planOfSteps(parsePlanText(text, 'the plan'));
const READING = { speed: null, zone: 'UTC', plain: true, bold: false, width: 80 } as const;

const judged = (outing: ReturnType<typeof outings>[number], text: string) => {
  const result = workoutResultOf(outing, plan(text));
  const notes = workoutView.sections(result, READING).flatMap((section) => section.notes);
  return { result, said: notes.at(-1)! };
};

describe.each(
  outings(120).map((outing, i) => [i === 0 ? 'this simulator' : 'the other simulator', outing] as const),
)('a step is judged by all that was asked of it: %s', (_, outing) => {
  it('rate', () => {
    for (const [rate, word] of [
      ['28', 'rowed'],
      ['27-29', 'rowed'],
      ['24', 'off_rate'],
      ['33', 'off_rate'],
      ['30-32', 'off_rate'],
    ] as const) {
      const { result, said } = judged(outing, `4 x 2:00 @ ${rate} / 1:00`);
      expect(result.steps.map(({ outcome }) => outcome)).toEqual(Array(4).fill(word));
      expect(said).toBe(word === 'rowed' ? '4 of 4 as asked.' : '0 of 4 as asked, 4 off rate (1, 2, 3, 4).');
    }
  });

  it('split', () => {
    const splits = judged(outing, '4 x 2:00 @ 28 / 1:00').result.steps.map(
      ({ split_s_per_500m }) => split_s_per_500m!,
    );
    // a crew asked for its own mean holds it within the second that counts as held
    const own = (Math.max(...splits) + Math.min(...splits)) / 2;
    expect(Math.max(...splits) - Math.min(...splits)).toBeLessThan(2);
    const clock = (s: number) => `${Math.floor(s / 60)}:${(s % 60).toFixed(1).padStart(4, '0')}`;
    for (const [off, word] of [
      [0, 'rowed'],
      [-4, 'off_split'],
      [4, 'off_split'],
    ] as const) {
      const { result } = judged(outing, `4 x 2:00 @ 28 @ ${clock(own + off)} / 1:00`);
      expect(result.steps.map(({ outcome }) => outcome)).toEqual(Array(4).fill(word));
    }
  });

  it('length', () => {
    const { result, said } = judged(outing, '4 x 2:30 @ 28 / 1:00');
    expect(result.summary).toMatchObject({ short_count: 4, rowed_count: 0 });
    expect(said).not.toMatch(/[1-4] of 4 as asked/);
  });

  it('and a step by distance is timed over it', () => {
    const { result } = judged(outing, '4 x 500m @ 28 / 1:00');
    for (const step of result.steps) {
      expect(step.distance_m).toBeCloseTo(500, 0);
      expect(step.duration_s).toBeLessThan(118);
      expect(step.outcome).toBe('rowed');
    }
  });
});

describe('what the log cannot tell', () => {
  it.each(outings(120, { rates: false }).map((outing) => [outing]))(
    'is not known: a rate asked of a log without any',
    (outing) => {
      expect(outing.strokes.source).toBeNull();
      const { result, said } = judged(outing, '4 x 2:00 @ 28 / 1:00');
      expect(result.steps.map(({ outcome }) => outcome)).toEqual([null, null, null, null]);
      expect(result.summary).toMatchObject({ rowed_count: 0, unknown_count: 4 });
      expect(said).toBe('0 of 4 as asked, 4 not known (1, 2, 3, 4).');
      expect(judged(outing, '4 x 2:00 / 1:00').said).toBe('4 of 4 as asked.');
    },
  );
});
