import type { ReadAnswer, ReadOptions } from './reader.js';
import { READERS } from './readers.js';

/**
 * Read a log of any format, known by its bytes and not by its name.
 * @param file the log as the user named it, for messages
 * @returns a recording, or why there is none
 */
export const readLog = (bytes: Uint8Array, file: string, options: ReadOptions = {}): ReadAnswer => {
  const fault = (code: string, message: string): ReadAnswer => ({
    fault: true,
    code,
    file,
    where: null,
    message,
  });
  if (bytes.length === 0) return fault('empty-file', 'the file is empty; copy it from the logger again');
  const reader = READERS.find(({ sniff }) => sniff(bytes));
  if (reader === undefined)
    return fault(
      'unknown-format',
      `the file is none of the formats that can be read: ${READERS.map(({ format }) => format.toUpperCase()).join(', ')}`,
    );
  return reader.read(bytes, file, options);
};
