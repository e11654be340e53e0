/**
 * Greatest index whose value is at most the asked one.
 * @param values that never fall, such as sampling times
 * @returns -1 where there is none
 */
export const lastAtMost = (values: Float64Array, asked: number): number => {
  let low = -1;
  let high = values.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (values[middle]! <= asked) low = middle;
    else high = middle - 1;
  }
  return low;
};
