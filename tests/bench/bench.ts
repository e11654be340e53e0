import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { benchJob } from './bench-jobs.js';
import { type BenchLogs, makeBenchLogs, REGATTA_CREWS } from './bench-logs.js';

const RUNS = Number(process.env.BENCH_RUNS ?? 5);
const THOLE = resolve('bin/thole.js');
const LONG_S = 5400;

/** Runs of what takes long by itself. */
const FEW_RUNS = Math.min(RUNS, 3);

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;

// Node.js reads the certificates that this names at every start, 28 ms for the system's list: a setting of the machine
// that no run here has a use for.
const { NODE_EXTRA_CA_CERTS: _, ...env } = process.env;

const run = (program: string, args: readonly string[]): string => {
  const ended = spawnSync(program, args, {
    env,
    encoding: 'utf8',
    maxBuffer: 2 ** 28,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  if (ended.error !== undefined || ended.status !== 0)
    throw new Error(`${program} ${args.join(' ')} ended with ${ended.status}: ${ended.stderr}`);
  return ended.stdout;
};

/** Median milliseconds of whole processes that take turns, so that a busy moment meets all alike. */
const wholeMs = (rivals: readonly (readonly string[])[], runs = RUNS): number[] => {
  const times = rivals.map((): number[] => []);
  for (let turn = 0; turn < runs; turn++)
    for (const [i, [program, ...args]] of rivals.entries()) {
      const from = process.hrtime.bigint();
      run(program!, args);
      times[i]!.push(Number(process.hrtime.bigint() - from) / 1e6);
    }
  return times.map(median);
};

/** Median milliseconds of jobs inside fresh processes that take turns. */
const insideMs = (file: string, jobs: readonly string[]): number[] => {
  const times = jobs.map((): number[] => []);
  for (let turn = 0; turn < RUNS; turn++)
    for (const [i, job] of jobs.entries())
      times[i]!.push(Number(run(process.execPath, [process.argv[1]!, 'job', job, file])));
  return times.map(median);
};

/** Most memory that a command took, MB: the command run within a process that then tells. */
const memoryMb = (args: readonly string[]): number => {
  const script = `const { program } = require(${JSON.stringify(resolve('dist/start.cjs'))}).loaded();
program.main(${JSON.stringify(args)}, { stdin: process.stdin, stdout: { write: () => true }, stderr: { write: () => true }, env: {} })
  .then(() => process.stdout.write(String(process.resourceUsage().maxRSS / 1024)));`;
  return Number(run(process.execPath, ['-e', script]));
};

/** Another program that does the like, and the least that shows it is on the machine. */
interface Yardstick {
  readonly name: string;
  readonly line: readonly string[];
  readonly probe: readonly string[];
  readonly asked: string;
}

const isThere = ({ probe: [program, ...args] }: Yardstick): boolean => spawnSync(program!, args).status === 0;

/** A line of Python by Debian's own interpreter, whose libraries apt installs. */
const python = (code: string, module: string) => ({
  line: ['/usr/bin/python3', '-c', code],
  probe: ['/usr/bin/python3', '-c', `import ${module}`],
});

const gpxYardsticks = (gpx: string): readonly Yardstick[] => [
  {
    name: 'xmllint --stream',
    line: ['xmllint', '--stream', '--noout', gpx],
    probe: ['xmllint', '--version'],
    asked: '3.5',
  },
  {
    name: 'gpsbabel, GPX to GPX',
    line: ['gpsbabel', '-i', 'gpx', '-f', gpx, '-o', 'gpx', '-F', '/dev/null'],
    probe: ['gpsbabel', '-V'],
    asked: '0.3',
  },
  {
    name: 'gpxpy.parse',
    ...python(`import gpxpy; gpxpy.parse(open(${JSON.stringify(gpx)}))`, 'gpxpy'),
    asked: '0.12',
  },
];

const csvYardsticks = (csv: string): readonly Yardstick[] => [
  {
    name: 'mlr cat',
    line: ['mlr', '--icsv', '--ocsv', 'cat', csv],
    probe: ['mlr', '--version'],
    asked: '0.5',
  },
  {
    name: 'pandas.read_csv',
    ...python(`import pandas; pandas.read_csv(${JSON.stringify(csv)})`, 'pandas'),
    asked: '0.7',
  },
];

const print = (cells: readonly string[]): void => {
  process.stdout.write(`| ${cells.join(' | ')} |\n`);
};
const ms = (value: number): string =>
  value < 1000 ? `${value.toFixed(0)} ms` : `${(value / 1000).toFixed(2)} s`;
const compare = (what: string, [mine, other]: readonly number[], against: string, asked = ''): void =>
  print([what, ms(mine!), against, ms(other!), (mine! / other!).toFixed(2), asked]);

const strokeSearches = ({ long, short }: BenchLogs): void => {
  const [whole, tenth] = [long, short].map(
    (path) => insideMs(path.replace(/[.]gpx$/, '.imu.csv'), ['strokes'])[0]!,
  );
  const what = 'strokes of 90 min at 100 Hz, log and track at hand: computing';
  print([what, ms(whole!), '', '', '', 'under 1 s']);
  compare(what, [whole!, tenth!], 'a tenth of it', '10.5');
};

const readers = ({ gpx, csv, fit }: BenchLogs): void => {
  const rows: readonly (readonly [string, string, string, string, string | null])[] = [
    ['GPX of 54,000 points', gpx, 'gpx-scan', 'fast-xml-parser', 'gpx-library'],
    ['CSV of 540,000 × 7', csv, 'csv-scan', 'csv-parse', 'csv-library'],
    ['FIT of 54,000 records', fit, 'read', 'fit-file-parser', 'fit-library'],
  ];
  for (const [what, file, own, library, twin] of rows) {
    const [mine, other, bytes, whole] = insideMs(file, [own, twin!, 'bytes', 'read']) as [
      number,
      number,
      number,
      number,
    ];
    compare(`${what}: samples read`, [mine, other], library);
    compare(`${what}: samples read`, [mine, bytes], 'adding up its bytes');
    compare(`${what}: checked recording`, [whole, bytes], 'adding up its bytes');
  }
};

const processes = (logs: BenchLogs): void => {
  const thole = (...args: readonly string[]): readonly string[] => [process.execPath, THOLE, ...args];
  const yardsticks = (what: string, file: string, all: readonly Yardstick[]): void => {
    const there = all.filter(isThere);
    const [own, ...others] = wholeMs([thole('inspect', file, '--quiet'), ...there.map(({ line }) => line)]);
    for (const [i, { name, asked }] of there.entries()) compare(what, [own!, others[i]!], name, asked);
    for (const { name, asked } of all.filter((one) => !there.includes(one)))
      print([what, ms(own!), name, 'not on this machine', '', asked]);
  };
  yardsticks('`inspect` of the GPX', logs.gpx, gpxYardsticks(logs.gpx));
  yardsticks('`inspect` of the CSV', logs.csv, csvYardsticks(logs.csv));
  const bare = [process.execPath, '-e', '0'];
  compare('`--version`', wholeMs([thole('--version'), bare]), 'node -e 0', '1.6');
  compare('`pace`', wholeMs([thole('pace', '--split', '1:50', '--rate', '30'), bare]), 'node -e 0', '2.5');
  for (const command of ['strokes', 'pieces', 'outing'] as const) {
    const times = wholeMs([thole(command, logs.long, '--quiet'), thole(command, logs.short, '--quiet')]);
    const perSecond = LONG_S / (times[0]! / 1000);
    print([
      `\`${command}\`, 90 min at 10 Hz and 100 Hz`,
      ms(times[0]!),
      'real time',
      `${LONG_S} s`,
      `${perSecond.toFixed(0)} times faster`,
      command === 'strokes' ? '2400' : '',
    ]);
    compare(`\`${command}\`, ten times the log`, times, 'a tenth of it', '10.5');
  }
  const memory = memoryMb(['strokes', logs.long, '--quiet']);
  print([
    '`strokes`, 90 min at 10 Hz and 100 Hz: memory',
    `${memory.toFixed(0)} MB`,
    '',
    '',
    '',
    'under 400 MB',
  ]);
  const inJobs = (jobs: number, args: readonly string[]) => thole(...args, '--quiet', '--jobs', String(jobs));
  const twoJobs = (what: string, args: readonly string[]): void => {
    const [one, two] = wholeMs([inJobs(1, args), inJobs(2, args)], FEW_RUNS);
    print([
      `${what}, two jobs`,
      ms(two!),
      'one job',
      ms(one!),
      `${(one! / two!).toFixed(2)} times faster`,
      '1.6',
    ]);
  };
  twoJobs('`outing` of 8 outings of 9 min', ['outing', ...logs.batch]);
  twoJobs('`outing` of 8 outings of 90 min', ['outing', ...logs.longBatch]);
  const regatta = (list: string) => ['regatta', list, '--straight', logs.straight];
  twoJobs(`\`regatta\` of ${REGATTA_CREWS} crews`, regatta(logs.regatta));
  compare(
    '`regatta`, ten times the crews',
    wholeMs([inJobs(1, regatta(logs.regatta)), inJobs(1, regatta(logs.fewCrews))], FEW_RUNS),
    'a tenth of them',
    '11',
  );
  const [many, few] = [logs.regatta, logs.fewCrews].map((list) =>
    memoryMb([...regatta(list), '--quiet', '--jobs', '1']),
  );
  print([
    '`regatta`, ten times the crews: memory',
    `${many!.toFixed(0)} MB`,
    'a tenth of them',
    `${few!.toFixed(0)} MB`,
    (many! / few!).toFixed(2),
    'does not grow',
  ]);
};

if (process.argv[2] === 'job') process.stdout.write(String(benchJob(process.argv[3]!, process.argv[4]!)));
else {
  const folder = mkdtempSync(join(tmpdir(), 'thole-bench-'));
  try {
    const logs = makeBenchLogs(folder);
    const { model } = cpus()[0]!;
    process.stdout.write(
      `Node ${process.version}, ${cpus().length} × ${model.trim()}, medians of ${RUNS} runs, load by others at the start ${loadavg()[0]!.toFixed(1)}\n\n`,
    );
    print(['what', 'this tool', 'against', 'takes', 'ratio', 'asked for']);
    print(['---', '---', '---', '---', '---', '---']);
    readers(logs);
    strokeSearches(logs);
    processes(logs);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
