import { closeSync, openSync, read } from 'node:fs';

/** Bytes of an open file into a buffer, from a place in both on; how many there were. */
const readInto = (opened: number, bytes: Uint8Array, from: number): Promise<number> =>
  new Promise((resolve, reject) => {
    read(opened, bytes, from, bytes.length - from, null, (error, count) =>
      error === null ? resolve(count) : reject(error),
    );
  });

/** A file in one read into one buffer, while the main thread goes on; `readFile` takes it in pieces. */
export const wholeFile = async (file: string | Buffer, size: number): Promise<Uint8Array> => {
  const opened = openSync(file, 'r');
  try {
    const bytes = Buffer.allocUnsafeSlow(size);
    let count = 0;
    for (let more = -1; more !== 0 && count < size; count += more)
      more = await readInto(opened, bytes, count);
    return bytes.subarray(0, count);
  } finally {
    closeSync(opened);
  }
};
