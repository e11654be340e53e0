import type { WarningRow } from '../contract/envelope.js';
import { cleanText } from './clean-text.js';

/** How many warnings of one kind are reported one by one before the rest is only counted: of one log, of all logs. */
const LISTED = Object.freeze({ ofOneLog: 3, ofAll: 4 });

const groups = <Item>(items: readonly Item[], name: (item: Item) => string): Item[][] => {
  const found = new Map<string, Item[]>();
  for (const item of items) found.set(name(item), [...(found.get(name(item)) ?? []), item]);
  return [...found.values()];
};

/** A message as a whole sentence, however it was written. */
const sentence = (message: string): string =>
  `${message.charAt(0).toUpperCase()}${message.slice(1)}${/[.!?]$/.test(message) ? '' : '.'}`;

const lineOf = ({ file, where, message }: WarningRow): string =>
  cleanText([file, where, sentence(message)].filter((part) => part !== null).join(': '));

/** The first of many, and how many there are more. */
const some = (
  alike: readonly WarningRow[],
  most: number,
): { listed: readonly WarningRow[]; more: number } => {
  const listed = alike.length <= most + 1 ? alike : alike.slice(0, most);
  return { listed, more: alike.length - listed.length };
};

const ofOneLog = (alike: readonly WarningRow[]): string[] => {
  const { listed, more } = some(alike, LISTED.ofOneLog);
  const { file, code } = alike[0]!;
  return [
    ...listed.map(lineOf),
    ...(more === 0
      ? []
      : [cleanText(`${file === null ? '' : `${file}: `}${more} more of this kind (${code})`)]),
  ];
};

/**
 * Warnings as lines for a person: the log, the place, the sentence. Of many of one kind the first are reported and
 * the rest counted.
 */
export const warningLines = (warnings: readonly WarningRow[]): string[] =>
  groups(warnings, ({ code }) => code).flatMap((alike) => {
    const logs = groups(alike, ({ file }) => String(file));
    const listed = logs.length <= LISTED.ofAll + 1 ? logs : logs.slice(0, LISTED.ofAll);
    const more = logs.length - listed.length;
    return [
      ...listed.flatMap(ofOneLog),
      ...(more === 0
        ? []
        : [
            cleanText(
              `${more} more logs have a warning of this kind (${alike[0]!.code}); --format json tells all`,
            ),
          ]),
    ];
  });
