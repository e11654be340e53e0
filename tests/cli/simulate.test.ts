import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { ran } from './ran.js';

const folder = mkdtempSync(join(tmpdir(), 'thole-simulate-'));
afterAll(() => rmSync(folder, { recursive: true }));

const write = (name: string, scenario: unknown): string => {
  const path = join(folder, name);
  writeFileSync(path, JSON.stringify(scenario, null, 1));
  return path;
};

const good = {
  craft: '1x',
  seed: 1,
  script: [{ do: 'row', rate_spm: 20, strokes: 5 }],
  sensors: { gnss: { hz: 1 }, imu: { hz: 20 } },
};

describe('thole simulate', () => {
  it('writes the logs and the truth, and says so', async () => {
    const out = join(folder, 'made', 'here');
    const { status, stdout, stderr } = await ran(['simulate', write('good.json', good), '--out', out]);
    expect([status, stderr]).toEqual([0, '']);
    const names = ['outing.gpx', 'outing.imu.csv', 'outing.truth.json'];
    expect(stdout).toBe(names.map((name) => `${join(out, name)}\n`).join(''));
    expect(readdirSync(out)).toEqual(names);
    expect(readFileSync(join(out, 'outing.imu.csv'), 'utf8')).toMatch(/^time_s,ax_mps2,/);
  });

  it.each([
    ['rate', { ...good, script: [{ do: 'row', rate_spm: 300, strokes: 5 }] }, /rate_spm/],
    ['extent', { ...good, script: [{ do: 'row', rate_spm: 20 }] }, /exactly one of time_s/],
    ['sensors', { ...good, sensors: {} }, /put a gnss or an imu aboard/],
    ['typing', { ...good, sede: 4 }, /sede/],
    ['mooring', { ...good, path: { kind: 'moored', heading_deg: 0 } }, /moored boat is not rowed/],
  ])('refuses a wrong %s on one line, and writes nothing', async (name, scenario, message) => {
    const out = join(folder, name);
    const { status, stdout, stderr } = await ran(['simulate', write(`${name}.json`, scenario), '--out', out]);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(message);
    expect(stderr.trimEnd()).not.toContain('\n');
    expect(readdirSync(folder)).not.toContain(name);
  });

  it('publishes the shape of a scenario', async () => {
    const { status, stdout } = await ran(['schema', 'scenario']);
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({ title: 'thole scenario' });
  });
});
