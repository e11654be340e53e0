import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderLogs } from '../../src/host/folder-logs.js';
import { imuBeside } from '../../src/host/sidecars.js';

const folder = mkdtempSync(join(tmpdir(), 'thole-'));
mkdirSync(join(folder, 'b', 'c'), { recursive: true });
mkdirSync(join(folder, '.hidden'));
for (const name of [
  'z.gpx',
  'a.fit.gz',
  'outings.csv',
  'notes.txt',
  'b/x.gpx',
  'b/x.imu.csv',
  'b/alone.imu.csv',
  'b/c/y.tcx',
  '.hidden/q.gpx',
])
  writeFileSync(join(folder, name), '');
symlinkSync(folder, join(folder, 'b', 'loop'));
execFileSync('mkfifo', [join(folder, 'pipe.csv')]);

describe('the logs below a folder', () => {
  it('are found in order, without sheets, hidden files, loops and the IMU logs of tracks', async () => {
    const found = (await folderLogs(folder, () => undefined)).map((path) => relative(folder, path));
    expect(found).toEqual(['a.fit.gz', 'z.gpx', 'b/alone.imu.csv', 'b/x.gpx', 'b/c/y.tcx']);
  });

  it('have their IMU log beside them', () => {
    expect(imuBeside(join(folder, 'b/x.gpx'))).toBe(join(folder, 'b/x.imu.csv'));
    expect(imuBeside(join(folder, 'b/c/y.tcx'))).toBeNull();
    expect(imuBeside(join(folder, 'b/x.imu.csv'))).toBeNull();
  });

  it('of a folder that is not there are an error of the user', async () => {
    await expect(folderLogs(join(folder, 'no'), () => undefined)).rejects.toThrow(/cannot read the folder/);
  });
});
