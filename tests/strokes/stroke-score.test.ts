import { describe, expect, it } from 'vitest';
import { scoreStrokes } from '../../src/strokes/index.js';

describe('scoring of strokes', () => {
  it('TP 475, FN 25, FP 15 give 0.9500, 0.969388 and F1 0.959596 (after ANSI/AAMI EC57; computed)', () => {
    const marked = Array.from({ length: 500 }, (_, i) => 2 * i);
    const detected = [
      ...marked.slice(0, 475).map((at) => at + 0.02),
      ...Array.from({ length: 15 }, (_, i) => 2 * i + 1),
    ].sort((p, q) => p - q);
    const score = scoreStrokes(detected, marked);
    expect([score.matchedCount, score.missedCount, score.falseCount]).toEqual([475, 25, 15]);
    expect(score.sensitivity).toBeCloseTo(0.95, 12);
    expect(score.positivePredictivity).toBeCloseTo(0.969388, 6);
    expect(score.f1).toBeCloseTo(0.959596, 6);
    expect(score.biasS).toBeCloseTo(0.02, 9);
  });

  it('matches one to one: a doubled stroke is one match and one false', () => {
    const score = scoreStrokes([1, 1.1, 5], [1.06, 3]);
    expect(score.matched).toEqual([false, true, false]);
    expect([score.matchedCount, score.falseCount, score.missedCount]).toEqual([1, 2, 1]);
  });

  it('has no figure where there is nothing to divide by', () => {
    expect(scoreStrokes([], []).f1).toBeNull();
    expect(scoreStrokes([1], []).sensitivity).toBeNull();
  });
});
