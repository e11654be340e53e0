/** How much of a log is held in memory while it is read; beyond, one clear answer instead of a dead process. */
export const READ_BOUNDS = Object.freeze({
  /** Samples: 24 hours at 200 Hz. */
  samples: 20_000_000,
  /** Bytes of XML that go through the parser, which takes 18 times as much memory. */
  xmlBytes: 128 * 1024 ** 2,
  /** Bytes of CSV that go through the parser, which takes up to 60 times as much. */
  csvBytes: 48 * 1024 ** 2,
});

/** Thrown by a reader where a log outgrows the bounds; it becomes a fault that names the file. */
export class LogTooLarge extends Error {
  override readonly name = 'LogTooLarge';
}
