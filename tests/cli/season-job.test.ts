import { cpSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { describe, expect, it, vi } from 'vitest';

const { reads, noted } = vi.hoisted(() => {
  const reads: string[] = [];
  const noted =
    <Rest extends unknown[], Value>(read: (path: never, ...rest: Rest) => Value) =>
    (path: string, ...rest: Rest): Value => {
      reads.push(String(path));
      return read(path as never, ...rest);
    };
  return { reads, noted };
});
// Logs are read by the one; what is kept is read, and written, by the other.
vi.mock('node:fs', async (original) => {
  const real = await original<typeof import('node:fs')>();
  return { ...real, openSync: noted(real.openSync) };
});
vi.mock('node:fs/promises', async (original) => {
  const real = await original<typeof import('node:fs/promises')>();
  return { ...real, open: noted(real.open) };
});
const { seasonJob } = await import('../../src/cli/jobs/season-job.js');

const folder = () => mkdtempSync(join(tmpdir(), 'thole-'));
const LISTED = {
  ...{ craft: null, boat: null, placement: null, imu: null, join: null, imuStart: null, stream: null },
  ...{ columns: null, bands: null, program: 'this' },
};

describe('the summary of one log', () => {
  const logs = folder();
  const log = join(logs, 'a.csv');
  cpSync('samples/season/2026-05/2026-05-05.csv', log);
  const run = (told: object) =>
    seasonJob(log, { ...LISTED, folders: [logs], kept: folder(), ...told }, Readable.from([]));

  it('is read from its log once, whether it is made or kept', async () => {
    const kept = folder();
    const readsOf = async () => {
      reads.length = 0;
      const summary = await run({ kept });
      return { summary, count: reads.filter((path) => path === log).length };
    };
    const [cold, warm] = [await readsOf(), await readsOf()];
    expect([cold.count, warm.count]).toEqual([1, 1]);
    expect(warm.summary).toEqual(cold.summary);
  });

  it('is made anew by another program, with other bounds, and from other bytes', async () => {
    const kept = folder();
    const entries = async (told: object) => {
      reads.length = 0;
      await run({ kept, ...told });
      // What is not kept is written: under a name of its own.
      return reads.some((path) => path.includes('.thole-'));
    };
    expect(await entries({})).toBe(true);
    expect(await entries({})).toBe(false);
    expect(await entries({ program: 'another' })).toBe(true);
    expect(await entries({ bands: [22, 30] })).toBe(true);
    writeFileSync(join(logs, 'outings.csv'), 'file,crew\na.csv,Coot\n');
    expect(await entries({})).toBe(true);
    expect(await entries({})).toBe(false);
  });

  it('is told though it cannot be kept, and that is said', async () => {
    const blocked = join(folder(), 'file');
    writeFileSync(blocked, '');
    const summary = await run({ kept: blocked });
    const warnings = 'warnings' in summary ? summary.warnings : [];
    expect(warnings[0]).toMatchObject({ code: 'cache-not-written', file: log });
    expect(warnings[0]!.message).toContain('--no-cache');
    expect(warnings.map(({ code }) => code)).not.toContain('cache-entry-damaged');
  });
});
