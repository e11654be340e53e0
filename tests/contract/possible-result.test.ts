import { expect, it } from 'vitest';
import * as z from 'zod';
import { impossibleFigures } from '../../src/contract/figure-limit.js';
import { possibleResult } from '../../src/contract/possible-result.js';

const schema = z.strictObject({
  rows: z.array(z.strictObject({ speed_mps: z.number().nullable(), rate_spm: z.number() })),
  warnings: z.array(
    z.strictObject({ code: z.string(), file: z.string().nullable(), where: z.null(), message: z.string() }),
  ),
});

it('takes out what cannot be, and the rows that need it, and says it once a key', () => {
  const result = {
    rows: [
      { speed_mps: 5, rate_spm: 30 },
      { speed_mps: 500, rate_spm: 30 },
      { speed_mps: 4, rate_spm: 3000 },
      { speed_mps: 600, rate_spm: 31 },
    ],
    warnings: [],
  };
  const made = possibleResult('x.csv', result, impossibleFigures(result), schema)!;
  expect(made.rows).toEqual([
    { speed_mps: 5, rate_spm: 30 },
    { speed_mps: null, rate_spm: 30 },
    { speed_mps: null, rate_spm: 31 },
  ]);
  expect(made.warnings.map(({ code }: { code: string }) => code)).toEqual([
    'figure-impossible',
    'figure-impossible',
  ]);
});

it('takes no more time than there are figures, however many cannot be', () => {
  const rows = Array.from({ length: 50_000 }, () => ({ speed_mps: 500, rate_spm: 30 }));
  const result = { rows, warnings: [] };
  const before = process.cpuUsage();
  const made = possibleResult(null, result, impossibleFigures(result), schema)!;
  const { user, system } = process.cpuUsage(before);
  expect(made.rows.every(({ speed_mps }) => speed_mps === null)).toBe(true);
  // Copied at each figure, as it once was, it took a minute.
  expect((user + system) / 1e6).toBeLessThan(5);
});
