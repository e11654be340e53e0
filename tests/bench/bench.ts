import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { benchJob } from './bench-jobs.js';
import { type BenchLogs, makeBenchLogs } from './bench-logs.js';

const RUNS = Number(process.env.BENCH_RUNS ?? 5);
const THOLE = resolve('bin/thole.js');
const LONG_S = 5400;

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;

const run = (program: string, args: readonly string[]): string => {
  const ended = spawnSync(program, args, {
    encoding: 'utf8',
    maxBuffer: 2 ** 28,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  if (ended.error !== undefined || ended.status !== 0)
    throw new Error(`${program} ${args.join(' ')} ended with ${ended.status}: ${ended.stderr}`);
  return ended.stdout;
};

/** Median milliseconds of whole processes that take turns, so that a busy moment meets all alike. */
const wholeMs = (rivals: readonly (readonly string[])[]): number[] => {
  const times = rivals.map((): number[] => []);
  for (let turn = 0; turn < RUNS; turn++)
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

const isThere = (program: string): boolean => spawnSync(program, ['--version']).error === undefined;

const print = (cells: readonly string[]): void => {
  process.stdout.write(`| ${cells.join(' | ')} |\n`);
};
const ms = (value: number): string =>
  value < 1000 ? `${value.toFixed(0)} ms` : `${(value / 1000).toFixed(2)} s`;
const compare = (what: string, [mine, other]: readonly number[], against: string, asked = ''): void =>
  print([what, ms(mine!), against, ms(other!), (mine! / other!).toFixed(2), asked]);

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
  const inspectGpx = thole('inspect', logs.gpx, '--quiet');
  const inspectCsv = thole('inspect', logs.csv, '--quiet');
  if (isThere('xmllint'))
    compare(
      '`inspect` of the GPX',
      wholeMs([inspectGpx, ['xmllint', '--stream', '--noout', logs.gpx]]),
      'xmllint --stream',
      '3.5',
    );
  if (isThere('mlr'))
    compare(
      '`inspect` of the CSV',
      wholeMs([inspectCsv, ['mlr', '--icsv', '--ocsv', 'cat', logs.csv]]),
      'mlr cat',
      '0.5',
    );
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
  compare(
    '`outing` of 8 outings, one job',
    wholeMs([
      thole('outing', ...logs.batch, '--quiet', '--jobs', '1'),
      thole('outing', ...logs.batch, '--quiet', '--jobs', '2'),
    ]),
    'two jobs',
    'at least 1.6',
  );
};

if (process.argv[2] === 'job') process.stdout.write(String(benchJob(process.argv[3]!, process.argv[4]!)));
else {
  const folder = mkdtempSync(join(tmpdir(), 'thole-bench-'));
  try {
    const logs = makeBenchLogs(folder);
    const { model } = cpus()[0]!;
    process.stdout.write(
      `Node ${process.version}, ${cpus().length} × ${model.trim()}, medians of ${RUNS} runs\n\n`,
    );
    print(['what', 'this tool', 'against', 'takes', 'ratio', 'asked for']);
    print(['---', '---', '---', '---', '---', '---']);
    readers(logs);
    processes(logs);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
