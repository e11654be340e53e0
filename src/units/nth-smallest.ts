/**
 * The value that would stand at a place if the values were sorted, found by selection (Hoare 1961), which takes
 * time in proportion to their count. Puts them in another order: what stands before the place is not larger, what
 * stands after it not smaller.
 * @param values all finite
 * @param wanted place, 0 for the smallest
 */
export const nthSmallest = (values: Float64Array, wanted: number): number => {
  let low = 0;
  let high = values.length - 1;
  while (low < high) {
    // The middle of three keeps rows that are in order fast.
    const first = values[low]!;
    const middle = values[(low + high) >> 1]!;
    const last = values[high]!;
    const pivot = Math.max(Math.min(first, middle), Math.min(Math.max(first, middle), last));
    let left = low;
    let right = high;
    while (left <= right) {
      while (values[left]! < pivot) left++;
      while (values[right]! > pivot) right--;
      if (left > right) break;
      const swapped = values[left]!;
      values[left++] = values[right]!;
      values[right--] = swapped;
    }
    if (wanted <= right) high = right;
    else if (wanted >= left) low = left;
    else break;
  }
  return values[wanted]!;
};
