import { readFileSync, writeFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { openShell } from '../tooling/shell-line.js';

/**
 * The README's `console` blocks are run, in order: each line that starts with `$ ` is a shell line, and what
 * follows it is what the command must print on standard output. `npm run bless` writes what it prints now.
 */
const README = 'README.md';
const BLESS = process.env.BLESS === '1';
const BLOCK = /^```console\n([\s\S]*?)^```$/gm;

const shell = openShell();
afterAll(shell.close);

interface Step {
  readonly line: string;
  readonly printed: string;
}

const stepsOf = (block: string): Step[] =>
  block
    .split(/^\$ /m)
    .slice(1)
    .map((part) => {
      const end = part.indexOf('\n');
      return { line: part.slice(0, end), printed: part.slice(end + 1) };
    });

const text = readFileSync(README, 'utf8');
const blocks = [...text.matchAll(BLOCK)].map(([whole, body]) => ({ whole, steps: stepsOf(body!) }));

describe('the README', () => {
  it('has examples', () => {
    expect(blocks.length).toBeGreaterThan(1);
  });

  it('prints what its examples print', async () => {
    let now = text;
    for (const { whole, steps } of blocks) {
      const lines: string[] = [];
      for (const { line } of steps) lines.push(`$ ${line}\n${(await shell.run(line)).stdout}`);
      now = now.replace(whole, () => `\`\`\`console\n${lines.join('')}\`\`\``);
    }
    if (BLESS) writeFileSync(README, now);
    expect(now).toBe(readFileSync(README, 'utf8'));
  });

  it('keeps every line of its examples within 80 columns', () => {
    const wide = blocks.flatMap(({ whole }) => whole.split('\n').filter((line) => [...line].length > 80));
    expect(wide).toEqual([]);
  });

  it('names the two commands that set everything up', () => {
    expect(text).toContain('npm ci && npm run demo');
    expect(text).toContain('npm ci && npm test');
  });
});
