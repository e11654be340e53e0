import { tmpdir } from 'node:os';
import { dirname } from 'node:path';
import { expect, it } from 'vitest';
import temporaryFolder from './temporary-folder.js';

it('tests write into a folder that goes when they end', () => {
  expect(tmpdir()).toMatch(/thole-tests-\w+$/);
  const before = tmpdir();
  const remove = temporaryFolder();
  expect(dirname(tmpdir())).toBe(before);
  remove();
  process.env.TMPDIR = before;
});
