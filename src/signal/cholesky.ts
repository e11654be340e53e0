/** Lower triangle of a Cholesky factor, row by row, with the logarithm of the matrix's determinant. */
export interface Cholesky {
  readonly size: number;
  readonly factor: Float64Array;
  readonly logDeterminant: number;
}

/**
 * Factor a symmetric positive definite matrix (Golub & Van Loan, Matrix Computations, 4th ed., 4.2.5).
 * @param matrix row by row; the upper triangle is not read
 * @returns null where it is not positive definite
 */
export const cholesky = (matrix: Float64Array, size: number): Cholesky | null => {
  const factor = new Float64Array(size * size);
  let logDeterminant = 0;
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * size + j]!;
      for (let k = 0; k < j; k++) sum -= factor[i * size + k]! * factor[j * size + k]!;
      if (i > j) factor[i * size + j] = sum / factor[j * size + j]!;
      else {
        if (!(sum > 0)) return null;
        factor[i * size + i] = Math.sqrt(sum);
        logDeterminant += Math.log(sum);
      }
    }
  return { size, factor, logDeterminant };
};

/** The factor's inverse times a vector: of a vector with that covariance it makes a white one. */
export const whitened = ({ size, factor }: Cholesky, vector: Float64Array): Float64Array => {
  const result = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    let sum = vector[i]!;
    for (let k = 0; k < i; k++) sum -= factor[i * size + k]! * result[k]!;
    result[i] = sum / factor[i * size + i]!;
  }
  return result;
};
