/**
 * Least index whose value is at least the asked one.
 * @param values that never fall, such as sampling times
 * @returns the number of values where none is
 */
export const firstAtLeast = (values: Float64Array, asked: number): number => {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle]! < asked) low = middle + 1;
    else high = middle;
  }
  return low;
};
