import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/cli/commands/index.js';
import { longName } from '../../src/cli/flag.js';
import { ran } from './ran.js';

const SHELLS = ['bash', 'zsh', 'fish'] as const;

/** A shell that is not on this machine cannot be asked. */
const isHere = (shell: string): boolean => spawnSync(shell, ['-c', 'true']).status === 0;

let folder = '';
const scriptOf = (shell: string): string => join(folder, shell);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'thole-'));
  for (const shell of SHELLS) writeFileSync(scriptOf(shell), (await ran(['completion', shell])).stdout);
});
afterAll(() => rmSync(folder, { recursive: true }));

const asked = (shell: string, code: string): string[] => {
  const { stdout, stderr } = spawnSync(shell, ['-c', code], { encoding: 'utf8', cwd: resolve('.') });
  expect(stderr).toBe('');
  return stdout
    .split('\n')
    .map((line) => line.split('\t')[0]!)
    .filter((word) => word !== '');
};

/** What a shell offers for the last word of a line. */
const OFFERED = {
  bash: (words: readonly string[]) =>
    asked(
      'bash',
      `source ${scriptOf('bash')}; COMP_WORDS=(${words.map((word) => `'${word}'`).join(' ')}); COMP_CWORD=${words.length - 1}; _thole; printf '%s\\n' "\${COMPREPLY[@]}"`,
    ),
  fish: (words: readonly string[]) =>
    asked('fish', `source ${scriptOf('fish')}; complete -C '${words.join(' ')}'`),
};

describe.each(['bash', 'fish'] as const)('completion in %s', (shell) => {
  const here = isHere(shell);
  if (!here) console.info(`completion in ${shell} was not tried: ${shell} is not installed`);
  const offered = OFFERED[shell];

  it.runIf(here)('offers commands, options and their choices', () => {
    expect(offered(['thole', 'pie'])).toEqual(['pieces']);
    expect(offered(['thole', 'pieces', '--forma'])).toEqual(['--format']);
    expect(offered(['thole', 'pieces', '--placement', 'hu'])).toEqual(['hull']);
    expect(offered(['thole', 'schema', 'piec'])).toEqual(['pieces']);
    expect(offered(['thole', 'completion', 'f'])).toEqual(['fish']);
  });

  it.runIf(here)('offers the files that a place takes, by their endings, and folders', () => {
    const logs = offered(['thole', 'pieces', 'samples/outing/']);
    expect(logs).toContain('samples/outing/outing.gpx');
    expect(logs).not.toContain('samples/outing/plan.json');
    const plans = offered(['thole', 'workout', 'samples/outing/']);
    expect(plans).toContain('samples/outing/plan.json');
    expect(plans).not.toContain('samples/outing/outing.gpx');
    expect(offered(['thole', 'season', 'samples/se']).sort()).toEqual(['samples/season/', 'samples/seats/']);
  });
});

describe('completion', () => {
  it.each(SHELLS)('for %s knows every option of every command', async (shell) => {
    const { stdout } = await ran(['completion', shell]);
    for (const load of Object.values(COMMANDS)) {
      const { name, flags } = await load();
      expect(stdout).toContain(name);
      for (const flag of Object.keys(flags))
        expect(stdout).toContain(longName(flag).slice(shell === 'fish' ? 2 : 0));
    }
  });

  it.each(SHELLS.filter(isHere))('for %s is a script that the shell can read', (shell) => {
    expect(spawnSync(shell, ['-n', scriptOf(shell)], { encoding: 'utf8' })).toMatchObject({
      status: 0,
      stderr: '',
    });
  });

  it('of another shell is refused with those that there are', async () => {
    expect(await ran(['completion', 'tcsh'])).toMatchObject({
      status: 2,
      stderr: 'thole: error: "tcsh" is no shell that completion is made for: choose bash, zsh, fish\n',
    });
  });
});
