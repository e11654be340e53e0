import { describe, expect, it } from 'vitest';
import { cholesky, whitened } from '../../src/signal/index.js';

describe('the Cholesky factor', () => {
  // A worked example of textbooks: [[4 12 -16] [12 37 -43] [-16 -43 98]] = L Lᵀ with L = [[2 0 0] [6 1 0] [-8 5 3]].
  const matrix = Float64Array.of(4, 12, -16, 12, 37, -43, -16, -43, 98);

  it('is the worked example, with its determinant', () => {
    const { factor, logDeterminant } = cholesky(matrix, 3)!;
    expect([...factor]).toEqual([2, 0, 0, 6, 1, 0, -8, 5, 3]);
    expect(Math.exp(logDeterminant)).toBeCloseTo(36, 9);
  });

  it('whitens: L times the result is the vector', () => {
    expect([...whitened(cholesky(matrix, 3)!, Float64Array.of(2, 7, 0))]).toEqual([1, 1, 1]);
  });

  it('is none of a matrix that is not positive definite', () => {
    expect(cholesky(Float64Array.of(1, 2, 2, 1), 2)).toBeNull();
  });
});
