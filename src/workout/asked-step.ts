import type { Plan, PlanStep } from '../contract/plan.js';
import { andBack, rungsOf } from '../contract/plan-in-text.js';
import { parseClock } from '../units/clock-time.js';
import { UserError } from '../units/user-error.js';

/** One work step of a plan, expanded. */
export interface AskedStep {
  /** Number, from 1. */
  readonly step: number;
  readonly askedS: number | null;
  readonly askedM: number | null;
  readonly rateFromSpm: number | null;
  readonly rateToSpm: number | null;
  readonly splitS: number | null;
  /** Rest after it, s; 0 where none was asked for. */
  readonly restS: number;
}

type Unnumbered = Omit<AskedStep, 'step'>;

const seconds = (text: string | undefined): number | null => (text === undefined ? null : parseClock(text));

const rungsAsked = (step: PlanStep): Unnumbered[] =>
  rungsOf(step).map(({ time, distance, rate }) => {
    const [from, to] = typeof rate === 'object' ? rate : [rate, rate];
    return {
      askedS: seconds(time),
      askedM: distance ?? null,
      rateFromSpm: from ?? null,
      rateToSpm: to ?? null,
      splitS: seconds(step.split),
      restS: seconds(step.rest) ?? 0,
    };
  });

const roundOf = (step: PlanStep): Unnumbered[] => {
  const sets = step.steps === undefined ? rungsAsked(step).map((rung) => [rung]) : step.steps.map(expanded);
  const round = (step.and_back === true ? andBack(sets) : sets).flat();
  const restS = step.steps === undefined ? 0 : (seconds(step.rest) ?? 0);
  const last = round.at(-1);
  if (last !== undefined) round[round.length - 1] = { ...last, restS: Math.max(last.restS, restS) };
  return round;
};

const expanded = (step: PlanStep): Unnumbered[] =>
  Array.from({ length: step.repeat ?? 1 }, () => roundOf(step)).flat();

/** Most work steps of a plan once its repeats are written out: a day of half minutes has fewer. */
const MOST_STEPS = 2000;

/** How many work steps a step stands for, without writing them out. */
const countOf = (step: PlanStep): number => {
  const once =
    step.steps === undefined ? rungsOf(step).length : step.steps.reduce((sum, one) => sum + countOf(one), 0);
  return (step.repeat ?? 1) * (step.and_back === true ? 2 * once : once);
};

/**
 * Every work step of a plan in order. A rest follows each rung and each repeat; the rest of a set follows each
 * round of it, where it is longer than that of the round's last step.
 */
export const askedSteps = (plan: Plan): readonly AskedStep[] => {
  const count = plan.steps.reduce((sum, step) => sum + countOf(step), 0);
  if (count > MOST_STEPS)
    throw new UserError(
      `the plan${plan.name === undefined ? '' : ` "${plan.name}"`} has ${count} steps once its repeats are written out, and at most ${MOST_STEPS} can be matched: give a smaller repeat`,
    );
  return plan.steps.flatMap(expanded).map((step, i) => ({ step: i + 1, ...step }));
};
