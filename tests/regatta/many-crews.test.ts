import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { ran } from '../cli/ran.js';

it('ranks 16,000 crews of one event, in work that does not grow with the square of their number', async () => {
  const lines = Array.from({ length: 16_000 }, (_, i) => `A,Crew ${i},1x,,${400 + i / 100}`);
  const entries = join(mkdtempSync(join(tmpdir(), 'thole-')), 'entries.csv');
  writeFileSync(entries, `event,crew,craft,track,official_s\n${lines.join('\n')}\n`);
  const straight = '31.4999,-37.2500:31.5010,-37.2600';
  const { status, stdout } = await ran([
    'regatta',
    entries,
    '--straight',
    straight,
    '--format',
    'csv',
    '--quiet',
  ]);
  expect([status, stdout.trim().split('\n').length]).toEqual([0, 16_001]);
});
