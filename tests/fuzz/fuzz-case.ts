import fc from 'fast-check';
import { afterMutation, mutation } from './mutation.js';
import { NEIGHBOUR, SEED_LOGS } from './seed-logs.js';

/** How a damaged log is looked at. */
export interface Line {
  /** The command and its options; `LOGS` stands for the damaged log and its neighbour. */
  readonly argv: readonly string[];
  /** Whether the neighbour has to be answered, too. */
  readonly batch: boolean;
  /** The formats that it takes; the usual ones unless given. */
  readonly formats?: readonly string[];
}

const LOGS = ['damaged', 'neighbour'];
const ONE_JOB = ['--jobs', '1'];

const line = (command: string, ...options: string[]): Line => ({
  argv: [command, ...options, ...ONE_JOB, ...LOGS],
  batch: true,
});

/** Every command that reads logs, in the ways that make it do most. */
export const LINES: readonly Line[] = [
  line('inspect'),
  line('outing'),
  line('outing', '--craft', '1x', '--bands', '20,28'),
  { argv: ['strokes', 'damaged'], batch: false },
  { argv: ['strokes', 'damaged', '--average'], batch: false },
  line('pieces'),
  line('pieces', '--distance', '150', '--parts', '3'),
  line('pieces', '--best', '100,30s'),
  line('pieces', '--from', '+0:20', '--to', '+1:30', '--every', '20'),
  line('pieces', '--laps', '--opening', '5'),
  { ...line('pieces', '--plot'), formats: ['table', 'markdown'] },
  line('pieces', '--time', '0:40', '--together'),
  line('workout', 'plan'),
  line('curve'),
  { argv: ['season', 'folder', '--no-cache', ...ONE_JOB], batch: true },
  line('check'),
  line('check', '--rules', 'rules'),
  line('gauge'),
  {
    argv: ['regatta', 'entries', '--straight', '31.4999,-37.2500:31.5010,-37.2600', ...ONE_JOB],
    batch: true,
  },
  { argv: ['seats', 'seat-plan', '--time', '0:40', ...ONE_JOB, ...LOGS], batch: false },
  { argv: ['outing', 'neighbour', '--imu', 'damaged'], batch: false },
  { argv: ['outing', 'neighbour', '--join', 'damaged'], batch: false },
];

/** The formats in which a result is asked for. */
const FORMATS = ['json', 'json', 'json', 'table', 'csv', 'markdown'];

const formatOf = ({ formats = FORMATS }: Line, nth: number): string => formats[nth % formats.length]!;

/** One damaged log, and the command line that meets it. */
export interface FuzzCase {
  readonly log: (typeof SEED_LOGS)[number];
  readonly bytes: Uint8Array;
  readonly line: Line;
  readonly format: string;
  /** The case in words: the command line, and what happened to which log. */
  readonly shown: string;
}

/** Damaged logs of every format under every command. */
export const fuzzCase: fc.Arbitrary<FuzzCase> = fc
  .record({
    log: fc.constantFrom(...SEED_LOGS),
    mutations: fc.array(mutation, { minLength: 1, maxLength: 3 }),
    line: fc.constantFrom(...LINES),
    nth: fc.nat(FORMATS.length - 1),
  })
  .map(({ log, mutations, line: met, nth }) => ({ log, mutations, met, format: formatOf(met, nth) }))
  .map(({ log, mutations, met, format }) => ({
    log,
    bytes: mutations.reduce(afterMutation, log.bytes),
    line: met,
    format,
    shown: `${met.argv.join(' ')} --format ${format}: ${log.name}, ${JSON.stringify(mutations)}`,
  }));

/** The files of a case beside its logs: entries, plans and rules. */
export const beside = (damaged: string, neighbour: string): Readonly<Record<string, string>> => ({
  entries: `event,crew,craft,track\nA,Red,1x,${damaged}\nA,Blue,1x,${neighbour}\n`,
  plan: '{"schema": "thole/plan/1", "name": "two", "steps": [{"time": "0:40", "rate": [20, 24], "rest": "0:20", "repeat": 2}]}',
  rules:
    '{"rules": [{"name": "far", "figure": "outing.distance_m", "min": 100}, {"name": "sure", "figure": "strokes.strokes.*.confidence", "min": 0}, {"name": "fast", "figure": "pieces.pieces.*.speed_mps", "max": 12}, {"name": "fit", "figure": "curve.curve.exponent", "max": 9}, {"name": "far in all", "figure": "season.totals.distance_m", "min": 1}]}',
  'seat-plan':
    'piece,boat,bow,stroke,wind_mps\n1,damaged,A,B,0\n1,neighbour,C,D,0\n2,damaged,C,B,0\n2,neighbour,A,D,0\n',
});

export { NEIGHBOUR };
