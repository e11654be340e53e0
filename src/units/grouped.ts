/**
 * Items by a key, in the order in which the keys first come; time grows with their number.
 * @example grouped([1, 2, 3], (value) => value % 2) // Map { 1 → [1, 3], 0 → [2] }
 */
export const grouped = <Item, Key>(items: Iterable<Item>, keyOf: (item: Item) => Key): Map<Key, Item[]> => {
  const groups = new Map<Key, Item[]>();
  for (const item of items) {
    const key = keyOf(item);
    const known = groups.get(key);
    if (known === undefined) groups.set(key, [item]);
    else known.push(item);
  }
  return groups;
};
