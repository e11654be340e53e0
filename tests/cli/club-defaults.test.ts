import { copyFileSync, mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ran } from './ran.js';

/** A folder with a log, an outing sheet without a craft or with one, and a file of defaults above it. */
const folderWith = (defaults: string, sheet: string | null = null) => {
  const top = mkdtempSync(join(tmpdir(), 'defaults-'));
  const folder = join(top, 'logs');
  mkdirSync(folder);
  copyFileSync('samples/watch/watch.gpx', join(folder, 'watch.gpx'));
  writeFileSync(join(top, 'thole.json'), defaults);
  if (sheet !== null) writeFileSync(join(folder, 'outings.csv'), sheet);
  return { top, log: join(folder, 'watch.gpx') };
};

describe('the defaults of a club', () => {
  it('are found above the log, and an option wins', async () => {
    const { log } = folderWith('{"tz": "Europe/Zurich", "speed": "kmh"}');
    const here = await ran(['outing', log]);
    expect(here.stdout).toContain('Times of day are those of Europe/Zurich.');
    expect(here.stdout).toContain('speed km/h');
    const other = await ran(['outing', log, '--tz', 'UTC', '--speed', 'mps']);
    expect(other.stdout).toContain('Times of day are UTC.');
    expect(other.stdout).toContain('speed m/s');
  });

  it('name a craft only where the outing sheet does not', async () => {
    const defaults = '{"craft": "4x"}';
    const crafts = async (sheet: string | null) => {
      const { log } = folderWith(defaults, sheet);
      const { stdout } = await ran(['outing', log, '--format', 'json', '--quiet']);
      return (JSON.parse(stdout) as { outings: { craft: string }[] }).outings[0]!.craft;
    };
    expect(await crafts(null)).toBe('4x');
    expect(await crafts('file,craft\nwatch.gpx,1x\n')).toBe('1x');
  });

  it('are shown by inspect, with what an option overrode', async () => {
    const { top, log } = folderWith('{"tz": "Europe/Zurich", "craft": "4x"}');
    const { stdout } = await ran(['inspect', log, '--craft', '2x', '--format', 'json']);
    expect(JSON.parse(stdout).defaults).toEqual([
      { file: join(top, 'thole.json'), name: 'tz', value: 'Europe/Zurich', used: true },
      { file: join(top, 'thole.json'), name: 'craft', value: '4x', used: false },
    ]);
  });

  it('stop with file, line and key where they are wrong', async () => {
    const { top, log } = folderWith('{\n  "tz": "Mars/Olympus"\n}');
    const { status, stderr } = await ran(['outing', log]);
    expect(status).toBe(2);
    expect(stderr).toContain(
      `${join(top, 'thole.json')}, line 2: key "tz": "Mars/Olympus" is not a time zone`,
    );
    const slip = folderWith('{"craff": "4x"}');
    expect((await ran(['outing', slip.log])).stderr).toContain('did you mean "craft"');
  });
});

describe('files beside logs', () => {
  it('that are no logs are left out with a note where a pattern named them', async () => {
    const { log } = folderWith('{}', 'file,crew\nwatch.gpx,Heron\n');
    const sheet = join(log, '..', 'outings.csv');
    const { status, stdout, stderr } = await ran(['outing', log, sheet, '--jobs', '1', '--format', 'csv']);
    expect(status).toBe(0);
    expect(stdout.trim().split('\n')).toHaveLength(2);
    expect(stderr).toContain('files that are no logs left out');
  });

  it('of which a row is wrong stop the log of that row alone', async () => {
    const { log } = folderWith('{}', 'file,craft\nwatch.gpx,9x\nother.gpx,1x\n');
    const other = join(log, '..', 'other.gpx');
    copyFileSync('samples/watch/watch.gpx', other);
    const { status, stdout, stderr } = await ran(['outing', log, other, '--jobs', '1', '--format', 'csv']);
    expect(status).toBe(3);
    expect(stdout).toContain('other.gpx');
    expect(stderr).toMatch(/error: .*watch\.gpx: .*line 2, column craft/);
  });

  it('that are called like an outing sheet and are none are left alone', async () => {
    const { log } = folderWith('{}', 'week,outing_count\n2026-W1,3\n');
    const { status, stderr } = await ran(['outing', log, '--quiet']);
    expect([status, stderr]).toEqual([0, '']);
  });
});
