import { formatClock, parseClock } from '../units/clock-time.js';
import type { PlanStep } from './plan.js';

type Rate = number | readonly [number, number] | undefined;

const rateText = (rate: Rate): string =>
  rate === undefined ? '' : ` @ ${typeof rate === 'number' ? rate : rate.join('-')}`;

/** A length of time; seconds alone, as a plan file may have them, are nothing that a text takes. */
const timeText = (time: string): string =>
  /^\d+(\.\d+)?$/.test(time.trim()) ? `${time.trim()}s` : time.trim();

const lengthText = (time: string | undefined, distance: number | undefined): string =>
  time === undefined ? `${distance}m` : timeText(time);

const restText = (rest: string | undefined): string => (rest === undefined ? '' : ` / ${timeText(rest)}`);

const splitText = (split: string | undefined): string => {
  if (split === undefined) return '';
  return ` @ ${/^\d+:\d{2}(\.\d+)?$/.test(split.trim()) ? split.trim() : formatClock(parseClock(split)!, 1)}`;
};

const timesText = ({ repeat }: PlanStep): string =>
  repeat === undefined || repeat === 1 ? '' : `${repeat} x `;

/** Up a list and down again, its top once. */
export const andBack = <Item>(items: readonly Item[]): Item[] => [...items, ...items.slice(0, -1).reverse()];

/** One rung of a ladder: a length, and its rate. */
export interface Rung {
  readonly time: string | undefined;
  readonly distance: number | undefined;
  readonly rate: Rate;
}

/** The rungs of a step that has no steps of its own, up only; one where it is no ladder. */
export const rungsOf = ({ time, distance, rate }: PlanStep): readonly Rung[] => {
  const lengths = time ?? distance;
  const ladder = Array.isArray(lengths) ? lengths.length : 0;
  const rates = Array.isArray(rate) ? rate : [];
  const isSpan = ladder === 0 && rates.length === 2 && rates.every((each) => typeof each === 'number');
  const count = Math.max(ladder, isSpan ? 1 : rates.length, 1);
  const at = <Item>(value: Item | Item[] | undefined, i: number): Item | undefined =>
    Array.isArray(value) ? value[i] : value;
  return Array.from({ length: count }, (_, i) => ({
    time: at(time, i),
    distance: at(distance, i),
    rate: isSpan ? (rates as [number, number]) : rates.length > 0 ? rates[i] : (rate as number | undefined),
  }));
};

const setText = (items: readonly string[], step: PlanStep, rest: string | undefined): string =>
  (step.repeat ?? 1) === 1 && rest === undefined
    ? items.join(', ')
    : `${timesText(step)}(${items.join(', ')})${restText(rest)}`;

const stepText = (step: PlanStep): string => {
  if (step.steps !== undefined) {
    const steps = step.and_back === true ? andBack(step.steps) : step.steps;
    return setText(steps.map(stepText), step, step.rest);
  }
  const rungs = step.and_back === true ? andBack(rungsOf(step)) : rungsOf(step);
  const items = rungs.map(
    ({ time, distance, rate }) =>
      `${lengthText(time, distance)}${rateText(rate)}${splitText(step.split)}${restText(step.rest)}`,
  );
  return items.length === 1 ? `${timesText(step)}${items[0]}` : setText(items, step, undefined);
};

/**
 * A plan as it stands on a whiteboard; read again it asks for the same.
 * @example planInText([{ time: '2:00', rate: [27, 29], rest: '0:40', repeat: 6 }]) // '6 x 2:00 @ 27-29 / 0:40'
 */
export const planInText = (steps: readonly PlanStep[]): string => steps.map(stepText).join(', ');
