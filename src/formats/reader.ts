import type { LogFault, Recording } from '../recording/index.js';

/** What the user gave about a log that the log does not say itself. */
export interface ReadOptions {
  /** A map from a column's own name to a name that the tool knows, for CSV. */
  readonly columns?: Readonly<Record<string, string>>;
}

/** The answer of every reader: a recording, or why there is none. It never throws on any bytes. */
export type ReadAnswer = Recording | LogFault;

/** One format: how it is known, and how it is read. Bytes in, never a file. */
export interface Reader {
  readonly format: string;
  /** True where the first bytes look like this format. */
  readonly sniff: (bytes: Uint8Array) => boolean;
  readonly read: (bytes: Uint8Array, file: string, options: ReadOptions) => ReadAnswer;
}

/** Tells a fault from a recording. */
export const isFault = (answer: ReadAnswer): answer is LogFault => 'fault' in answer;
