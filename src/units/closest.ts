/** Optimal string alignment distance: insertions, deletions, changes and swaps of neighbours. */
const distance = (from: string, to: string): number => {
  let [before, last]: number[][] = [[], Array.from({ length: to.length + 1 }, (_, i) => i)];
  for (let i = 1; i <= from.length; i++) {
    const row = [i];
    for (let j = 1; j <= to.length; j++) {
      const change = from[i - 1] === to[j - 1] ? 0 : 1;
      row[j] = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + change);
      if (i > 1 && j > 1 && from[i - 1] === to[j - 2] && from[i - 2] === to[j - 1])
        row[j] = Math.min(row[j]!, before[j - 2]! + 1);
    }
    [before, last] = [last, row];
  }
  return last[to.length]!;
};

/**
 * The word that was probably meant.
 * @returns the nearest of the words, or the first that goes on where the word ends; null where none is near:
 * more than a third of the letters differ
 * @example closest('naem', ['name', 'min']) // 'name'
 */
export const closest = (word: string, words: readonly string[]): string | null => {
  const [best] = words
    .map((candidate) => ({ candidate, away: distance(word.toLowerCase(), candidate.toLowerCase()) }))
    .filter(
      ({ candidate, away }) => away <= Math.max(1, Math.ceil(Math.max(word.length, candidate.length) / 3)),
    )
    .sort((a, b) => a.away - b.away);
  const longer = word.length < 3 ? undefined : words.find((candidate) => candidate.startsWith(word));
  return best?.candidate ?? longer ?? null;
};
