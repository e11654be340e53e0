import { constants, createGunzip, gunzip } from 'node:zlib';

/** What gzip bytes hold, as far as they can be unpacked. */
export interface Unpacked {
  readonly bytes: Uint8Array;
  /** What is wrong with them: nothing; the end is missing; damaged; a wrong checksum; something else behind them. */
  readonly state: 'whole' | 'cut' | 'damaged' | 'checksum' | 'trailing';
}

/** Bytes handed over at once: what comes out of those among which the damage is met is lost, so the last are few. */
const SLICES = [65_536, 1024, 1];

/** One go at unpacking: what came out, and where it failed, if it did. */
interface Attempt {
  readonly chunks: readonly Buffer[];
  readonly size: number;
  readonly failedAt: number | null;
  readonly why: string;
}

/** Unpack, in large slices up to a place that is known to be good and in small ones from there on. */
const attempt = (bytes: Uint8Array, good: number, slice: number, most: number): Promise<Attempt> =>
  new Promise((done) => {
    const stream = createGunzip({ finishFlush: constants.Z_SYNC_FLUSH });
    const chunks: Buffer[] = [];
    let size = 0;
    let at = 0;
    const finish = (why: string): void => {
      stream.removeAllListeners().on('error', () => undefined);
      stream.destroy();
      done({ chunks, size, failedAt: why === '' ? null : at, why });
    };
    const next = (): void => {
      const step = at < good ? Math.min(SLICES[0]!, good - at) : slice;
      if (at >= bytes.length) stream.end();
      else
        stream.write(bytes.subarray(at, at + step), (error) => {
          if (error != null) return;
          at += step;
          next();
        });
    };
    stream.on('error', ({ message }) => finish(message));
    stream.on('end', () => finish(''));
    stream.on('data', (chunk: Buffer) => {
      chunks.push(chunk);
      size += chunk.length;
      if (size > most) finish('');
    });
    next();
  });

const stateOf = (why: string): Unpacked['state'] =>
  why.includes('data check') ? 'checksum' : why.includes('header') ? 'trailing' : 'damaged';

/**
 * All that can be unpacked of gzip bytes: of damaged ones what stands before the damage, to the byte.
 * @param most bytes that may come out
 * @returns null where more would
 */
export const unpacked = async (bytes: Uint8Array, most: number): Promise<Unpacked | null> => {
  const whole = await new Promise<Buffer | NodeJS.ErrnoException>((done) => {
    gunzip(bytes, { maxOutputLength: most }, (error, out) => done(error ?? out));
  });
  if (!(whole instanceof Error)) return { bytes: whole, state: 'whole' };
  if (whole.code === 'ERR_BUFFER_TOO_LARGE') return null;
  let good = 0;
  for (const slice of SLICES) {
    const { chunks, size, failedAt, why } = await attempt(bytes, good, slice, most);
    if (size > most) return null;
    if (failedAt === null) return { bytes: Buffer.concat(chunks), state: 'cut' };
    if (slice === SLICES.at(-1)) return { bytes: Buffer.concat(chunks), state: stateOf(why) };
    good = failedAt;
  }
  throw new Error('no slice is the last');
};
