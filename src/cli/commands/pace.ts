import { paceView } from '../../report/pace.js';
import { parseClock } from '../../units/clock-time.js';
import { parseDistance } from '../../units/distance.js';
import { parseSpeed, splitOfSpeed } from '../../units/speed.js';
import { UserError } from '../../units/user-error.js';
import { paceResultOf, paceSheet, type Steps } from '../../workout/index.js';
import { command } from '../command.js';
import { defaultChoiceFlag, defaultFlag, switchFlag, valueFlag } from '../flag.js';
import { REPORTING, TEXT_FORMATS } from '../shared-flags.js';

const numberBetween =
  (min: number, max: number, what: string) =>
  (text: string): number => {
    const value = Number(text);
    if (text.trim() === '' || !(value >= min && value <= max))
      throw new UserError(`"${text}" is not ${what}: write a number from ${min} to ${max}`);
    return value;
  };

/** No race or training is longer, s. */
const LONGEST_S = 48 * 3600;

const readTime = (text: string): number => {
  const seconds = parseClock(text);
  if (seconds === null || seconds <= 0 || seconds > LONGEST_S)
    throw new UserError(`"${text}" is not a time up to 48 hours: write it as 6:40, 1:02:03 or 90s`);
  return seconds;
};

const readSplit = (text: string): number => splitOfSpeed(parseSpeed(text));
const readRate = numberBetween(5, 200, 'a rate in strokes per minute');

/** Reads `FROM..TO/STEP`. */
const readSteps =
  (read: (text: string) => number) =>
  (text: string): Steps => {
    const [, from, to, by] = /^(.+?)\.\.(.+?)\/(.+)$/.exec(text) ?? [];
    if (from === undefined || to === undefined || by === undefined)
      throw new UserError(`"${text}" is not a range: write FROM..TO/STEP, such as 1:40..2:10/5 or 18..36/2`);
    return { from: read(from), to: read(to), step: numberBetween(0.1, 60, 'a step')(by) };
  };

const { speed: _speed, ...reporting } = REPORTING;

export const pace = command({
  name: 'pace',
  summary: 'splits, speeds, rates and distances per stroke turned into one another',
  operands: [],
  flags: {
    split: valueFlag('SPLIT', 'time for 500 m, as 1:50 or 1:50.4', parseSpeed),
    speed: valueFlag('SPEED', 'speed, as 4.55m/s, 16.4km/h or 8.8kn', parseSpeed),
    rate: valueFlag('SPM', 'strokes per minute', readRate),
    perStroke: valueFlag('M', 'metres per stroke', numberBetween(0.3, 40, 'a distance per stroke in metres')),
    distance: valueFlag('M', 'a distance, as 2000 or 1.5km', parseDistance),
    time: valueFlag('TIME', 'a time, as 6:40', readTime),
    strokes: valueFlag('N', 'number of strokes', numberBetween(1, 100_000, 'a number of strokes')),
    sheet: switchFlag(
      'a target sheet: metres a stroke by split and rate; with --per-stroke the rate for each split',
    ),
    splits: defaultFlag('RANGE', 'splits of the sheet', '1:30..2:20/5', readSteps(readSplit)),
    rates: defaultFlag('RANGE', 'rates of the sheet', '18..38/2', readSteps(readRate)),
    unit: defaultChoiceFlag(
      'UNIT',
      'speeds of the sheet; paddlers take kmh',
      ['split', 'mps', 'kmh', 'knots'] as const,
      'split',
    ),
    ...reporting,
    format: defaultChoiceFlag('FORMAT', 'how to write the result', TEXT_FORMATS, 'table'),
  },
  about:
    'Give what you know and the rest follows: distance per stroke is 60 times speed over rate. Speeds are shown as a split, in m/s, km/h and knots. What does not follow is left out.',
  examples: [
    { line: 'thole pace --split 1:50 --rate 32', does: 'how far the boat goes a stroke' },
    {
      line: 'thole pace --time 6:40 --distance 2000 --strokes 230',
      does: 'the rate and the split of a race',
    },
    {
      line: 'thole pace --sheet --per-stroke 9',
      does: 'the rate that nine metres a stroke need at each split',
    },
  ],
  run: async (session, options) => {
    if (options.split !== null && options.speed !== null)
      throw new UserError('--split and --speed say the same thing: give one of them');
    const given = {
      speedMps: options.split ?? options.speed,
      rateSpm: options.rate,
      distancePerStrokeM: options.perStroke,
      distanceM: options.distance,
      durationS: options.time,
      strokeCount: options.strokes,
    };
    const count = Object.values(given).filter((value) => value !== null).length;
    if (!options.sheet && count < 2 && given.speedMps === null)
      throw new UserError(
        'give a --split or a --speed, or two of --rate, --per-stroke, --distance, --time, --strokes',
      );
    if (options.sheet && count > (options.perStroke === null ? 0 : 1))
      throw new UserError('--sheet goes with --per-stroke, --splits and --rates: leave the others out');
    const result = options.sheet
      ? paceSheet(options.splits, options.rates, options.perStroke)
      : paceResultOf(given);
    await session.report(paceView, result, { ...options, speed: options.unit });
  },
});
