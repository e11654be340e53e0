import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { UserError } from '../units/user-error.js';
import { STANDARD_INPUT } from './log-bytes.js';
import { systemPath } from './system-path.js';
import { systemReason } from './system-reason.js';

/** Largest input file other than a log, bytes: they are written by people. */
const LARGEST = 16 * 1024 ** 2;

let standardInput: Promise<Buffer> | null = null;

/** Standard input, read once: a boat file is asked for log by log. */
const fromStandardInput = (): Promise<Buffer> => {
  standardInput ??= bounded(process.stdin);
  return standardInput;
};

const bounded = async (stream: AsyncIterable<unknown>): Promise<Buffer> => {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of stream) {
    chunks.push(chunk as Buffer);
    size += (chunk as Buffer).length;
    if (size > LARGEST) break;
  }
  return Buffer.concat(chunks);
};

/** The bytes of a file, or of a pipe that a shell made, and no more than one above the bound; null for a device. */
const boundedBytes = async (path: string): Promise<Buffer | null> => {
  if (path === STANDARD_INPUT) return fromStandardInput();
  const found = await stat(systemPath(path));
  if (!found.isFile() && !found.isFIFO() && !found.isDirectory()) return null;
  return bounded(createReadStream(systemPath(path), { end: LARGEST }));
};

/**
 * The text of an input file that is not a log: boat, sheet, entries, course, plan, rules, scenario, columns; `-` is
 * standard input.
 * @param kind what the file is, for the message: `boat file`
 * @throws UserError where it cannot be read or is not text
 */
export const inputText = async (path: string, kind: string): Promise<string> => {
  const bytes = await boundedBytes(path).catch((error: unknown) => {
    throw new UserError(`cannot read the ${kind} ${path}: ${systemReason(error)}`);
  });
  if (bytes === null)
    throw new UserError(`the ${kind} ${path} is no text but a device or a socket: name a file`);
  if (bytes.length > LARGEST) throw new UserError(`the ${kind} ${path} is too large to be one`);
  const text = textOf(bytes);
  if (text === null) throw new UserError(`the ${kind} ${path} is not text: save it as UTF-8`);
  return text;
};

/** Bytes that no text of people has. */
const CONTROL = /[\u0000-\u0008\u000e-\u001f]/;

/**
 * The text of bytes: UTF-8, UTF-16 with its mark, else Windows-1252 as older spreadsheets of Western Europe write it.
 * @returns null where the bytes are no text
 */
const textOf = (bytes: Uint8Array): string | null => {
  const wide = bytes[0] === 0xff && bytes[1] === 0xfe;
  for (const code of wide ? ['utf-16le'] : ['utf-8', 'windows-1252'])
    try {
      const text = new TextDecoder(code, { fatal: true }).decode(bytes);
      return CONTROL.test(text) ? null : text;
    } catch {
      // It is not of this code: the next is tried.
    }
  return null;
};

/** Like {@link inputText}, but null where there is no such file. */
export const inputTextIfThere = async (path: string, kind: string): Promise<string | null> => {
  try {
    return await inputText(path, kind);
  } catch (error) {
    if (error instanceof UserError && error.message.endsWith(systemReason({ code: 'ENOENT' }))) return null;
    throw error;
  }
};
