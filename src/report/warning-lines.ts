import type { WarningRow } from '../contract/envelope.js';
import { cleanText } from './clean-text.js';

/** How many warnings of one kind about one log are told one by one before the rest is only counted. */
const TOLD = 3;

/**
 * Warnings as lines for a person: the log, the place, the sentence. Of many of one kind about one log the first
 * are told and the rest counted.
 */
export const warningLines = (warnings: readonly WarningRow[]): string[] => {
  const kinds = new Map<string, WarningRow[]>();
  for (const warning of warnings) {
    const kind = `${warning.file}\n${warning.code}`;
    kinds.set(kind, [...(kinds.get(kind) ?? []), warning]);
  }
  return [...kinds.values()].flatMap((alike) => {
    const told = alike.length <= TOLD + 1 ? alike : alike.slice(0, TOLD);
    const lines = told.map(({ file, where, message }) =>
      cleanText([file, where, message].filter((part) => part !== null).join(': ')),
    );
    const rest = alike.length - told.length;
    return rest === 0
      ? lines
      : [
          ...lines,
          cleanText(
            `${alike[0]!.file === null ? '' : `${alike[0]!.file}: `}${rest} more of this kind (${alike[0]!.code})`,
          ),
        ];
  });
};
