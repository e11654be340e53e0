import type { Readable, Writable } from 'node:stream';

/** What a command is given of the process that runs it. */
export interface Streams {
  readonly stdin: Readable;
  readonly stdout: Writable & { readonly isTTY?: boolean; readonly columns?: number };
  readonly stderr: Writable & { readonly isTTY?: boolean };
  readonly env: Readonly<Record<string, string | undefined>>;
}
