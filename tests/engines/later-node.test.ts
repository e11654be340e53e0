import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { openShell } from '../tooling/shell-line.js';
import { engineHere } from './engine-here.js';

const CASES = 'tests/cases';

/** Cases in which Node.js itself has most to say: pipes, workers, faults, and each kind of work once. */
const chosen = readdirSync(CASES, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name)
  .filter((name) =>
    /pipe|jobs|binary|damaged|^(inspect|pieces|regatta|season|strokes|workout)-(json|csv)$/.test(name),
  );

describe.each(['node22', 'node24'])('under %s', (name) => {
  const engine = engineHere(`${name}/bin/node`);
  const shell = openShell(engine === null ? [] : [dirname(engine)]);
  afterAll(shell.close);

  it.runIf(engine !== null)('the program starts under that version', async () => {
    expect((await shell.run('node --version')).stdout).toMatch(new RegExp(`^v${name.slice(4)}\\.`));
    expect((await shell.run('thole --version')).status).toBe('0\n');
  });

  it.runIf(engine !== null).each(chosen)('%s gives the same bytes', { timeout: 240_000 }, async (folder) => {
    const expected = (part: string) => readFileSync(join(CASES, folder, `expected-${part}`), 'utf8');
    expect(await shell.run(readFileSync(join(CASES, folder, 'cmd'), 'utf8'))).toEqual({
      stdout: expected('stdout'),
      stderr: expected('stderr'),
      status: expected('status'),
    });
  });
});
