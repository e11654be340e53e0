const PREDEFINED: Readonly<Record<string, string>> = {
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&apos;': "'",
  '&amp;': '&',
};

/** Longest name that is kept of what a log says of itself. */
const LONGEST = 80;

/** Text without control, format, line and paragraph characters, so that it cannot move a terminal's cursor. */
export const printable = (text: string): string => text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ');

/** What a log says of its device or sport, fit to be shown: no control characters, short; null where empty. */
export const cleanText = (text: string | null): string | null => {
  if (text === null) return null;
  const plain = printable(
    text.replace(/&(?:lt|gt|quot|apos|amp);/g, (entity) => PREDEFINED[entity] ?? entity),
  )
    .replace(/\s+/g, ' ')
    .trim()
    .slice(0, LONGEST);
  return plain === '' ? null : plain;
};
