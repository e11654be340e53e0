import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/cli/commands/index.js';
import { commandSections, manualSections, messageSections } from './manual.js';

const MADE = /(\.\\" made from the commands, by npm run man\n)[\s\S]*?(\n\.\\" end of what is made)/;
const BLESS = process.env.BLESS === '1';

const commands = await Promise.all(Object.values(COMMANDS).map((load) => load()));

/** A page that is not there yet: what is written by hand follows what is made. */
const newPage = (name: string): string =>
  `.TH THOLE\\-${name.toUpperCase()} 1 "" "thole" "User Commands"\n.\\" made from the commands, by npm run man\n\n.\\" end of what is made\n.SH SEE ALSO\n.BR thole (1)\n`;

const PAGES: readonly (readonly [page: string, made: () => string, first: () => string])[] = [
  ['man/thole.1', () => manualSections(commands), () => ''],
  ['man/thole-methods.7', messageSections, () => ''],
  ...commands.map(
    (command) =>
      [`man/thole-${command.name}.1`, () => commandSections(command), () => newPage(command.name)] as const,
  ),
];

describe('the manual', () => {
  it.each(PAGES)('%s is in step with the commands; npm run man brings it there', (page, made, first) => {
    const text = existsSync(page) || !BLESS ? readFileSync(page, 'utf8') : first();
    expect(text).toMatch(MADE);
    const fresh = text.replace(MADE, (_, head: string, tail: string) => head + made() + tail);
    if (BLESS) writeFileSync(page, fresh);
    else expect(text, `stale: npm run man, then commit ${page}`).toBe(fresh);
  });

  it('is installed page by page', () => {
    const manifest = JSON.parse(readFileSync('package.json', 'utf8')) as { man: readonly string[] };
    const byHand = ['man/thole-archive.7', 'man/thole-library.7'];
    expect([...manifest.man].sort()).toEqual([...PAGES.map(([page]) => page), ...byHand].sort());
  });
});
