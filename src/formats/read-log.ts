import { logFault } from '../recording/index.js';
import { foreignFormat } from './foreign-format.js';
import { LogTooLarge } from './log-too-large.js';
import { isOwnTable } from './own-table.js';
import { isFault, type ReadAnswer, type ReadOptions } from './reader.js';
import { READERS } from './readers.js';
import { printable } from './xml/clean-text.js';

/** The answer with whatever it quotes of the file made fit for a terminal. */
const clean = (answer: ReadAnswer): ReadAnswer => {
  const cleaned = <Noted extends { message: string; where: string | null }>(noted: Noted): Noted => ({
    ...noted,
    message: printable(noted.message),
    where: noted.where === null ? null : printable(noted.where),
  });
  return isFault(answer) ? cleaned(answer) : { ...answer, warnings: answer.warnings.map(cleaned) };
};

/** What the engine throws where text or arrays outgrow it. */
const isTooLarge = (error: unknown): boolean =>
  error instanceof LogTooLarge ||
  (error instanceof Error &&
    ((error as { code?: unknown }).code === 'ERR_STRING_TOO_LONG' ||
      /array (?:buffer )?(?:length|allocation)|string length|Map maximum size/i.test(error.message)));

/**
 * Read a log of any format, known by its bytes and not by its name.
 * @param file the log as the user named it, for messages
 * @returns a recording, or why there is none
 */
export const readLog = (bytes: Uint8Array, file: string, options: ReadOptions = {}): ReadAnswer => {
  if (bytes.length === 0)
    return logFault(file, 'empty-file', 'the file is empty; copy it from the logger again');
  if (options.columns === undefined && isOwnTable(bytes))
    return logFault(
      file,
      'not-a-log',
      'this is an outing sheet, a list of entries, a plan or a result, and no log: leave it out',
    );
  const reader = READERS.find(({ sniff }) => sniff(bytes));
  if (reader === undefined)
    return logFault(
      file,
      'unknown-format',
      foreignFormat(bytes) ??
        `the file is none of the formats that can be read: ${READERS.map(({ format }) => format.toUpperCase()).join(', ')}`,
    );
  try {
    return clean(reader.read(bytes, file, options));
  } catch (error) {
    if (!isTooLarge(error)) throw error;
    return logFault(file, 'too-large', 'the log is too large to be read at once; cut it into outings');
  }
};
