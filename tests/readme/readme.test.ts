import { readFileSync, writeFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { roffText, textOfRoff } from '../tooling/roff-text.js';
import { openShell } from '../tooling/shell-line.js';

/**
 * The `console` blocks of these pages are run, in order: each line that starts with `$ ` is a shell line, and
 * what follows it is what the command must print on standard output. `npm run bless` writes what it prints now.
 */
const PAGES = [
  'README.md',
  'samples/regatta/README.md',
  ...['archive.7', 'gauge.1', 'pieces.1', 'seats.1', 'strokes.1'].map((name) => `man/thole-${name}`),
];
const BLESS = process.env.BLESS === '1';

/** How a page shows what a shell prints: in Markdown a console block, in roff an example that starts with a prompt. */
interface Notation {
  readonly block: RegExp;
  readonly read: (body: string) => string;
  readonly write: (text: string) => string;
}

const MARKDOWN: Notation = {
  block: /^```console\n([\s\S]*?)^```$/gm,
  read: (body) => body,
  write: (text) => `\`\`\`console\n${text}\`\`\``,
};
const ROFF: Notation = {
  block: /^\.EX\n(\$ [\s\S]*?)^\.EE$/gm,
  read: textOfRoff,
  write: (text) => `.EX\n${roffText(text)}.EE`,
};

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

const blocksOf = (text: string, { block, read }: Notation) =>
  [...text.matchAll(block)].map(([whole, body]) => ({ whole, steps: stepsOf(read(body!)) }));

describe.each(PAGES)('%s', (page) => {
  const text = readFileSync(page, 'utf8');
  const notation = page.endsWith('.md') ? MARKDOWN : ROFF;
  const blocks = blocksOf(text, notation);

  it('has examples', () => {
    expect(blocks.length).toBeGreaterThan(0);
  });

  it('prints what its examples print', async () => {
    let now = text;
    for (const { whole, steps } of blocks) {
      const lines: string[] = [];
      for (const { line } of steps) lines.push(`$ ${line}\n${(await shell.run(line)).stdout}`);
      now = now.replace(whole, () => notation.write(lines.join('')));
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

  it('is no longer than a coach reads', () => {
    expect(readFileSync('README.md', 'utf8').split('\n').length).toBeLessThanOrEqual(251);
  });
});
