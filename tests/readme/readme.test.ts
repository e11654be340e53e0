import { readFileSync, writeFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { openShell } from '../tooling/shell-line.js';

/**
 * The `console` blocks of these pages are run, in order: each line that starts with `$ ` is a shell line, and
 * what follows it is what the command must print on standard output. `npm run bless` writes what it prints now.
 */
const PAGES = ['README.md', 'samples/regatta/README.md'];
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

const blocksOf = (text: string) =>
  [...text.matchAll(BLOCK)].map(([whole, body]) => ({ whole, steps: stepsOf(body!) }));

describe.each(PAGES)('%s', (page) => {
  const text = readFileSync(page, 'utf8');
  const blocks = blocksOf(text);

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
    if (BLESS) writeFileSync(page, now);
    expect(now).toBe(readFileSync(page, 'utf8'));
  }, 180_000);

  it('keeps every line that its examples print within 80 columns', () => {
    const printed = blocks.flatMap(({ steps }) => steps.flatMap((step) => step.printed.split('\n')));
    expect(printed.filter((line) => [...line].length > 80)).toEqual([]);
  });
});

describe('README.md', () => {
  it('names the two commands that set everything up', () => {
    const text = readFileSync('README.md', 'utf8');
    expect(text).toContain('npm ci && npm run demo');
    expect(text).toContain('npm ci && npm test');
  });
});
