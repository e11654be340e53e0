import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, describe, expect, it } from 'vitest';
import { FIX_COUNT, NEIGHBOUR, SEED_LOGS } from '../fuzz/seed-logs.js';
import { ran } from './ran.js';

// Faults that attacks found, each as small as it gets. Every log here is made of the samples.

const folder = mkdtempSync(join(tmpdir(), 'thole-hostile-'));
afterAll(() => rmSync(folder, { recursive: true }));

let made = 0;
/** A folder of its own with these files. */
const filesIn = (files: Readonly<Record<string, string | Uint8Array>>): string => {
  const at = join(folder, String(made++));
  mkdirSync(at);
  for (const [name, content] of Object.entries(files)) writeFileSync(join(at, name), content);
  return at;
};
const track = Buffer.from(NEIGHBOUR.bytes).toString();
const gpx = Buffer.from(SEED_LOGS[0]!.bytes).toString();
const BUILT = resolve('bin/thole.js');
const started = (argv: readonly string[], options: Parameters<typeof spawnSync>[2] = {}) =>
  spawnSync(process.execPath, [BUILT, ...argv], { encoding: 'utf8', timeout: 60_000, ...options });
const json = ({ stdout }: { readonly stdout: string }) => JSON.parse(stdout);

describe('one log of a batch', () => {
  const values = ['9007199254740993', '-1e308', '1e12', '4294967295', '65535'];
  it.each(values)('with a cadence of %s costs nothing but that cadence', async (value) => {
    const at = filesIn({
      'bad.csv': `time_s,lat_deg,lon_deg,cadence_spm\n0,31,-37,${value}\n1,31.00001,-37,20\n2,31.00002,-37,20\n`,
      'good.csv': track,
    });
    const logs = [join(at, 'bad.csv'), join(at, 'good.csv')];
    const { status, stdout } = await ran(['outing', ...logs, '--jobs', '1', '--format', 'json']);
    expect([status, json({ stdout }).files]).toEqual([0, logs]);
    expect(json({ stdout }).warnings.map(({ code }: { code: string }) => code)).toContain('value-impossible');
  });

  it.each(['constructor', 'toString', '__proto__', 'hasOwnProperty'])(
    'may have a column %s',
    async (name) => {
      const at = filesIn({ 'bad.csv': track.replace('ele_m', name), 'good.csv': track });
      const { status, stdout } = await ran([
        'inspect',
        join(at, 'bad.csv'),
        join(at, 'good.csv'),
        '--jobs',
        '1',
        '--format',
        'json',
      ]);
      expect([status, json({ stdout }).files.length]).toEqual([0, 2]);
    },
  );

  it('may lie at a pole', async () => {
    const rows = Array.from(
      { length: 60 },
      (_, i) => `${i},${i % 3 === 0 ? 89.9999999 : 31.49 + i * 3e-5},${-37 - i * 3e-5}`,
    );
    const at = filesIn({ 'bad.csv': `time_s,lat_deg,lon_deg\n${rows.join('\n')}\n`, 'good.csv': track });
    const logs = [join(at, 'bad.csv'), join(at, 'good.csv')];
    const { status, stdout } = await ran(['outing', ...logs, '--jobs', '1', '--format', 'json']);
    expect([status, json({ stdout }).files]).toEqual([0, logs]);
    expect(json({ stdout }).warnings.map(({ code }: { code: string }) => code)).toContain(
      'position-impossible',
    );
  });

  it('may have many equal and nearly equal times', async () => {
    const rows = track.split('\n');
    const close = rows.map((row, i) =>
      i === 0 ? row : row.replace(/^[^,]*/, new Date(1.78e12 + Math.floor(i / 60)).toISOString()),
    );
    const at = filesIn({ 'bad.csv': close.join('\n'), 'good.csv': track });
    for (const command of ['inspect', 'outing', 'pieces', 'curve']) {
      const { status, stdout } = await ran([
        command,
        join(at, 'bad.csv'),
        join(at, 'good.csv'),
        '--jobs',
        '1',
        '--format',
        'json',
      ]);
      expect([
        command,
        [0, 3].includes(status),
        json({ stdout }).files.includes(join(at, 'good.csv')),
      ]).toEqual([command, true, true]);
    }
  });

  it('that ends before --from, or is of another day, is its own fault', async () => {
    const at = filesIn({ 'short.csv': track.split('\n').slice(0, 20).join('\n'), 'good.csv': track });
    const logs = [join(at, 'short.csv'), join(at, 'good.csv')];
    const asked = ['--jobs', '1', '--format', 'json'];
    const late = await ran(['pieces', ...logs, '--from', '+0:40', '--to', '+1:40', ...asked]);
    expect([late.status, json(late).pieces.length, late.stderr]).toEqual([
      3,
      1,
      expect.stringMatching(/short\.csv.*is not within/),
    ]);
    // Alone it is a mistake of the user.
    expect((await ran(['pieces', logs[0]!, '--from', '+0:40', ...asked])).status).toBe(2);
  });

  it('that goes over decades is refused by name', async () => {
    const at = filesIn({
      'bad.gpx': gpx.replaceAll('2026-05-05T17:13', '1996-05-05T17:13'),
      'good.csv': track,
    });
    const read = await ran([
      'outing',
      join(at, 'bad.gpx'),
      join(at, 'good.csv'),
      '--jobs',
      '1',
      '--format',
      'json',
    ]);
    expect([read.status, json(read).files]).toEqual([3, [join(at, 'good.csv')]]);
    expect(read.stderr).toMatch(/bad\.gpx.* goes from 1996-05-05 to 2026-05-05/);
  });
});

describe('an IMU log that is dead', () => {
  it.each([
    ['empty', ''],
    ['a header alone', 'time_s,ax_mps2,ay_mps2,az_mps2\n'],
    ['junk', 'ÿþ\u0000junk'],
    ['of positions elsewhere', track.replaceAll('31.', '41.')],
  ])('%s, is a warning; the track is analysed', async (_, content) => {
    const at = filesIn({ 'x.csv': track, 'x.imu.csv': content });
    const alone = json(await ran(['outing', `${filesIn({ 'x.csv': track })}/x.csv`, '--format', 'json']));
    const read = await ran(['outing', join(at, 'x.csv'), '--format', 'json']);
    expect([read.status, json(read).outings[0].distance_m]).toEqual([0, alone.outings[0].distance_m]);
    expect(read.stderr).toMatch(/IMU log cannot be used/);
    const season = await ran(['season', at, '--no-cache', '--jobs', '1', '--format', 'json']);
    expect([season.status, json(season).outings.length]).toEqual([0, 1]);
  });

  it('a folder or a pipe, too; one that was named and is not there is a fault', async () => {
    const at = filesIn({ 'x.csv': track, 'y.csv': track });
    mkdirSync(join(at, 'x.imu.csv'));
    execFileSync('mkfifo', [join(at, 'y.imu.csv')]);
    for (const name of ['x.csv', 'y.csv']) {
      const read = await ran(['outing', join(at, name), '--format', 'json']);
      expect([name, read.status, json(read).outings.length]).toEqual([name, 0, 1]);
    }
    expect((await ran(['outing', join(at, 'x.csv'), '--imu', join(at, 'no.csv')])).status).toBe(3);
  });
});

describe('what is written', () => {
  it('is written with standard error closed, too', async () => {
    const at = filesIn({ 'x.csv': track, 'cut.gpx': gpx.slice(0, 9000) });
    const out = join(at, 'out.json');
    const line = `"$0" "$1" outing "$2" --format json --out "$3" 2>&1 | head -c 1 >/dev/null; exit \${PIPESTATUS[0]}`;
    const { status } = spawnSync('bash', ['-c', line, process.execPath, BUILT, join(at, 'cut.gpx'), out]);
    expect([status, JSON.parse(readFileSync(out, 'utf8')).files]).toEqual([0, [join(at, 'cut.gpx')]]);
  });

  it('never goes over what is read', async () => {
    const at = filesIn({
      'x.csv': track,
      'x.imu.csv': '',
      'outings.csv': 'file,crew\nx.csv,Ada\n',
      'b.json': '{}',
    });
    const x = join(at, 'x.csv');
    const lines = [
      ['outing', x, '--out', x],
      ['outing', x, '--out', join(at, '.', 'x.imu.csv')],
      ['strokes', x, '--out', join(at, 'outings.csv')],
      ['outing', x, '--boat', join(at, 'b.json'), '--out', join(at, 'b.json')],
      ['season', at, '--no-cache', '--out', x],
      ['check', x, '--format', 'junit', '--out', x],
    ];
    for (const argv of lines) {
      const { status, stderr } = await ran(argv);
      expect([argv, status, stderr]).toEqual([
        argv,
        2,
        expect.stringMatching(/^thole: error: --out .* would overwrite/),
      ]);
    }
    expect(readFileSync(x, 'utf8')).toBe(track);
  });

  it.runIf(process.platform === 'linux')('to a full disk is one line and exit 2', () => {
    const at = filesIn({ 'x.csv': track });
    const line = `"$0" "$1" outing "$2" --quiet > /dev/full`;
    const { status, stderr } = spawnSync('bash', ['-c', line, process.execPath, BUILT, join(at, 'x.csv')], {
      encoding: 'utf8',
    });
    expect([status, stderr]).toEqual([
      2,
      'thole: error: cannot write the result to standard output: the disk is full\n',
    ]);
  });

  it('to a terminal holds no escape codes, not even in a mistake', async () => {
    const evil = '\u001b[2Jx\u0007';
    const at = filesIn({
      'x.csv': track,
      'entries.csv': `event,crew,craft,track\nA,${evil},9x,x.csv\n`,
      'rules.json': JSON.stringify({ rules: [{ name: evil, figure: evil, min: 1 }] }),
      'outings.csv': `file,crew,${evil}\nx.csv,a,b\n`,
    });
    const straight = '31.4999,-37.2500:31.5010,-37.2600';
    const lines = [
      ['regatta', join(at, 'entries.csv'), '--straight', straight],
      ['check', join(at, 'x.csv'), '--rules', join(at, 'rules.json')],
      ['outing', join(at, 'x.csv')],
      ['outing', `${evil}.gpx`],
      ['workout', evil, join(at, 'x.csv')],
      [`--${evil}`],
      [evil],
    ];
    for (const argv of lines) {
      const { stdout, stderr, status } = await ran(argv);
      expect([argv, status > 1, /[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/.test(stdout + stderr)]).toEqual([
        argv,
        true,
        false,
      ]);
    }
  });
});

describe('a check in CI', () => {
  it('ends alike in every format, and names a rule that was held against nothing', async () => {
    const at = filesIn({
      'x.csv': track,
      'rules.json': JSON.stringify({
        rules: [
          { name: 'there', figure: 'inspect.recordings.*.duration_s', min: 1 },
          { name: 'nowhere', figure: 'inspect.recordings.*.duration_s', min: 1, files: '*.fit' },
        ],
      }),
    });
    for (const strict of [[], ['--strict']]) {
      const statuses: number[] = [];
      for (const format of ['table', 'json', 'csv', 'junit']) {
        const read = await ran([
          'check',
          join(at, 'x.csv'),
          '--rules',
          join(at, 'rules.json'),
          '--format',
          format,
          ...strict,
        ]);
        statuses.push(read.status);
        expect(read.stderr).toContain('nowhere');
        if (format === 'junit')
          expect(read.stdout).toMatch(/name="nowhere">\s*<skipped message="held against/);
      }
      expect(statuses).toEqual(Array(4).fill(strict.length));
    }
  });
});

describe('a season', () => {
  it('goes on past a folder that is locked, and says so', () => {
    const at = filesIn({ 'x.csv': track });
    mkdirSync(join(at, 'lost+found'));
    mkdirSync(join(at, 'more'));
    writeFileSync(join(at, 'more', 'y.csv'), track.replaceAll('05-05', '05-06'));
    chmodSync(join(at, 'lost+found'), 0);
    chmodSync(folder, 0o755);
    // To the superuser no folder is locked.
    const user = process.getuid?.() === 0 ? { uid: 65_534, gid: 65_534 } : {};
    const { status, stdout, stderr } = started(['season', at, '--no-cache', '--format', 'json'], {
      ...user,
      env: { PATH: process.env.PATH, HOME: at },
    });
    chmodSync(join(at, 'lost+found'), 0o755);
    expect([status, JSON.parse(String(stdout)).outings.length]).toEqual([0, 2]);
    expect(stderr).toMatch(/lost\+found: This folder cannot be read .*permission denied/);
  });

  it('goes on past a log whose name the system cannot look at', () => {
    const at = filesIn({ 'x.csv': track, 'y.csv': track.replaceAll('05-05', '05-06') });
    const far = join(at, `${'a'.repeat(300)}.csv`);
    const line = ['outing', join(at, 'x.csv'), far, join(at, 'y.csv'), '--jobs', '2', '--format', 'json'];
    const { status, stdout, stderr } = started(line);
    expect([status, JSON.parse(String(stdout)).outings.length]).toEqual([3, 2]);
    expect(stderr).not.toContain('fault of thole');
  });

  it('passes over a pipe that is called as a sheet', async () => {
    const at = filesIn({ 'x.csv': track });
    execFileSync('mkfifo', [join(at, 'outings.csv')]);
    const read = await ran(['season', at, '--no-cache', '--jobs', '1', '--format', 'json']);
    expect([read.status, json(read).outings.length]).toEqual([0, 1]);
    expect(read.stderr).toMatch(/no outing sheet/);
  });
});

describe('an input file', () => {
  it('that never ends or is none is refused at once', async () => {
    const at = filesIn({ 'x.csv': track });
    const x = join(at, 'x.csv');
    for (const argv of [
      ['workout', '/dev/zero', x],
      ['outing', x, '--boat', '/dev/zero'],
      ['check', x, '--rules', '/dev/urandom'],
    ])
      expect([argv, (await ran(argv)).status]).toEqual([argv, 2]);
    expect((await ran(['outing', '/dev/zero'])).status).toBe(3);
  });

  it.runIf(process.platform === 'linux')('whose name is no UTF-8 is opened', () => {
    const at = filesIn({});
    const name = Buffer.concat([Buffer.from(`${at}/sortie-`), Buffer.of(0xe9), Buffer.from('.csv')]);
    writeFileSync(name, track);
    writeFileSync(join(at, 'other.csv'), track.replaceAll('05-05', '05-06'));
    const line = `"$0" "$1" outing "$2"/sortie-$'\\xe9'.csv "$2"/other.csv --format json`;
    const named = spawnSync('bash', ['-c', line, process.execPath, BUILT, at], { encoding: 'utf8' });
    expect([named.status, JSON.parse(named.stdout).outings.length]).toEqual([0, 2]);
    const below = started(['season', at, '--no-cache', '--format', 'json']);
    expect([below.status, JSON.parse(String(below.stdout)).outings.length]).toEqual([0, 2]);
  });

  it('that is packed and damaged gives what comes before the damage', async () => {
    const packed = gzipSync(track);
    packed[packed.length >> 1]! ^= 16;
    const at = filesIn({
      'x.csv.gz': packed,
      'y.csv.gz': Buffer.concat([gzipSync(track), Buffer.from('junk')]),
    });
    const x = await ran(['inspect', join(at, 'x.csv.gz'), '--format', 'json']);
    expect([x.status, json(x).recordings[0].channels[0].sample_count > 60, x.stderr]).toEqual([
      0,
      true,
      expect.stringMatching(/packed file (is damaged|.*damaged somewhere)/),
    ]);
    const y = await ran(['inspect', join(at, 'y.csv.gz'), '--format', 'json']);
    expect([y.status, json(y).recordings[0].channels[0].sample_count]).toEqual([0, FIX_COUNT]);
  });
});
