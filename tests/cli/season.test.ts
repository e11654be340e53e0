import { execFile, spawn } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type { OutingRow } from '../../src/contract/outing.js';
import type { SeasonResult } from '../../src/contract/season.js';

const THOLE = resolve('bin/thole.js');
const MONTH = 'samples/season/2026-05';

const folder = () => mkdtempSync(join(tmpdir(), 'thole-'));

const thole = (...args: string[]): Promise<{ stdout: string; stderr: string }> =>
  new Promise((done, fail) => {
    execFile(process.execPath, [THOLE, ...args], { maxBuffer: 64 * 1024 ** 2 }, (error, stdout, stderr) =>
      error === null ? done({ stdout, stderr }) : fail(error),
    );
  });

const seasonArgs = (logs: string, cache: string): string[] => [
  'season',
  logs,
  '--cache',
  cache,
  '--format',
  'json',
  '--quiet',
];

const season = async (logs: string, cache: string): Promise<SeasonResult> =>
  JSON.parse((await thole(...seasonArgs(logs, cache))).stdout) as SeasonResult;

const entriesOf = (cache: string): string[] =>
  readdirSync(cache, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.json'))
    .map((name) => join(cache, name));

/** A copy of three outings, which a test may change. */
const someLogs = (): string => {
  const logs = folder();
  for (const name of ['2026-05-05.csv', '2026-05-07.csv', '2026-05-12.csv', 'outings.csv'])
    cpSync(join(MONTH, name), join(logs, name));
  return logs;
};

describe('a season from the command', { timeout: 240_000 }, () => {
  let logs: string;
  let fresh: SeasonResult;
  beforeAll(async () => {
    logs = someLogs();
    fresh = await season(logs, folder());
  }, 120_000);

  it('is the sum of its outings worked on one by one', async () => {
    const names = readdirSync(logs).filter((name) => name !== 'outings.csv');
    const rows = await Promise.all(
      names.map(async (name) => {
        const { stdout } = await thole('outing', join(logs, name), '--format', 'ndjson', '--quiet');
        return JSON.parse(stdout) as OutingRow;
      }),
    );
    const sum = (value: (row: OutingRow) => number) => rows.reduce((total, row) => total + value(row), 0);
    expect(fresh.totals.outing_count).toBe(3);
    expect(fresh.totals.distance_m).toBeCloseTo(
      sum((row) => row.distance_m!),
      1,
    );
    expect(fresh.totals.rowing_s).toBeCloseTo(
      sum((row) => row.rowing_s!),
      1,
    );
    expect(fresh.totals.stroke_count).toBe(sum((row) => row.stroke_count!));
    expect(fresh.rate_bands.reduce((total, band) => total + band.stroke_count, 0)).toBe(
      fresh.totals.stroke_count,
    );
    fresh.rate_bands.forEach((band, i) => {
      expect(band.stroke_count).toBe(sum((row) => row.rate_bands[i]!.stroke_count));
    });
  });

  it('is the same from what was kept, with one or two workers, and after runs side by side', async () => {
    const cache = folder();
    const [first, second] = await Promise.all([season(logs, cache), season(logs, cache)]);
    expect(first).toEqual(fresh);
    expect(second).toEqual(fresh);
    expect(entriesOf(cache)).toHaveLength(3);
    expect(JSON.parse((await thole(...seasonArgs(logs, cache), '--jobs', '2')).stdout)).toEqual(fresh);
    expect(JSON.parse((await thole(...seasonArgs(logs, cache), '--no-cache')).stdout)).toEqual(fresh);
  });

  /** Begin a season and kill it once something is so. */
  const killedOnce = (cache: string, isSo: (ranMs: number) => boolean): Promise<void> =>
    new Promise((done) => {
      const startMs = performance.now();
      const child = spawn(process.execPath, [THOLE, ...seasonArgs(logs, cache)], { stdio: 'ignore' });
      const watch = setInterval(() => {
        if (isSo(performance.now() - startMs)) child.kill('SIGKILL');
      }, 1);
      child.on('exit', () => {
        clearInterval(watch);
        done();
      });
    });

  it('is the same after it was killed at random moments, and between one entry and the next', async () => {
    const cache = folder();
    const moments = fc.sample(fc.integer({ min: 20, max: 1500 }), { seed: 7, numRuns: 6 });
    for (const afterMs of moments) await killedOnce(cache, (ranMs) => ranMs > afterMs);
    for (const count of [1, 2]) {
      const part = folder();
      await killedOnce(part, () => entriesOf(part).length >= count);
      expect(entriesOf(part).length).toBeGreaterThanOrEqual(count);
      expect(await season(logs, part)).toEqual(fresh);
    }
    expect(await season(logs, cache)).toEqual(fresh);
  });

  it('notices a damaged entry, says it, and makes it again', async () => {
    const cache = folder();
    await season(logs, cache);
    const [entry] = entriesOf(cache);
    writeFileSync(entry!, readFileSync(entry!, 'utf8').replace(/"distance_m":\d/, '"distance_m":9'));
    const mended = await season(logs, cache);
    expect(mended.totals).toEqual(fresh.totals);
    expect(mended.warnings.map(({ code }) => code)).toContain('cache-entry-damaged');
    expect(await season(logs, cache)).toEqual(fresh);
  });

  it('takes crew and craft from the names of folders where no sheet tells them', async () => {
    const archive = folder();
    const put = (...path: string[]) =>
      cpSync(join(MONTH, '2026-05-05.csv'), join(archive, ...path), { recursive: true });
    put('Heron 2x', 'may', 'a.csv');
    const { outings } = await season(archive, folder());
    expect(outings).toMatchObject([{ crew: 'Heron 2x', craft: '2x' }]);
    const own = await season(join(archive, 'Heron 2x'), folder());
    expect(own.outings).toMatchObject([{ crew: 'Heron 2x', craft: '2x' }]);
    const month = await season(join(archive, 'Heron 2x', 'may'), folder());
    expect(month.outings).toMatchObject([{ crew: null, craft: null }]);
  });

  it('does not take a year or a month for a crew', async () => {
    const archive = join(folder(), 'Coot 4-');
    cpSync(join(MONTH, '2026-05-05.csv'), join(archive, '2026', '05', 'a.csv'), { recursive: true });
    const { outings } = await season(archive, folder());
    expect(outings).toMatchObject([{ crew: 'Coot 4-', craft: '4-' }]);
  });

  it('follows logs that change or go', async () => {
    const [changing, cache] = [someLogs(), folder()];
    await season(changing, cache);
    const log = join(changing, '2026-05-05.csv');
    writeFileSync(log, readFileSync(log, 'utf8').split('\n').slice(0, 500).join('\n'));
    const changed = await season(changing, cache);
    expect(changed.totals.distance_m).toBeLessThan(fresh.totals.distance_m - 500);
    rmSync(log);
    const gone = await season(changing, cache);
    expect(gone.totals.outing_count).toBe(2);
    expect(gone).toEqual(await season(changing, folder()));
  });
});
