import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { RegattaResult } from '../../src/contract/regatta.js';
import { ran } from '../cli/ran.js';

interface CrewTruth {
  readonly event: string;
  readonly crew: string;
  readonly moved_unix_s: number | null;
  readonly lines: readonly { readonly line: string; readonly unix_s: number }[];
}

const truthOf = (folder: string): CrewTruth[] =>
  JSON.parse(readFileSync(`samples/regatta/${folder}/truth.json`, 'utf8')) as CrewTruth[];

const timed = async (folder: string, more: readonly string[]): Promise<RegattaResult> => {
  const place = `samples/regatta/${folder}`;
  const told = ['--boat', `${place}/logger.json`, '--format', 'json', '--quiet', '--jobs', '1'];
  const made = await ran([
    'regatta',
    `${place}/entries.csv`,
    '--course',
    `${place}/course.geojson`,
    ...told,
    ...more,
  ]);
  expect(made.status).toBe(0);
  return JSON.parse(made.stdout) as RegattaResult;
};

const unixOf = (iso: string | null): number => Date.parse(iso!) / 1000;
const at = (crew: CrewTruth, line: string): number =>
  crew.lines.findLast((passage) => passage.line.startsWith(line))!.unix_s;

describe('the sample sprint regatta', () => {
  let result: RegattaResult;
  const truth = truthOf('sprint');
  const rowOf = ({ event, crew }: CrewTruth) =>
    result.results.find((row) => row.event === event && row.crew === crew)!;
  beforeAll(async () => {
    result = await timed('sprint', ['--start', 'together']);
  }, 60_000);

  it('has every crew’s finish within what is stated of it', () => {
    let count = 0;
    for (const crew of truth) {
      const row = rowOf(crew);
      if (row.outcome !== 'finished') continue;
      count++;
      const error = unixOf(row.finish_time) - at(crew, 'finish');
      expect(Math.abs(error), `${crew.event} ${crew.crew}`).toBeLessThan(3 * row.duration_sd_s!);
    }
    expect(count).toBe(16);
  });

  it('starts each event together, when its crews moved', () => {
    for (const event of new Set(truth.map((crew) => crew.event))) {
      const crews = truth.filter((crew) => crew.event === event);
      const starts = new Set(
        crews.map(rowOf).flatMap((row) => (row.start_time === null ? [] : [row.start_time])),
      );
      expect(starts.size).toBe(1);
      const moved = crews.map((crew) => crew.moved_unix_s!);
      expect(unixOf([...starts][0]!)).toBeGreaterThan(Math.min(...moved) - 0.3);
      expect(unixOf([...starts][0]!)).toBeLessThan(Math.max(...moved) + 0.3);
    }
  });

  it('ranks by bow balls wherever it says that it can', () => {
    for (const event of new Set(truth.map((crew) => crew.event))) {
      const finished = result.results.filter((row) => row.event === event && row.place !== null);
      finished.forEach((row, i) => {
        if (i === 0 || row.separable !== true) return;
        const [ahead, behind] = [finished[i - 1]!, row].map((one) =>
          at(truth.find((crew) => crew.event === event && crew.crew === one.crew)!, 'finish'),
        );
        expect(ahead!, `${event} ${row.crew}`).toBeLessThan(behind!);
      });
    }
  });

  it('knows the crew without a log, the one cut off, and the false start', () => {
    const codes = (code: string) => result.warnings.filter((warning) => warning.code === code);
    expect(codes('no-log').map(({ message }) => message)).toEqual([expect.stringContaining('"Tarn End"')]);
    expect(codes('finish-not-logged').map(({ message }) => message)).toEqual([
      expect.stringContaining('"Pellow Bridge" ends 7'),
    ]);
    const quillan = result.results.find((row) => row.event === 'Men 4-' && row.crew === 'Quillan')!;
    expect(quillan.outcome).toBe('finished');
    expect(quillan.duration_s!).toBeLessThan(230);
  });
});

describe('the sample head race', () => {
  let result: RegattaResult;
  const truth = truthOf('head');
  beforeAll(async () => {
    result = await timed('head', ['--against', 'Ostrey', '--parts', '3']);
  }, 60_000);

  it('has every crew’s time from line to line within what is stated of it', () => {
    for (const crew of truth) {
      const row = result.results.find((candidate) => candidate.crew === crew.crew)!;
      const error = row.duration_s! - (at(crew, 'finish') - at(crew, 'start'));
      expect(Math.abs(error), crew.crew).toBeLessThan(3 * row.duration_sd_s!);
      expect(Math.abs(error)).toBeLessThan(0.6);
      for (const [i, mark] of ['mark 1000', 'mark 2000', 'finish'].entries())
        expect(Math.abs(row.marks[i]!.duration_s! - (at(crew, mark) - at(crew, 'start')))).toBeLessThan(0.7);
    }
  });

  it('carries the user’s own numbers beside the time', () => {
    const row = (crew: string) => result.results.find((candidate) => candidate.crew === crew)!;
    expect(row('Halvorn Mere B').result_s).toBeCloseTo(row('Halvorn Mere B').duration_s! - 12, 3);
    expect(row('Pellow Bridge').result_s).toBeCloseTo(row('Pellow Bridge').duration_s! + 5, 3);
    expect(row('Quillan').official_s).toBe(664.2);
    expect(row('Quillan').extra).toEqual({ club: 'Quillan BC' });
  });

  it('has gaps at each metre that end at the gap of the finish', () => {
    const gap = result.gaps.find(({ crew }) => crew === 'Quillan')!;
    expect(gap.metres.length).toBeGreaterThan(2950);
    expect(gap.metres.at(-1)!.gap_s).toBeCloseTo(gap.marks.at(-1)!.gap_s!, 0);
    for (let i = 1; i < gap.metres.length; i++)
      expect(Math.abs(gap.metres[i]!.gap_s - gap.metres[i - 1]!.gap_s)).toBeLessThan(0.3);
  });
});
