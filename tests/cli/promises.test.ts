import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { openCache } from '../../src/host/cache.js';
import { NEIGHBOUR } from '../fuzz/seed-logs.js';
import { ran } from './ran.js';

// What the README promises of batches, exit status, --out and what a season keeps, a test a promise. KILLS=100 kills a
// hundred times; that many take minutes.

const KILLS = Number(process.env.KILLS ?? 6);
const BUILT = resolve('bin/thole.js');
const track = Buffer.from(NEIGHBOUR.bytes).toString();

const folder = mkdtempSync(join(tmpdir(), 'thole-promises-'));
afterAll(() => rmSync(folder, { recursive: true }));
const logs = Array.from({ length: 10 }, (_, i) => join(folder, `log-${i}.csv`));
for (const [i, log] of logs.entries())
  writeFileSync(log, i === 4 ? 'no log' : track.replaceAll('05-05', `05-${String(i + 10)}`));

const started = (argv: readonly string[], env: Readonly<Record<string, string>> = {}) =>
  spawnSync(process.execPath, [BUILT, ...argv], {
    encoding: 'utf8',
    env: { PATH: process.env.PATH, HOME: folder, ...env },
  });

describe('a batch', () => {
  it('answers every other log where one of ten is bad, names it, and ends with 3', async () => {
    for (const command of ['inspect', 'outing', 'pieces', 'curve', 'check']) {
      const { status, stdout, stderr } = await ran([command, ...logs, '--jobs', '1', '--format', 'json']);
      const { files, warnings } = JSON.parse(stdout);
      expect([command, status, files]).toEqual([command, 3, logs.filter((_, i) => i !== 4)]);
      expect(stderr).toContain('log-4.csv');
      expect(warnings.filter(({ file }: { file: string }) => file === logs[4])).toHaveLength(1);
    }
  });

  it('ends with 2 before 3, and with 3 before 1', async () => {
    const rules = join(folder, 'rules.json');
    const text = JSON.stringify({ rules: [{ name: 'far', figure: 'outing.distance_m', min: 1e6 }] });
    writeFileSync(rules, text);
    const checked = (...argv: string[]) =>
      ran(['check', ...argv, '--rules', rules, '--jobs', '1', '--quiet']);
    expect((await ran(['inspect', logs[0]!, '--quiet'])).status).toBe(0);
    expect((await checked(logs[0]!)).status).toBe(1);
    expect((await checked(logs[0]!, logs[4]!)).status).toBe(3);
    expect((await checked(logs[0]!, logs[4]!, '--craft', '9x')).status).toBe(2);
  });

  it('gives the same bytes for 1, 2 and 4 jobs, in any locale and time zone', () => {
    const asked = ['outing', ...logs, '--format', 'json'];
    const given = [
      started([...asked, '--jobs', '1']),
      started([...asked, '--jobs', '2'], { LC_ALL: 'tr_TR.UTF-8', TZ: 'Asia/Kathmandu' }),
      started([...asked, '--jobs', '4'], { LANG: 'ar_EG', TZ: 'America/St_Johns' }),
    ];
    for (const { status, stdout, stderr } of given)
      expect([status, stdout, stderr]).toEqual([3, given[0]!.stdout, given[0]!.stderr]);
    expect(given[0]!.stdout.length).toBeGreaterThan(1000);
  });
});

describe('--out', () => {
  it('leaves what was there, or the whole result, whenever the run is killed', async () => {
    const at = join(folder, 'killed');
    mkdirSync(at);
    const out = join(at, 'out.json');
    writeFileSync(out, '"before"');
    for (let kill = 0; kill < KILLS; kill++) {
      const run = spawn(process.execPath, [
        BUILT,
        'outing',
        logs[0]!,
        '--format',
        'json',
        '--out',
        out,
        '--quiet',
      ]);
      const ended = once(run, 'exit');
      setTimeout(() => run.kill('SIGKILL'), 40 + (kill * 400) / KILLS);
      await ended;
      const kept = JSON.parse(readFileSync(out, 'utf8'));
      expect(kept === 'before' || kept.schema === 'thole/outing/1').toBe(true);
    }
  });

  it.runIf(process.platform === 'linux')('leaves what was there where it cannot be written whole', () => {
    const out = join(folder, 'full.csv');
    writeFileSync(out, 'before');
    // As on a full disk: no file may grow beyond 1 kB.
    const line = `trap '' XFSZ; ulimit -f 1; "$0" "$1" strokes "$2" --format csv --out "$3"`;
    const { status, stderr } = spawnSync('bash', ['-c', line, process.execPath, BUILT, logs[0]!, out], {
      encoding: 'utf8',
      env: { PATH: process.env.PATH, HOME: '/nonexistent' },
    });
    expect([status, stderr.includes('cannot write'), readFileSync(out, 'utf8')]).toEqual([2, true, 'before']);
    expect(readdirSync(folder).filter((name) => name.startsWith('.thole-'))).toEqual([]);
  });
});

describe('what a season keeps', () => {
  const season = (cache: string) => [
    'season',
    folder,
    '--cache',
    cache,
    '--jobs',
    '2',
    '--format',
    'json',
    '--quiet',
  ];

  it('is whole whenever runs are killed, and with two runs at once', async () => {
    const fresh = started(season(join(folder, '.fresh'))).stdout;
    const cache = join(folder, '.cache-killed');
    for (let kill = 0; kill < KILLS; kill++) {
      const run = spawn(process.execPath, [BUILT, ...season(cache)], { stdio: 'ignore' });
      const ended = once(run, 'exit');
      setTimeout(() => run.kill('SIGKILL'), 100 + (kill * 900) / KILLS);
      await ended;
    }
    const both = [0, 1].map(async () => {
      const run = spawn(process.execPath, [BUILT, ...season(cache)], { stdio: ['ignore', 'pipe', 'ignore'] });
      let text = '';
      run.stdout.on('data', (chunk) => {
        text += String(chunk);
      });
      await once(run, 'close');
      return text;
    });
    for (const text of await Promise.all(both)) expect(text).toBe(fresh);
    expect(started(season(cache)).stdout).toBe(fresh);
  });

  it('is never believed where it is damaged, in 500 ways', async () => {
    const at = join(folder, '.entries');
    const cache = openCache<{ readonly value: string }>(at);
    const value = { value: track.slice(0, 300) };
    for (let i = 0; i < 500; i++) {
      const key = `${(i % 16).toString(16)}f${'0'.repeat(30)}${String(i).padStart(4, '0')}`;
      await cache.put(key, value);
      const path = join(at, key.slice(0, 2), `${key}.json`);
      const bytes = readFileSync(path);
      const place = (i * 7919) % bytes.length;
      const damaged = [
        () => bytes.subarray(0, place),
        () => bytes.map((byte, j) => (j === place ? byte ^ (1 << (i % 8)) : byte)),
        () => Buffer.concat([bytes.subarray(0, place), Buffer.from('x'), bytes.subarray(place)]),
        () => bytes.fill(0, place, Math.min(bytes.length, place + 20)),
      ][i % 4]!();
      writeFileSync(path, damaged);
      const kept = await cache.get(key);
      // What follows the line that is kept does not count.
      if (kept.state === 'kept') expect(kept.value).toEqual(value);
      else expect(kept.state).toBe('damaged');
    }
  });
});
