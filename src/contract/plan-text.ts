import { parseClock } from '../units/clock-time.js';
import { UserError } from '../units/user-error.js';
import type { PlanStep } from './plan.js';

/** Something in a plan's text that cannot be read, and where it stands. */
export interface PlanTextFault {
  readonly what: string;
  /** Place in the text, from 0, and how many characters are wrong. */
  readonly at: number;
  readonly length: number;
}

/** What a plan's text may ask for; the same bounds as in a plan file. */
const BOUNDS = Object.freeze({
  /** Rates, spm. */
  leastSpm: 5,
  mostSpm: 200,
  /** Distances, m. */
  leastM: 10,
  mostM: 100_000,
  /** How often a step may be repeated. */
  mostTimes: 100,
  /** Sets within sets. */
  deepest: 10,
});

const TIME = /\d+:\d{2}(?::\d{2})?(?:\.\d+)?|\d+(?:\.\d+)?\s*(?:s|sec|min|h)(?![a-z])/iy;
const DISTANCE = /(\d+(?:\.\d+)?)\s*(m|km)(?![a-z])/iy;
const COUNT = /(\d+)\s*[x×*]/iy;
const RATE =
  /(\d+(?:\.\d+)?)(?:\s*[-–]\s*(\d+(?:\.\d+)?))?(?:\s*spm(?![a-z]))?(?![\d:.'"]|\s*(?:s|sec|min|h|m|km)(?![a-z]))/iy;
const SPLIT = /(\d+:\d{2}(?:\.\d+)?)(?:\s*\/\s*500\s*m?)?(?![\d:])/iy;
const REST = /\/|rest(?![a-z])|r(?![a-z])/iy;
const WORD = /[^\s,;()@/]+/y;

const seconds = (text: string): number | null => parseClock(text.replace(/\s*sec$/i, 's').toLowerCase());

class Fault extends Error {
  constructor(readonly fault: PlanTextFault) {
    super(fault.what);
  }
}

interface Wanted {
  readonly rate?: PlanStep['rate'];
  readonly split?: string;
}

/** Asks a step for what its set asks for, where it does not say itself. */
const wanting = (step: PlanStep, { rate, split }: Wanted): PlanStep =>
  step.steps === undefined
    ? {
        ...step,
        ...(step.rate === undefined && rate !== undefined ? { rate } : {}),
        ...(step.split === undefined && split !== undefined ? { split } : {}),
      }
    : {
        ...step,
        steps: step.steps.map((inner) =>
          wanting(inner, {
            ...(rate === undefined ? {} : { rate }),
            ...(split === undefined ? {} : { split }),
          }),
        ),
      };

const parsed = (text: string): PlanStep[] => {
  let at = 0;
  const fail = (what: string, place = at, length = wordLength(place)): never => {
    throw new Fault({ what, at: Math.min(place, text.length), length: Math.max(1, length) });
  };
  const wordLength = (place: number): number => {
    WORD.lastIndex = place;
    return WORD.exec(text)?.[0].length ?? 1;
  };
  const skip = (): void => {
    while (/[ \t\r]/.test(text.charAt(at))) at++;
  };
  const skipLines = (): void => {
    while (/\s/.test(text.charAt(at))) at++;
  };
  const came = (place = at): string => {
    WORD.lastIndex = place;
    const word = WORD.exec(text)?.[0] ?? text.charAt(place);
    return word.trim() === '' ? 'the text ends there' : `"${word}" came`;
  };
  const token = (pattern: RegExp): RegExpExecArray | null => {
    skip();
    pattern.lastIndex = at;
    const match = pattern.exec(text);
    if (match !== null) at += match[0].length;
    return match;
  };
  const within = (
    value: number,
    least: number,
    most: number,
    what: string,
    place: number,
    length: number,
  ) => {
    if (value < least || value > most)
      fail(`${what} from ${least} to ${most} is required, and ${value} came`, place, length);
    return value;
  };

  const readTime = (what: string): string => {
    skip();
    const place = at;
    const match = token(TIME);
    if (match === null) return fail(`${what} is required, and ${came()}`);
    const length = seconds(match[0]);
    if (length === null || length <= 0)
      return fail(`${what} is required, and "${match[0]}" came`, place, match[0].length);
    return match[0].trim();
  };

  const readWanted = (): Wanted => {
    const wanted: { rate?: PlanStep['rate']; split?: string } = {};
    while (token(/@/y) !== null) {
      skip();
      const place = at;
      const split = token(SPLIT);
      if (split !== null) {
        if (wanted.split !== undefined) fail('a step has one split', place, split[0].length);
        if ((seconds(split[1]!) ?? 0) <= 0) fail('a split, as 1:50.0, is required', place, split[0].length);
        wanted.split = split[1]!;
        continue;
      }
      const match = token(RATE);
      if (match === null)
        return fail(`a rate, as 28 or 28-30, or a split, as 1:50, is required after @, and ${came()}`);
      if (wanted.rate !== undefined) fail('a step has one rate', place, match[0].length);
      const [from, to] = [match[1]!, match[2]].map((word) =>
        word === undefined
          ? undefined
          : within(Number(word), BOUNDS.leastSpm, BOUNDS.mostSpm, 'a rate', place, match[0].length),
      );
      if (to !== undefined && to < from!)
        fail('a range of rates goes from low to high', place, match[0].length);
      wanted.rate = to === undefined || to === from ? from! : [from!, to];
    }
    return wanted;
  };

  const readRest = (): Pick<PlanStep, 'rest'> => {
    if (token(REST) === null) return {};
    return { rest: readTime('a length of rest, as 2:00, 90s or 20min,') };
  };

  const readLength = (): PlanStep => {
    skip();
    const place = at;
    const distance = token(DISTANCE);
    if (distance !== null) {
      const metres = Number(distance[1]) * (distance[2]!.toLowerCase() === 'km' ? 1000 : 1);
      return {
        distance: within(metres, BOUNDS.leastM, BOUNDS.mostM, 'a distance', place, distance[0].length),
      };
    }
    const bare = /\d+(?:\.\d+)?(?!\d*:)(?=\s*(?:$|[,;()@/\n]))/y;
    bare.lastIndex = at;
    const number = bare.exec(text)?.[0];
    if (number !== undefined)
      return fail(`${number} of what: write ${number}m, ${number}s or ${number}min`, at, number.length);
    return { time: readTime('a length of work, as 500m, 2:00, 90s or 20min,') };
  };

  const readItem = (depth: number): PlanStep => {
    skipLines();
    const place = at;
    const counted = token(COUNT);
    const times =
      counted === null
        ? 1
        : within(Number(counted[1]), 1, BOUNDS.mostTimes, 'a number of times', place, counted[0].length);
    skip();
    const repeat = times === 1 ? {} : { repeat: times };
    if (text.charAt(at) !== '(') return { ...readLength(), ...readWanted(), ...readRest(), ...repeat };
    const open = at;
    if (depth >= BOUNDS.deepest) fail(`sets are nested more than ${BOUNDS.deepest} deep`);
    at++;
    const steps = readItems(depth + 1);
    skipLines();
    if (text.charAt(at) !== ')') fail('a set that opens here is not closed: a ) is required', open, 1);
    at++;
    const wanted = readWanted();
    return { steps: steps.map((step) => wanting(step, wanted)), ...readRest(), ...repeat };
  };

  const readItems = (depth: number): PlanStep[] => {
    const items: PlanStep[] = [];
    for (;;) {
      items.push(readItem(depth));
      skip();
      const next = text.charAt(at);
      if (next === ',' || next === ';' || next === '+') {
        at++;
        continue;
      }
      const place = at;
      skipLines();
      const isLine = at > place && at < text.length && text.charAt(at) !== ')';
      if (!isLine) return items;
    }
  };

  skipLines();
  if (at >= text.length) fail('a plan asks for something: write it as 6 x 2:00 @ 28 / 1:00');
  const steps = readItems(0);
  if (at < text.length)
    fail(
      text.charAt(at) === ')'
        ? 'nothing opens the set that is closed here'
        : `a comma before the next step, @ before a rate, or / before a rest is required, and ${came()}`,
    );
  return steps;
};

/** A plan's text read, or what is wrong with it. */
export const readPlanText = (
  text: string,
): { readonly steps: readonly PlanStep[] } | { readonly fault: PlanTextFault } => {
  try {
    return { steps: parsed(text) };
  } catch (error) {
    if (error instanceof Fault) return { fault: error.fault };
    throw error;
  }
};

/** The line of a text that a place stands in: the line itself, its number from 1, and the column from 0. */
const lineOf = (text: string, at: number) => {
  const before = text.slice(0, at).split('\n');
  return { line: text.split('\n')[before.length - 1]!, number: before.length, column: before.at(-1)!.length };
};

/**
 * A plan as it stands on a whiteboard: `6 x 2:00 @ 28 / 1:00`. Steps stand between commas or on lines of their
 * own; `N x` repeats a step or a set in brackets; `@` asks for a rate or a split; `/`, `r` or `rest` is the rest
 * after it.
 * @param name the plan as messages name it
 * @throws UserError with the mistake marked under the text
 * @example parsePlanText('3 x 500m @ 30-32 r 2:00', 'plan') // [{ distance: 500, rate: [30, 32], rest: '2:00', repeat: 3 }]
 */
export const parsePlanText = (text: string, name: string): readonly PlanStep[] => {
  const read = readPlanText(text);
  if ('steps' in read) return read.steps;
  const { what, at, length } = read.fault;
  const { line, number, column } = lineOf(text, at);
  const shown = line.replaceAll('\t', ' ').trimEnd();
  const where = text.includes('\n') ? `line ${number}, column ${column + 1}` : `column ${column + 1}`;
  throw new UserError(
    `${name}, ${where}: ${what}\n  ${shown}\n  ${' '.repeat(column)}${'^'.repeat(Math.max(1, Math.min(length, shown.length - column)))}`,
  );
};
