import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const BUILT = resolve('dist');

/** What a script that gets the starter says. */
const said = (folder: string, script: string): string => {
  const code = `const { loaded } = require(${JSON.stringify(join(folder, 'start.cjs'))}); ${script}`;
  const { status, stdout, stderr } = spawnSync(process.execPath, ['-e', code], { encoding: 'utf8' });
  expect([status, stderr]).toEqual([0, '']);
  return stdout;
};

/** The program in a folder of its own, with what is given for that which the engine compiled. */
const copied = (compiled: string | null): string => {
  const folder = mkdtempSync(join(tmpdir(), 'start-'));
  for (const name of ['start.cjs', 'main.cjs']) copyFileSync(join(BUILT, name), join(folder, name));
  if (compiled !== null) writeFileSync(join(folder, 'main.compiled'), compiled);
  return folder;
};

describe('the start of the program', () => {
  it('takes what was compiled when it was built', () => {
    expect(said(BUILT, 'console.log(loaded().script.cachedDataRejected)')).toBe('false\n');
  });

  it.each([
    ['missing', null],
    ['empty', ''],
    ['of something else', 'compiled once, and not of this'.repeat(1000)],
  ])('does without where that is %s', (_, compiled) => {
    const pace = "loaded().program.main(['pace', '--split', '2:00'], process)";
    expect(said(copied(compiled), pace)).toBe(said(BUILT, pace));
  });
});
