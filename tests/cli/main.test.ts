import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/cli/commands/index.js';
import { VERSION } from '../../src/cli/version.js';
import { ran } from './ran.js';

describe('the command line', () => {
  it('prints the version of package.json', async () => {
    const manifest = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
    expect(VERSION).toBe(manifest.version);
    expect(await ran(['--version'])).toEqual({ status: 0, stdout: `${manifest.version}\n`, stderr: '' });
  });

  it('without a command prints help on standard error and does nothing', async () => {
    const { status, stdout, stderr } = await ran([]);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toContain('Usage: thole');
  });

  it('suggests the command that was meant', async () => {
    expect(await ran(['shema'])).toEqual({
      status: 2,
      stdout: '',
      stderr: "thole: error: unknown command 'shema' (Did you mean schema?)\n",
    });
  });

  it('gives the help of a command by its name, and names the mistake where there is no such command', async () => {
    expect((await ran(['help', 'pieces'])).stdout).toContain('Usage: thole pieces');
    expect(await ran(['help', 'piecs'])).toEqual({
      status: 2,
      stdout: '',
      stderr: "thole: error: unknown command 'piecs' (Did you mean pieces?)\n",
    });
  });

  it('suggests the option that was meant', async () => {
    expect(await ran(['schema', '--ot', 'x'])).toEqual({
      status: 2,
      stdout: '',
      stderr: "thole: error: unknown option '--ot' (Did you mean --out?)\n",
    });
    const { stderr } = await ran(['pieces', 'x.gpx', '--strct']);
    expect(stderr).toContain('Did you mean --strict?');
  });

  it('tells a wrong name with those that are right, on one line', async () => {
    const { status, stderr } = await ran(['schema', 'piece']);
    expect(status).toBe(2);
    expect(stderr).toMatch(/^thole: error: there is no schema "piece": choose one of .*pieces.*\n$/);
  });
});

describe.each(Object.keys(COMMANDS))('help of %s', (name) => {
  it('says what it answers, gives an example of itself and the exit status', async () => {
    const { status, stdout } = await ran([name, '--help']);
    const made = await COMMANDS[name]!();
    expect(status).toBe(0);
    expect(made.name).toBe(name);
    expect(stdout).toContain(`Usage: thole ${name}`);
    expect(stdout).toContain('Exit status');
    expect(made.examples.length).toBeGreaterThan(0);
    for (const { line } of made.examples) {
      expect(line.startsWith(`thole ${name}`)).toBe(true);
      expect(stdout).toContain(`$ ${line}`);
    }
    // A screen of 60 lines of 80 columns; the line that says where the samples are comes on top elsewhere.
    const lines = stdout.trimEnd().split('\n');
    expect(lines.length).toBeLessThanOrEqual(59);
    expect(lines.filter((line) => [...line].length > 80)).toEqual([]);
  });
});
