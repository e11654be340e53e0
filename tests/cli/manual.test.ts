import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/cli/commands/index.js';
import { manualSections } from './manual.js';

const PAGE = 'man/thole.1';
const MADE = /(\.\\" made from the commands, by npm run man\n)[\s\S]*?(\n\.\\" end of what is made)/;

describe('the manual page', () => {
  it('is in step with the commands and their options; npm run man brings it there', async () => {
    const commands = await Promise.all(Object.values(COMMANDS).map((load) => load()));
    const sections = manualSections(commands);
    const page = readFileSync(PAGE, 'utf8');
    expect(page).toMatch(MADE);
    const fresh = page.replace(MADE, (_, head: string, tail: string) => head + sections + tail);
    if (process.env.BLESS === '1') writeFileSync(PAGE, fresh);
    else expect(page, 'stale: npm run man, then commit man/thole.1').toBe(fresh);
  });
});
