import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseInputFile } from '../../src/contract/input-file.js';
import { scenario } from '../../src/contract/scenario.js';
import { type TruthFile, truthFile } from '../../src/contract/truth.js';
import { parseOutingSheet } from '../../src/outing/index.js';
import { simulate, simulatedFiles } from '../../src/simulate/index.js';

const NAMES = ['outing', 'race', 'watch'] as const;

const text = (...path: string[]) => readFileSync(join('samples', ...path), 'utf8');
const asked = (name: string) =>
  parseInputFile(scenario, text(name, 'scenario.json'), `${name}/scenario.json`).value;
const truth = (name: string): TruthFile => truthFile.parse(JSON.parse(text(name, `${name}.truth.json`)));

const bytesBelow = (path: string): number =>
  statSync(path).isDirectory()
    ? readdirSync(path).reduce((sum, name) => sum + bytesBelow(join(path, name)), 0)
    : statSync(path).size;

describe('the samples', () => {
  it.each(NAMES)('%s is what its scenario makes, byte for byte', (name) => {
    for (const file of simulatedFiles(asked(name)))
      expect(file.text === text(name, file.name), `${name}/${file.name} is stale: npm run samples`).toBe(
        true,
      );
  });

  it.each(NAMES)('%s has an outing sheet that names its log', (name) => {
    const { rows: sheet } = parseOutingSheet(text(name, 'outings.csv'), 'outings.csv');
    expect(sheet.map((row) => row.file)).toEqual([`${name}.gpx`]);
    expect(sheet[0]!.craft).toBe(asked(name).craft);
    expect(sheet[0]!.crew).toBe(asked(name).crew!.name);
  });

  // The regatta's and the season's samples have bounds of their own, in their tests.
  it('take less than 6 MB', () => {
    const sizes = NAMES.map((name) => bytesBelow(join('samples', name)));
    expect(Math.min(...sizes)).toBeGreaterThan(0);
    expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThan(6e6);
  });
});

describe('what samples/README.md says is true', () => {
  const page = readFileSync('samples/README.md', 'utf8');

  it('is true of the outing', () => {
    const { stretches, stroke_count, over_ground_m } = truth('outing');
    expect(page).toContain(`- ${stroke_count} strokes and ${over_ground_m.toFixed(1)} m over ground`);
    const pieces = stretches.filter(({ label }) => label === 'piece');
    expect(pieces).toHaveLength(6);
    for (const [i, piece] of pieces.entries())
      expect(page).toContain(
        `| ${i + 1} | ${piece.from_s.toFixed(1)} | ${(piece.to_s - piece.from_s).toFixed(1)} | ${piece.stroke_count} | ${piece.rate_spm!.toFixed(2)} | ${piece.distance_m.toFixed(1)} |`,
      );
  });

  it('is true of the race', () => {
    const race = truth('race').stretches.find(({ label }) => label === 'race')!;
    expect(page).toContain(`First movement at ${race.from_s.toFixed(1)} s`);
    const { alongM, stepS } = simulate(asked('race')).truth;
    const from = Math.round(race.from_s / stepS);
    for (const metres of [500, 1000, 1500, 2000]) {
      const index = alongM.findIndex((along) => along >= alongM[from]! + metres);
      expect(page).toContain(`${metres} m in ${((index - from) * stepS).toFixed(1)} s`);
    }
  });

  it('is true of the watch log', () => {
    const { stretches, stroke_count, over_ground_m } = truth('watch');
    expect(page).toContain(`- ${stroke_count} strokes and ${over_ground_m.toFixed(1)} m over ground`);
    const pieces = stretches.filter(({ label }) => label === 'piece');
    expect(page).toContain(
      `(${pieces[0]!.stroke_count}, ${pieces[1]!.stroke_count} and ${pieces[2]!.stroke_count} strokes; ${pieces[0]!.distance_m.toFixed(1)}, ${pieces[1]!.distance_m.toFixed(1)} and ${pieces[2]!.distance_m.toFixed(1)} m)`,
    );
  });
});
