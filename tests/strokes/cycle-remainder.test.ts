import { describe, expect, it } from 'vitest';
import { meanSquare } from '../../src/signal/index.js';
import { cycleRemainder } from '../../src/strokes/cycle-remainder.js';
import { makeRandom } from '../simulator/random.js';

const marks = Array.from({ length: 60 }, (_, i) => 20 + 15.3 * i);
const shape = (place: number): number => Math.cos(2 * Math.PI * place) - 0.4 * Math.sin(6 * Math.PI * place);
const strokes = Float64Array.from({ length: 1000 }, (_, i) => shape((i - 20) / 15.3));
const inside = (values: Float64Array): Float64Array => values.subarray(20, Math.floor(marks[59]!));

describe('cycleRemainder', () => {
  it('leaves next to nothing of strokes that are alike', () => {
    const left = cycleRemainder(strokes, marks, 40);
    expect(meanSquare(inside(left))).toBeLessThan(0.01 * meanSquare(inside(strokes)));
  });

  it('leaves noise as strong as it was, though strokes are taken out of it that it has not', () => {
    const random = makeRandom(4);
    const noise = Float64Array.from({ length: 1000 }, () => random.normal());
    const left = cycleRemainder(noise, marks, 40);
    expect(meanSquare(inside(left)) / meanSquare(inside(noise))).toBeGreaterThan(0.93);
    expect(meanSquare(inside(left)) / meanSquare(inside(noise))).toBeLessThan(1.07);
  });

  it('leaves alone what no stroke follows, and cycles without enough others like them', () => {
    expect([...cycleRemainder(strokes, [100, 300, 500], 40)]).toEqual([...strokes]);
    expect([...cycleRemainder(strokes, [100, 115, 130], 40)]).toEqual([...strokes]);
  });
});
