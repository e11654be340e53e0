const DECIMAL = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i;

/**
 * A decimal number as logs write it, of any number of digits.
 * @returns the nearest double, or NaN where the text is anything else (empty, `NaN`, hexadecimal)
 */
export const parseDecimal = (text: string): number => {
  const trimmed = text.trim();
  return DECIMAL.test(trimmed) ? Number(trimmed) : Number.NaN;
};
