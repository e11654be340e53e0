import type { WarningCode } from '../contract/severity.js';
/** A note on one record, or on none. */
export type Warn = (code: WarningCode, record: number | null, message: string) => void;

/** Records with stamps, in file order. */
export interface UnorderedRecords {
  /** Indices of the records that have a time, in file order. */
  readonly timed: Uint32Array;
  /** Time of every record, s. */
  readonly timesS: Float64Array;
  /** What each record carries, one bit a channel; absent where all carry the same. */
  readonly carries: Uint8Array | undefined;
  readonly warn: Warn;
}

/** Limits of ordering. */
export const ORDER_SETTINGS = Object.freeze({
  /** Steps back above which a log is unsorted, not set back now and then; 3 to 50. */
  fewSteps: 20,
});

interface Run {
  readonly records: Uint32Array;
  readonly firstS: number;
  readonly lastS: number;
  readonly carries: number;
}

const ALL = 0xff;

/**
 * Records in the order of their times. A log that steps back often is sorted. One whose clock was set back now
 * and then is cut there into runs; where two runs claim the same time the longer one keeps it, and the records
 * of the other that fall inside are left out and reported.
 */
export const orderedRecords = (raw: UnorderedRecords): Uint32Array => {
  const { timed, timesS, warn } = raw;
  const starts = [0];
  for (let i = 1; i < timed.length; i++) if (timesS[timed[i]!]! < timesS[timed[i - 1]!]!) starts.push(i);
  if (starts.length === 1) return timed;

  const firstBack = timed[starts[1]!]!;
  const backs = starts.length - 1;
  if (backs > ORDER_SETTINGS.fewSteps) {
    warn(
      'unsorted',
      firstBack,
      `the samples are not in order of time (${backs} steps back), so they are sorted`,
    );
    return sorted(timed, timesS);
  }

  const runs = starts.map((from, i): Run => {
    const records = timed.subarray(from, starts[i + 1] ?? timed.length);
    let carries = raw.carries ? 0 : ALL;
    if (raw.carries) for (const record of records) carries |= raw.carries[record]!;
    return {
      records,
      firstS: timesS[records[0]!]!,
      lastS: timesS[records[records.length - 1]!]!,
      carries,
    };
  });
  const byLength = [...runs].sort((a, b) => b.records.length - a.records.length);
  const accepted: Run[] = [];
  const kept: number[] = [];
  for (const run of byLength) {
    const rivals = accepted.filter((other) => (other.carries & run.carries) !== 0);
    for (const record of run.records) {
      const time = timesS[record]!;
      if (!rivals.some((other) => time >= other.firstS && time <= other.lastS)) kept.push(record);
    }
    accepted.push(run);
  }
  const left = timed.length - kept.length;
  const times = backs === 1 ? 'once' : `${backs} times`;
  warn(
    'clock-back',
    firstBack,
    left === 0
      ? `the samples step back in time ${times}; put in order, none claims the time of another`
      : `the clock steps back ${times}; ${left} of ${timed.length} samples claim a time that a longer stretch has, and are left out`,
  );
  return sorted(Uint32Array.from(kept).sort(), timesS);
};

const sorted = (records: Uint32Array, timesS: Float64Array): Uint32Array =>
  Uint32Array.from(records).sort((a, b) => timesS[a]! - timesS[b]! || a - b);
