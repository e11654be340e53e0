/**
 * The value that would stand at `length >> 1` if the values were sorted, found by selection (Hoare 1961), which
 * takes time in proportion to their count. Puts them in another order.
 * @param values at least one, all finite
 */
export const upperMedian = (values: Float64Array): number => {
  const wanted = values.length >> 1;
  let [low, high] = [0, values.length - 1];
  while (low < high) {
    const pivot = values[(low + high) >> 1]!;
    let [left, right] = [low, high];
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
