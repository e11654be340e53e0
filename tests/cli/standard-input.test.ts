import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const BUILT = resolve('bin/thole.js');
const LOG = 'samples/watch/watch.gpx';

const run = (argv: readonly string[], input: string) => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [BUILT, ...argv, '--quiet'], {
    input,
    encoding: 'utf8',
  });
  return { status, stdout, stderr };
};

/** A command line, and the file in it that may be `-` as well. */
const LINES: readonly (readonly string[])[] = [
  ['outing', LOG, 'samples/race/race.gpx', '--boat', 'samples/regatta/sprint/logger.json'],
  ['workout', 'samples/outing/plan.json', LOG],
  ['check', LOG, '--rules', 'samples/season/rules.json'],
  ['regatta', '--show-course', '--course', 'samples/regatta/sprint/course.geojson'],
  ['seats', 'samples/seats/plan.csv', 'samples/seats/red.csv', 'samples/seats/blue.csv', '--time', '3:00'],
];

describe.each(LINES.map((line) => ({ command: line[0]!, line })))('$command', ({ line }) => {
  const file = line.find((word) => /\.(json|geojson)$|plan\.csv$/.test(word))!;
  it(`reads ${file} on standard input as it reads the file`, { timeout: 120_000 }, () => {
    const named = run(line, '');
    const input = readFileSync(file, 'utf8');
    const piped = run(
      line.map((word) => (word === file ? '-' : word)),
      input,
    );
    // Only the course says its own name.
    expect({ ...piped, stdout: piped.stdout.replace('Course -', `Course ${file}`) }).toEqual(named);
    expect(named.stdout).not.toBe('');
  });
});

it('standard input is one file', () => {
  const { status, stderr } = run(['workout', '-', '-'], '6 x 2:00 @ 28');
  expect([status, stderr]).toEqual([
    2,
    'thole: error: standard input (-) is one file: give the others by their names\n',
  ]);
});
