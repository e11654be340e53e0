import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { describe, expect, it } from 'vitest';
import { pooled } from '../../src/host/worker-pool.js';
import { UserError } from '../../src/units/user-error.js';

const ENTRY = new URL('./squaring-worker.mjs', import.meta.url);

/** A worker that answers how many jobs it did before. */
const COUNTING = new URL('./counting-worker.mjs', import.meta.url);

const lost = (job: number): number => -job;
const same = (): number => 1;

describe('a pool of workers', () => {
  it('answers in the order of the jobs, whoever is done first', async () => {
    const jobs = Array.from({ length: 40 }, (_, i) => i + 20);
    const answers: number[] = [];
    for await (const answer of pooled<number, number>(ENTRY, jobs, 3, same, lost)) answers.push(answer);
    expect(answers).toEqual(jobs.map((job) => job * job));
  });

  it('begins the largest of the next sixteen jobs a worker, so that none is left to the end', async () => {
    const orderOf = async (sizes: readonly number[]) => {
      const order: number[] = [];
      for await (const turn of pooled<number, number>(COUNTING, sizes, 1, (size) => size, lost))
        order.push(turn);
      return order;
    };
    expect(await orderOf([3, 9, 1, 5])).toEqual([2, 0, 3, 1]);
    // Sizes that grow: no job is done before its turn is sixteen away.
    const rising = await orderOf(Array.from({ length: 40 }, (_, i) => i));
    for (const [index, turn] of rising.entries()) expect(turn).toBeGreaterThanOrEqual(index - 15);
  });

  it('throws what a job threw, in its turn', async () => {
    const answers: number[] = [];
    const all = async () => {
      for await (const answer of pooled<number, number>(ENTRY, [1, 2, 13, 4], 2, same, lost))
        answers.push(answer);
    };
    await expect(all()).rejects.toThrow(UserError);
    expect(answers).toEqual([1, 4]);
  });

  it('loses the one job of a worker that dies, and goes on', async () => {
    for (const workers of [1, 2, 3]) {
      const answers: number[] = [];
      const jobs = [17, 2, 3, 17, 17, 6, 7, 17];
      for await (const answer of pooled<number, number>(ENTRY, jobs, workers, same, lost))
        answers.push(answer);
      expect(answers).toEqual([-17, 4, 9, -17, -17, 36, 49, -17]);
    }
  });

  it('ends with its parent, also while it is at work and hears nothing', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'thole-pool-'));
    await build({
      entryPoints: ['tests/host/hanging-worker.ts', 'tests/host/pool-parent.ts'],
      bundle: true,
      platform: 'node',
      format: 'esm',
      outdir: folder,
      outExtension: { '.js': '.mjs' },
      logLevel: 'error',
    });
    const argv = [join(folder, 'pool-parent.mjs'), join(folder, 'hanging-worker.mjs')];
    const parent = spawn(process.execPath, argv, { stdio: ['ignore', 'pipe', 'inherit'] });
    const worker = Number(String((await once(parent.stdout!, 'data'))[0]));
    const isAlive = () => {
      try {
        return process.kill(worker, 0);
      } catch {
        return false;
      }
    };
    expect(isAlive()).toBe(true);
    parent.kill('SIGKILL');
    for (let i = 0; i < 100 && isAlive(); i++) await new Promise((done) => setTimeout(done, 100));
    expect(isAlive()).toBe(false);
    rmSync(folder, { recursive: true });
  });

  it('lets go of its workers when nobody takes more', async () => {
    for await (const answer of pooled<number, number>(ENTRY, [1, 2, 3], 2, same, lost)) {
      expect(answer).toBe(1);
      break;
    }
  });

  it('says when a worker cannot even start', async () => {
    const gone = new URL('./no-such-worker.mjs', import.meta.url);
    await expect(pooled(gone, [1], 1, same, lost).next()).rejects.toThrow(/no-such-worker/);
  });
});
