/** Solve a small dense system in place by elimination with pivoting. */
const solve = (matrix: number[][], right: number[]): number[] => {
  const size = right.length;
  for (let column = 0; column < size; column++) {
    let pivot = column;
    for (let row = column + 1; row < size; row++)
      if (Math.abs(matrix[row]![column]!) > Math.abs(matrix[pivot]![column]!)) pivot = row;
    [matrix[column], matrix[pivot]] = [matrix[pivot]!, matrix[column]!];
    [right[column], right[pivot]] = [right[pivot]!, right[column]!];
    for (let row = column + 1; row < size; row++) {
      const share = matrix[row]![column]! / matrix[column]![column]!;
      for (let k = column; k < size; k++) matrix[row]![k] = matrix[row]![k]! - share * matrix[column]![k]!;
      right[row] = right[row]! - share * right[column]!;
    }
  }
  const found = new Array<number>(size).fill(0);
  for (let row = size - 1; row >= 0; row--) {
    let sum = right[row]!;
    for (let k = row + 1; k < size; k++) sum -= matrix[row]![k]! * found[k]!;
    found[row] = sum / matrix[row]![row]!;
  }
  return found;
};

/**
 * Weights of a least-squares polynomial over 2·half + 1 samples, taken at the middle one.
 * @param half samples on either side
 * @param degree degree of the polynomial
 * @param derivative 0 the value, 1 the slope per sample, and so on
 * @see Savitzky & Golay 1964, Anal. Chem. 36:1627, as corrected by Steinier et al. 1972
 * @example savitzkyGolay(2, 2) // (-3 12 17 12 -3) / 35
 */
export const savitzkyGolay = (half: number, degree: number, derivative = 0): Float64Array => {
  const terms = degree + 1;
  const normal = Array.from({ length: terms }, (_, p) =>
    Array.from({ length: terms }, (__, q) => {
      let sum = 0;
      for (let i = -half; i <= half; i++) sum += i ** (p + q);
      return sum;
    }),
  );
  let factorial = 1;
  for (let k = 2; k <= derivative; k++) factorial *= k;
  const wanted = Array.from({ length: terms }, (_, p) => (p === derivative ? factorial : 0));
  const share = solve(normal, wanted);
  return Float64Array.from({ length: 2 * half + 1 }, (_, k) =>
    share.reduce((sum, weight, p) => sum + weight * (k - half) ** p, 0),
  );
};
