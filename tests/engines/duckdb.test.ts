import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { SeasonResult } from '../../src/contract/season.js';
import { ran } from '../cli/ran.js';
import { textOfRoff } from '../tooling/roff-text.js';
import { engineHere } from './engine-here.js';

const duckdb = engineHere('@duckdb/node-api');

/** The queries of the manual, which stand in lines that are set in. */
const queries =
  textOfRoff(readFileSync('man/thole-archive.7', 'utf8')).match(
    /(?<=\n {4})SELECT[^;]*read_json[^;]*(?=;)/g,
  ) ?? [];

const SEASON = 'samples/season/2026-05';
let folder = '';
let season: SeasonResult;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'thole-'));
  if (duckdb === null) return;
  const logs = readdirSync(SEASON).filter((name) => /\d\.csv$/.test(name));
  const { stdout } = await ran([
    'outing',
    ...logs.map((name) => join(SEASON, name)),
    ...['--format', 'ndjson', '--quiet', '--jobs', '1'],
  ]);
  writeFileSync(join(folder, 'outings.ndjson'), stdout);
  const answer = await ran(['season', SEASON, '--no-cache', '--quiet', '--format', 'json', '--jobs', '1']);
  season = JSON.parse(answer.stdout) as SeasonResult;
}, 240_000);
afterAll(() => rmSync(folder, { recursive: true }));

const rowsOf = async (query: string): Promise<Record<string, number | string | null>[]> => {
  const { DuckDBInstance } = await import(pathToFileURL(duckdb!).href);
  const connection = await (await DuckDBInstance.create()).connect();
  const reader = await connection.runAndReadAll(
    query.replace("'outings.ndjson'", `'${join(folder, 'outings.ndjson')}'`),
  );
  return reader
    .getRowObjects()
    .map((row: Record<string, unknown>) =>
      Object.fromEntries(
        Object.entries(row).map(([key, value]) => [key, typeof value === 'bigint' ? Number(value) : value]),
      ),
    );
};

describe.runIf(duckdb !== null)('the queries of the manual in DuckDB', () => {
  it('are two, by week and by rate band', () => {
    expect(queries).toHaveLength(2);
  });

  it('give the weeks that season gives', async () => {
    const weeks = await rowsOf(queries[0]!);
    expect(weeks.map(({ week }) => week)).toEqual(season.weeks.map(({ week }) => week));
    for (const [i, week] of season.weeks.entries()) {
      expect(weeks[i]).toMatchObject({ outing_count: week.outing_count, stroke_count: week.stroke_count });
      for (const key of ['distance_m', 'rowing_s'] as const)
        expect(weeks[i]![key]).toBeCloseTo(week[key]!, 1);
    }
  });

  it('give the rate bands that season gives', async () => {
    const bands = await rowsOf(queries[1]!);
    const known = season.rate_bands.map(({ from_spm, to_spm, stroke_count }) => ({
      from_spm,
      to_spm,
      stroke_count,
    }));
    const byBound = (a: { from_spm: unknown; to_spm: unknown }, b: typeof a) =>
      String([a.from_spm, a.to_spm]).localeCompare(String([b.from_spm, b.to_spm]));
    expect([...bands].sort(byBound as never)).toEqual([...known].sort(byBound));
  });
});
