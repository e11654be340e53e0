import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { simulate } from '../../src/simulate/index.js';
import { seatsSamples, seatsScenario } from './seats-samples.js';

const FOLDER = 'samples/seats';
const BLESS = process.env.BLESS === '1';

describe('samples/seats', () => {
  const files = seatsSamples();

  it('is what the simulator makes; npm run samples brings it there', () => {
    expect(files.length).toBeGreaterThan(3);
    for (const { name, text } of files) {
      const file = join(FOLDER, name);
      if (BLESS) {
        mkdirSync(FOLDER, { recursive: true });
        writeFileSync(file, text);
      }
      expect(readFileSync(file, 'utf8') === text, `${file} is stale: npm run samples`).toBe(true);
    }
  });

  it('is worth in truth what samples/README.md says', () => {
    const metres = ([0, 1] as const).map((boat) => {
      const { alongM, stepS, stretches } = simulate(seatsScenario(boat)).truth;
      const at = (atS: number) => alongM[Math.round(atS / stepS)]!;
      return stretches
        .filter(({ label }) => label.startsWith('piece'))
        .map(({ fromS }) => at(fromS + 180) - at(fromS));
    });
    const margin = (i: number) => {
      const [red, blue] = [metres[0]![i]!, metres[1]![i]!];
      return 180 * Math.min(red, blue) * (1 / blue - 1 / red);
    };
    const worthS = (margin(0) + margin(2) - margin(1) - margin(3)) / 4;
    expect(readFileSync('samples/README.md', 'utf8')).toContain(
      `${worthS.toFixed(1)} s faster over three minutes with Ada than with Eva`,
    );
  });

  it('takes less than 300 kB', () => {
    expect(files.reduce((sum, { text }) => sum + text.length, 0)).toBeLessThan(300_000);
  });
});
