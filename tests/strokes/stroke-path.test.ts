import { describe, expect, it } from 'vitest';
import { type Candidate, strokePath } from '../../src/strokes/stroke-path.js';

const LIMITS = { leastIntervalS: 0.3, mostIntervalS: 1.6 };

const at = (atS: number, score = 3, share = 1): Candidate => ({ atS, score, share, noiseSds: 4 });

const even = (count: number, stepS: number, fromS = 1): Candidate[] =>
  Array.from({ length: count }, (_, i) => at(fromS + i * stepS));

const timesOf = (candidates: readonly Candidate[]): number[] =>
  strokePath(candidates, LIMITS).chosen.map((i) => candidates[i]!.atS);

describe('strokePath', () => {
  it('keeps a stroke that stands low where the sequence holds it', () => {
    const train = even(12, 0.6);
    train[5] = at(train[5]!.atS, -2, 0.4);
    expect(timesOf(train)).toEqual(train.map(({ atS }) => atS));
  });

  it('takes no lone peak, and no peaks that do not follow one another', () => {
    expect(timesOf([at(1)])).toEqual([]);
    expect(timesOf([at(1, 3), at(1.35, 3), at(4.2, 3), at(9, 3)])).toEqual([]);
  });

  it('leaves out what lies between strokes, though it counts for a little', () => {
    const train = even(12, 0.6);
    const between = train.map(({ atS }) => at(atS + 0.3, 0.5, 0.5));
    const all = [...train, ...between].sort((p, q) => p.atS - q.atS);
    expect(timesOf(all)).toEqual(train.map(({ atS }) => atS));
  });

  it('of two peaks near a due place takes the one that keeps the tempo', () => {
    const train = even(12, 0.6);
    const late = at(train[6]!.atS + 0.12, 3.2);
    const all = [...train, late].sort((p, q) => p.atS - q.atS);
    expect(timesOf(all)).toEqual(train.map(({ atS }) => atS));
  });

  it('follows a tempo that quickens, and one that changes at once', () => {
    const quicker: Candidate[] = [];
    for (let i = 0, atS = 1; i < 30; i++) {
      quicker.push(at(atS));
      atS += 0.8 * 0.985 ** i;
    }
    expect(timesOf(quicker)).toHaveLength(30);
    const changed = [...even(10, 0.8), ...even(15, 0.5, 1 + 9 * 0.8 + 0.5)];
    expect(timesOf(changed)).toHaveLength(25);
  });

  it('ends a sequence at a rest and begins another after it', () => {
    const both = [...even(8, 0.6), ...even(8, 0.7, 20)];
    expect(timesOf(both)).toHaveLength(16);
    expect(strokePath(both, LIMITS).total).toBeLessThan(16 * 3 - 2 * 6 + 0.001);
  });
});
