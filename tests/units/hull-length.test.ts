import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CRAFT_CODES } from '../../src/units/craft.js';
import { HULL_LENGTH_M } from '../../src/units/hull-length.js';

describe('hull lengths', () => {
  it('are printed, every one, in the tutorial', () => {
    const cells = readFileSync('samples/regatta/README.md', 'utf8')
      .split('## Hull lengths')[1]!
      .split('|')
      .map((cell) => cell.trim());
    for (const craft of CRAFT_CODES)
      expect(Number(cells[cells.indexOf(craft) + 1]), craft).toBe(HULL_LENGTH_M[craft]);
  });

  it('grow with the crew', () => {
    const lengths = (['1x', '2x', '4x', '8+'] as const).map((craft) => HULL_LENGTH_M[craft]);
    expect(lengths).toEqual([...lengths].sort((a, b) => a - b));
    expect(HULL_LENGTH_M.K4).toBeGreaterThan(HULL_LENGTH_M.K1);
  });
});
