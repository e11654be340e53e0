import type { WarningCode } from '../contract/severity.js';
import { DATE_RANGE, type Warning } from '../recording/index.js';
import { orderedRecords } from './record-order.js';
import { spreadStamps } from './stamp-spread.js';

/** The stamps of a log as they were written. */
export interface RawClock {
  /** The log as the user named it. */
  readonly file: string;
  /** Time of each record in file order, seconds from `originUnixS` or any start; NaN: it has none. */
  readonly timesS: Float64Array;
  /** Unix time of 0 in `timesS`, s; null where the stamps count from a start that is not known. */
  readonly originUnixS: number | null;
  /** What each record carries, one bit a channel; absent where all carry the same. Those with none are passed over. */
  readonly carries?: Uint8Array;
  /** Words for the place of a record in the log; `record 12` unless given. */
  readonly whereOf?: (record: number) => string;
}

/** Which records to keep, and when they were taken. */
export interface RepairedClock {
  /** Index of each kept record, in time order; null: all, as they stand. Empty where no record has a time. */
  readonly kept: Uint32Array | null;
  /** Time of each kept record, s, on the log's own origin. Never decreases; equal only between records that carry different channels. */
  readonly atS: Float64Array;
  /** Unix time of 0 s; null where the stamps are no dates, or the clock had not been set. */
  readonly originUnixS: number | null;
  readonly warnings: readonly Warning[];
}

/** Limits of the repair. */
export const CLOCK_SETTINGS = Object.freeze({
  /** s; stamps of a log without a date that are farther than this from its start are no times: as many as to 2100. */
  farthestS: DATE_RANGE.high,
  /** s; stamps closer than this are one: no logger samples faster than 5 kHz, and a rate over less has no size. */
  leastStepS: 1e-4,
  /** s; a step this large starts a new block of stamps. Below: a day's log with a long rest stays whole. */
  blockStepS: 43_200,
  /** s; a lone stamp this far from all others is wrong rather than another outing. 7 days to a year do. */
  strayStepS: 30 * 86_400,
  /** Share of all records that a block at the start or end of a log may have and be called stray; 0.001 to 0.05. */
  strayShare: 0.01,
  /** Days after an epoch within which a clock counts as never set: nobody rows with a year-old power-up. */
  unsetDays: 366,
  /** Records needed before milliseconds that repeat the seconds are called that; chance is below 1e-20 at 10. */
  repeatedFractionRecords: 10,
});

/** Where clocks begin that nobody set: Unix, the DOS and GPS calendars, the FIT calendar; Unix s. */
const EPOCHS_S = [0, 315_532_800, 631_065_600];

const isUnset = (unixS: number): boolean =>
  EPOCHS_S.some((epoch) => unixS >= epoch && unixS < epoch + CLOCK_SETTINGS.unsetDays * 86_400);

const words = (seconds: number): string => {
  if (seconds >= 2 * 86_400) return `${Math.round(seconds / 86_400)} days`;
  if (seconds >= 7200) return `${Math.round(seconds / 3600)} hours`;
  return `${Math.round(seconds)} s`;
};

const samples = (count: number): string => (count === 1 ? '1 sample' : `${count} samples`);

/** A stretch of records between two steps too large for one outing. */
interface Block {
  readonly from: number;
  readonly to: number;
  readonly firstS: number;
  readonly lastS: number;
}

const blocksOf = (timed: Uint32Array, timesS: Float64Array): Block[] => {
  const blocks: Block[] = [];
  let from = 0;
  for (let i = 1; i <= timed.length; i++) {
    const step = i < timed.length ? timesS[timed[i]!]! - timesS[timed[i - 1]!]! : Number.POSITIVE_INFINITY;
    if (Math.abs(step) <= CLOCK_SETTINGS.blockStepS) continue;
    blocks.push({ from, to: i, firstS: timesS[timed[from]!]!, lastS: timesS[timed[i - 1]!]! });
    from = i;
  }
  return blocks;
};

const sizeOf = (blocks: readonly Block[]): number =>
  blocks.reduce((sum, block) => sum + block.to - block.from, 0);

/** True where the block's stamps are wrong: time goes on around it as if it were not there, or it is alone. */
const isStray = (
  before: Block | undefined,
  block: Block,
  after: Block | undefined,
  total: number,
): boolean => {
  const size = block.to - block.from;
  if (before && after) {
    const resumes = Math.abs(after.firstS - before.lastS) <= CLOCK_SETTINGS.blockStepS;
    return resumes && size < sizeOf([before, after]);
  }
  const stepS = before ? block.firstS - before.lastS : after ? after.firstS - block.lastS : 0;
  return (
    Math.abs(stepS) > CLOCK_SETTINGS.strayStepS && size <= Math.max(1, total * CLOCK_SETTINGS.strayShare)
  );
};

/** Blocks whose stamps can be believed; those left out are noted. */
const plausible = (
  blocks: readonly Block[],
  total: number,
  note: (block: Block, message: string) => void,
) => {
  const kept: Block[] = [];
  const stray: Block[] = [];
  let farthestS = 0;
  blocks.forEach((block, i) => {
    const before = kept[kept.length - 1];
    if (!isStray(before, block, blocks[i + 1], total)) {
      kept.push(block);
      return;
    }
    stray.push(block);
    const beside = before?.lastS ?? blocks[i + 1]!.firstS;
    farthestS = Math.max(farthestS, Math.abs(block.firstS - beside));
  });
  if (stray.length > 0)
    note(
      stray[0]!,
      `${samples(sizeOf(stray))} left out: the clock is off by ${words(farthestS)} there, and only there`,
    );
  return kept;
};

/** Blocks of the part of the log, with or without a clock that was set, that is longer. */
const ofOneClock = (
  blocks: readonly Block[],
  originS: number,
  note: (block: Block, message: string) => void,
): { readonly blocks: readonly Block[]; readonly relative: boolean } => {
  const unset = blocks.filter((block) => isUnset(originS + block.firstS));
  if (unset.length === 0) return { blocks, relative: false };
  const set = blocks.filter((block) => !isUnset(originS + block.firstS));
  if (sizeOf(unset) <= sizeOf(set)) {
    note(unset[0]!, `${samples(sizeOf(unset))} from before the clock was set left out`);
    return { blocks: set, relative: false };
  }
  const year = new Date((originS + unset[0]!.firstS) * 1000).getUTCFullYear();
  const left = set.length > 0 ? `; ${samples(sizeOf(set))} with another date left out` : '';
  note(
    unset[0]!,
    `the clock was not set (it starts in ${year}), so the date and the time of day are not known${left}`,
  );
  return { blocks: unset, relative: true };
};

/** Some loggers write the second again as milliseconds: 07.007, 08.008. */
const repeatsSeconds = (timed: Uint32Array | null, timesS: Float64Array, originS: number): boolean => {
  const count = timed === null ? timesS.length : timed.length;
  if (count < CLOCK_SETTINGS.repeatedFractionRecords) return false;
  let telling = 0;
  for (let i = 0; i < count; i++) {
    const timeS = timesS[timed === null ? i : timed[i]!]!;
    const second = Math.floor(originS + timeS);
    const inMinute = ((second % 60) + 60) % 60;
    if (Math.abs((originS + timeS - second) * 1000 - inMinute) > 0.5) return false;
    if (inMinute > 0) telling++;
  }
  return telling >= CLOCK_SETTINGS.repeatedFractionRecords;
};

/**
 * Make one clock of a log's stamps: mends what is certain, leaves out what cannot be placed, reports all of it.
 * A clock that was never set is kept as a relative one.
 */
export const repairClock = (raw: RawClock): RepairedClock =>
  isHealthy(raw)
    ? { kept: null, atS: raw.timesS, originUnixS: raw.originUnixS, warnings: [] }
    : mendedClock(raw);

/** True where the clock needs no repair. */
const isHealthy = (raw: RawClock): boolean => {
  const { timesS, carries, originUnixS } = raw;
  const count = timesS.length;
  const originS = originUnixS ?? 0;
  if (count === 0 || !isTime(raw, 0) || !isTime(raw, count - 1)) return false;
  if (carries?.includes(0) || (originUnixS !== null && isUnset(originS + timesS[0]!))) return false;
  for (let i = 1; i < count; i++) {
    const stepS = timesS[i]! - timesS[i - 1]!;
    if (!(stepS >= CLOCK_SETTINGS.leastStepS && stepS <= CLOCK_SETTINGS.blockStepS)) return false;
  }
  return !repeatsSeconds(null, timesS, originS);
};

const mendedClock = (raw: RawClock): RepairedClock => {
  const { file } = raw;
  const whereOf = raw.whereOf ?? ((record: number) => `record ${record + 1}`);
  const warnings: Warning[] = [];
  const warn = (code: WarningCode, record: number | null, message: string): void => {
    warnings.push({ code, file, where: record === null ? null : whereOf(record), message });
  };

  const originS = raw.originUnixS ?? 0;
  const telling = recordsThat(raw.timesS.length, (record) => raw.carries?.[record] !== 0);
  let timed: Uint32Array = telling.filter((record) => isTime(raw, record));
  const missing = telling.length - timed.length;
  const isOutside = telling.some((record) => Number.isFinite(raw.timesS[record]!) && !isTime(raw, record));
  if (missing > 0 && timed.length > 0)
    warn(
      'samples-without-time',
      telling.find((record) => !isTime(raw, record))!,
      `${missing === 1 ? '1 sample has' : `${missing} samples have`} no time${isOutside ? ' between 1980 and 2100' : ''} and cannot be placed, so they are left out`,
    );

  let timesS = raw.timesS;
  if (repeatsSeconds(timed, timesS, originS)) {
    timesS = timesS.map((time) => Math.floor(originS + time) - originS);
    warn('fraction-repeats-second', null, 'the milliseconds repeat the seconds, so whole seconds are used');
  }

  const at = timed;
  const blocks = blocksOf(timed, timesS);
  const clock =
    raw.originUnixS !== null
      ? ofOneClock(blocks, originS, (block, message) => warn('clock-unset', at[block.from]!, message))
      : { blocks, relative: true };
  const rest = plausible(clock.blocks, timed.length, (block, message) =>
    warn('clock-jump', at[block.from]!, message),
  );
  const pauses = rest.slice(1).map((block, i) => ({ block, stepS: block.firstS - rest[i]!.lastS }));
  const longest = pauses.reduce((most, pause) => (pause.stepS > most.stepS ? pause : most), {
    block: rest[0],
    stepS: 0,
  });
  if (longest.block && longest.stepS > CLOCK_SETTINGS.blockStepS)
    warn(
      'long-gap',
      timed[longest.block.from]!,
      `nothing recorded for ${words(longest.stepS)}: this log probably holds more than one outing`,
    );
  timed = joined(timed, rest);

  const ordered = orderedRecords({ timed, timesS, carries: raw.carries, warn });
  const spread = spreadStamps({
    ordered,
    timesS,
    leastStepS: CLOCK_SETTINGS.leastStepS,
    carries: raw.carries,
    warn,
  });
  return {
    kept: spread.kept,
    atS: spread.timesS,
    originUnixS: clock.relative ? null : raw.originUnixS,
    warnings,
  };
};

/** True where a stamp can be one: a date, a time since the clock of a logger without one began, or since any start. */
const isTime = ({ timesS, originUnixS }: RawClock, record: number): boolean => {
  const at = (originUnixS ?? 0) + timesS[record]!;
  if (originUnixS === null) return Math.abs(at) <= CLOCK_SETTINGS.farthestS;
  return (at >= DATE_RANGE.low && at <= DATE_RANGE.high) || isUnset(at);
};

const recordsThat = (count: number, holds: (record: number) => boolean): Uint32Array => {
  const records = new Uint32Array(count);
  let kept = 0;
  for (let record = 0; record < count; record++) if (holds(record)) records[kept++] = record;
  return records.subarray(0, kept);
};

const joined = (timed: Uint32Array, blocks: readonly Block[]): Uint32Array => {
  if (blocks.length === 1 && blocks[0]!.to - blocks[0]!.from === timed.length) return timed;
  const kept = new Uint32Array(blocks.reduce((sum, block) => sum + block.to - block.from, 0));
  let at = 0;
  for (const block of blocks) {
    kept.set(timed.subarray(block.from, block.to), at);
    at += block.to - block.from;
  }
  return kept;
};
