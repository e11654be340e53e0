import { describe, expect, it } from 'vitest';
import { pooled } from '../../src/host/worker-pool.js';
import { UserError } from '../../src/units/user-error.js';

const ENTRY = new URL('./squaring-worker.mjs', import.meta.url);

describe('a pool of workers', () => {
  it('answers in the order of the jobs, whoever is done first', async () => {
    const jobs = Array.from({ length: 40 }, (_, i) => i + 20);
    const answers: number[] = [];
    for await (const answer of pooled<number, number>(ENTRY, jobs, 3)) answers.push(answer);
    expect(answers).toEqual(jobs.map((job) => job * job));
  });

  it('throws what a job threw, in its turn', async () => {
    const answers: number[] = [];
    const all = async () => {
      for await (const answer of pooled<number, number>(ENTRY, [1, 2, 13, 4], 2)) answers.push(answer);
    };
    await expect(all()).rejects.toThrow(UserError);
    expect(answers).toEqual([1, 4]);
  });

  it('lets go of its workers when nobody takes more', async () => {
    for await (const answer of pooled<number, number>(ENTRY, [1, 2, 3], 2)) {
      expect(answer).toBe(1);
      break;
    }
  });

  it('says when a worker cannot even start', async () => {
    const gone = new URL('./no-such-worker.mjs', import.meta.url);
    await expect(pooled(gone, [1], 1).next()).rejects.toThrow(/no-such-worker/);
  });
});
