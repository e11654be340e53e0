/** The last part of a path. */
const lastPart = (path: string): string => path.split(/[\\/]/).at(-1)!;

/** A path from the root of a machine, wherever it stands in a text. */
const ROOTED = /(?<![\w.:/\\-])(?:[A-Za-z]:)?[\\/](?:[^\\/\s:*?"<>|]+[\\/])+/g;

/** As much of the ends of paths as tells each from the others. */
const shortNames = (paths: readonly string[]): Map<string, string> =>
  new Map(
    paths.map((path) => {
      const parts = path.split(/[\\/]/);
      const tail = (other: string, count: number) => other.split(/[\\/]/).slice(-count).join('/');
      const count = parts.findIndex((_, i) =>
        paths.every((other) => other === path || tail(other, i + 1) !== tail(path, i + 1)),
      );
      return [path, count < 0 ? lastPart(path) : tail(path, count + 1)] as const;
    }),
  );

/**
 * A result in which no text shows where files lie on this machine, for a page is passed on: logs are called by as
 * much of the end of their paths as tells them apart.
 * @param files the logs, as the command line or a list names them
 */
export const withoutFolders = <Result>(result: Result, files: readonly string[]): Result => {
  const names = shortNames([...new Set(files)]);
  const long = [...names].filter(([path, name]) => path !== name).sort(([a], [b]) => b.length - a.length);
  const bare = (text: string): string => {
    const known = names.get(text);
    if (known !== undefined) return known;
    if (!/[\\/]/.test(text)) return text;
    const named = long.reduce((left, [path, name]) => left.replaceAll(path, name), text);
    return named.replace(ROOTED, '');
  };
  const walk = (value: unknown): unknown => {
    if (typeof value === 'string') return bare(value);
    if (Array.isArray(value)) return value.map(walk);
    if (value !== null && typeof value === 'object')
      return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, walk(item)]));
    return value;
  };
  return walk(result) as Result;
};
