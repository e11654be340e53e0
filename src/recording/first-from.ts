/**
 * First sample at or after a moment.
 * @param atS increasing times, s
 * @returns its index; the number of samples where there is none
 */
export const firstFrom = (atS: Float64Array, fromS: number): number => {
  let [low, high] = [0, atS.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (atS[middle]! < fromS) low = middle + 1;
    else high = middle;
  }
  return low;
};
