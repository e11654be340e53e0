import { describe, expect, it } from 'vitest';
import { rowingProbabilities, type WeighedSpan } from '../../src/strokes/rowing-probability.js';
import { ROWING_SETTINGS } from '../../src/strokes/rowing-settings.js';
import { makeRandom } from '../simulator/random.js';

/** The slow twin: every course that a log can have taken, each as likely as its spans and changes make it. */
const byEveryCourse = (spans: readonly WeighedSpan[]): number[] => {
  const rowed = spans.map(() => 0);
  let all = 0;
  for (let course = 0; course < 2 ** spans.length; course++) {
    const rows = (i: number) => ((course >> i) & 1) === 1;
    let likelihood = 1;
    for (const [i, { evidence, fromS }] of spans.entries()) {
      if (rows(i)) likelihood *= Math.exp(evidence);
      if (i === 0) continue;
      const gapS = Math.max(0, fromS - spans[i - 1]!.toS);
      const { change, forgetS } = ROWING_SETTINGS;
      const changes = change + (0.5 - change) * (1 - Math.exp(-gapS / forgetS));
      likelihood *= rows(i) === rows(i - 1) ? 1 - changes : changes;
    }
    all += likelihood;
    for (const i of spans.keys()) if (rows(i)) rowed[i]! += likelihood;
  }
  return rowed.map((sum) => sum / all);
};

const spansOf = (evidence: readonly number[], gapS = 0): WeighedSpan[] =>
  evidence.map((one, i) => ({ fromS: i * (20 + gapS), toS: i * (20 + gapS) + 20, evidence: one }));

describe('probability of rowing', () => {
  it('is that of all courses together', () => {
    const random = makeRandom(4);
    for (let draw = 0; draw < 20; draw++) {
      let atS = 0;
      const spans = Array.from({ length: 7 }, () => {
        const fromS = atS + 90 * random.uniform() ** 3;
        atS = fromS + 25 * random.uniform();
        return { fromS, toS: atS, evidence: 3 * random.normal() };
      });
      const wanted = byEveryCourse(spans);
      for (const [i, got] of rowingProbabilities(spans).entries()) expect(got).toBeCloseTo(wanted[i]!, 9);
    }
  });

  it('carries one doubtful window on its neighbours, and forgets over a long rest', () => {
    expect(rowingProbabilities(spansOf([3, 3, -2, 3, 3]))[2]).toBeGreaterThan(0.9);
    expect(rowingProbabilities(spansOf([-3, -3, 2, -3, -3]))[2]).toBeLessThan(0.1);
    expect(rowingProbabilities(spansOf([-3, -3, 2, -3, -3], 600))[2]).toBeGreaterThan(0.8);
  });

  it('lets rowing end where the windows after say so', () => {
    const chances = rowingProbabilities(spansOf([4, 4, 4, -4, -4, -4]));
    expect(Math.min(...chances.slice(0, 3))).toBeGreaterThan(0.95);
    expect(Math.max(...chances.slice(3))).toBeLessThan(0.05);
  });

  it('knows nothing of an empty log', () => {
    expect(rowingProbabilities([])).toEqual([]);
  });
});
