/**
 * Whether a log is one of those that a pattern names: `*` stands for any characters of a name, `**` for any
 * folders, `?` for one character. Without a slash only the name counts, whatever the folder.
 */
export const fitsPattern = (file: string, pattern: string): boolean => {
  const source = pattern
    .replace(/[.+^${}()|[\]\\]/g, '\\$&')
    .replace(/\*\*\/|\*\*|\*|\?/g, (found) =>
      found === '**/' ? '(?:.*/)?' : found === '**' ? '.*' : found === '*' ? '[^/]*' : '[^/]',
    );
  const path = file.replaceAll('\\', '/');
  const whole = pattern.includes('/') ? path : (path.split('/').at(-1) ?? '');
  return new RegExp(`^(?:.*/)?${source}$`).test(whole);
};
