import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const PACE = ['pace', '--split', '2:00', '--rate', '20'];

let home = '';
beforeAll(() => {
  home = mkdtempSync(join(tmpdir(), 'start-'));
});
afterAll(() => rmSync(home, { recursive: true }));

const kept = (): string[] => {
  const folder = join(home, '.cache', 'thole', 'compiled');
  return readdirSync(folder).map((name) => join(folder, name));
};

/** The program in a process of its own, with what it was given as home. */
const run = (folder: string, words: readonly string[] = PACE) => {
  const env = { PATH: process.env.PATH, HOME: folder };
  const { status, stdout, stderr } = spawnSync(process.execPath, [resolve('bin/thole.js'), ...words], {
    encoding: 'utf8',
    env,
  });
  return { status, stdout, stderr };
};

/** Whether the engine takes what was kept for a use: asked of the engine itself. */
const isTaken = (use: string): boolean => {
  const code = `
    const vm = require('node:vm');
    const made = vm.Script;
    let taken = null;
    vm.Script = class extends made {
      constructor(source, options) { super(source, options); taken = options.cachedData !== undefined && !this.cachedDataRejected; }
    };
    require(${JSON.stringify(resolve('dist/start.cjs'))}).loaded(process, ${JSON.stringify(use)});
    process.on('exit', () => process.stdout.write(String(taken)));`;
  const env = { PATH: process.env.PATH, HOME: home };
  const asking = join(home, 'asking.cjs');
  writeFileSync(asking, code);
  return spawnSync(process.execPath, [asking], { encoding: 'utf8', env }).stdout === 'true';
};

describe('the start of the program', () => {
  it('keeps what was compiled for a command, for this engine and processor by name, and takes it the next time', () => {
    const first = run(home);
    expect(first).toMatchObject({ status: 0, stderr: '' });
    expect(kept()).toHaveLength(1);
    for (const word of [process.platform, process.arch, process.version, 'pace'])
      expect(kept()[0]).toContain(`_${word}`);
    expect(isTaken('pace')).toBe(true);
    expect(run(home)).toEqual(first);
  });

  it('takes what a run on a log has left, whose engine is set otherwise', () => {
    expect(run(home, ['inspect', 'samples/watch/watch.gpx', '--quiet'])).toMatchObject({ status: 0 });
    expect(isTaken('inspect')).toBe(true);
  });

  it('does without what is damaged in any place or cut short, and makes it anew', () => {
    const whole = run(home);
    const file = kept().find((name) => name.endsWith('_pace'))!;
    const bytes = readFileSync(file);
    for (const damage of [
      Buffer.alloc(0),
      bytes.subarray(0, bytes.length / 2),
      bytes.subarray(1),
      Buffer.from('of something else'.repeat(1000)),
      ...[100, 5000, bytes.length / 2 - 1, bytes.length - 1].map((at) => {
        const changed = Buffer.from(bytes);
        changed[at]! ^= 1;
        return changed;
      }),
    ]) {
      writeFileSync(file, damage);
      expect(run(home)).toEqual(whole);
      expect(isTaken('pace')).toBe(true);
    }
  });

  it('keeps what the workers of a batch were compiled to, for those of the next', () => {
    const words = ['outing', 'samples/watch/watch.gpx', 'samples/seats/red.csv', '--jobs', '2', '--quiet'];
    const first = run(home, words);
    expect(first).toMatchObject({ status: 0, stderr: '' });
    expect(kept().some((name) => name.endsWith('_worker'))).toBe(true);
    expect(run(home, words)).toEqual(first);
  });

  it('keeps nothing of a run that failed, and needs no folder that it may write', () => {
    const before = kept().length;
    expect(run(home, ['pace', '--split', 'x']).status).toBe(2);
    expect(kept()).toHaveLength(before);
    expect(run('/proc/nowhere')).toEqual(run(home));
  });
});
