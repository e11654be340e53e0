import type { Warn } from './record-order.js';

/** Records in order of their stamps, some of which may be equal. */
export interface StampedRecords {
  readonly ordered: Uint32Array;
  /** Stamps closer than this are one, s. */
  readonly leastStepS: number;
  /** Time of every record, s. */
  readonly timesS: Float64Array;
  /** What each record carries, one bit a channel; absent where all carry the same. */
  readonly carries: Uint8Array | undefined;
  readonly warn: Warn;
}

/** Records with one time each. */
export interface SpreadRecords {
  readonly kept: Uint32Array;
  readonly timesS: Float64Array;
}

/** Steps longer than this many usual ones are gaps: samples are not spread into them. */
const GAP_STEPS = 1.5;

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[values.length >> 1] ?? 0;

/** Records of one stamp; those that add to one another (a position, then a heart rate) share a slot. */
interface Stamp {
  readonly timeS: number;
  readonly slots: number[][];
}

const stampsOf = ({ ordered, timesS, carries, leastStepS }: StampedRecords): Stamp[] => {
  const stamps: Stamp[] = [];
  let stamp: Stamp | null = null;
  let held = 0;
  for (const record of ordered) {
    const time = timesS[record]!;
    const carried = carries ? carries[record]! : 1;
    if (stamp === null || time - stamp.timeS >= leastStepS) {
      stamp = { timeS: time, slots: [[record]] };
      stamps.push(stamp);
      held = carried;
    } else if ((held & carried) === 0) {
      stamp.slots[stamp.slots.length - 1]!.push(record);
      held |= carried;
    } else {
      stamp.slots.push([record]);
      held = carried;
    }
  }
  return stamps;
};

/** Stamps of a clock that shows no more than so many seconds, by how near to whole steps they all lie. */
const SAME_S = 1e-4;

/** True where stamps are times cut to whole steps of a decimal unit: samples follow them. Else they are batches, stamped as they were handed over: samples go before. */
const areCut = (stamps: readonly Stamp[], stepS: number): boolean => {
  const unitS = 10 ** Math.round(Math.log10(stepS));
  if (Math.abs(stepS - unitS) > SAME_S) return false;
  return stamps.every(({ timeS }) => Math.abs(timeS / unitS - Math.round(timeS / unitS)) * unitS < SAME_S);
};

const hasTies = ({ ordered, timesS, leastStepS }: StampedRecords): boolean => {
  for (let i = 1; i < ordered.length; i++)
    if (timesS[ordered[i]!]! - timesS[ordered[i - 1]!]! < leastStepS) return true;
  return false;
};

/**
 * Give every record a time of its own. Where most stamps carry several samples (whole-second stamps of a 10 Hz
 * log) they are spread evenly until the next stamp; where the stamps are no whole steps of a clock, they are those
 * of batches, and the samples are spread evenly since the stamp before. A stamp that is repeated now and then is spread only where
 * the next one is missing (10, 10, 12); else its first record is kept and the others are reported.
 */
export const spreadStamps = (raw: StampedRecords): SpreadRecords => {
  const { ordered, timesS, warn } = raw;
  if (!hasTies(raw))
    return { kept: ordered, timesS: Float64Array.from(ordered, (record) => timesS[record]!) };

  const stamps = stampsOf(raw);
  const usualCount = median(stamps.map((stamp) => stamp.slots.length));
  const usualStepS = median(stamps.slice(1).map((stamp, i) => stamp.timeS - stamps[i]!.timeS));
  const systematic = usualCount > 1 && usualStepS > 0;
  const batched = systematic && !areCut(stamps, usualStepS);
  const kept: number[] = [];
  const times: number[] = [];
  const put = (slot: readonly number[], timeS: number): void => {
    for (const record of slot) {
      kept.push(record);
      times.push(timeS);
    }
  };
  let repeated = 0;
  let firstRepeated: number | null = null;
  let moved = 0;
  stamps.forEach(({ timeS, slots }, i) => {
    const count = slots.length;
    const toNextS = (stamps[i + 1]?.timeS ?? Number.POSITIVE_INFINITY) - timeS;
    if (batched) {
      const sinceS = timeS - (stamps[i - 1]?.timeS ?? Number.NEGATIVE_INFINITY);
      // a batch that is not as large as others takes as much less time; after a gap it is as long as others
      const spanS = sinceS > usualStepS * GAP_STEPS ? (usualStepS * count) / usualCount : sinceS;
      slots.forEach((slot, j) => {
        put(slot, timeS - ((count - 1 - j) * spanS) / count);
      });
      return;
    }
    if (systematic) {
      const spanS = Math.min(toNextS, usualStepS);
      const last = i === stamps.length - 1 || toNextS > usualStepS * GAP_STEPS;
      const share = spanS / (i === 0 || last ? Math.max(count, usualCount) : count);
      // A log that begins within a step has the late samples of it.
      const lead = i === 0 && !last ? Math.max(0, usualCount - count) : 0;
      slots.forEach((slot, j) => {
        put(slot, timeS + (lead + j) * share);
      });
      return;
    }
    put(slots[0]!, timeS);
    if (count === 1) return;
    const room = usualStepS > 0 && Math.abs(toNextS - count * usualStepS) < usualStepS / 2;
    if (room) {
      moved += count - 1;
      slots.slice(1).forEach((slot, j) => {
        put(slot, timeS + ((j + 1) * toNextS) / count);
      });
    } else {
      repeated += slots.slice(1).flat().length;
      firstRepeated ??= slots[1]![0]!;
    }
  });
  if (systematic)
    warn(
      'stamps-shared',
      null,
      batched
        ? `each stamp is shared by about ${usualCount} samples and is taken for the time of the last of them; the others are spread evenly before it, over ${Number(usualStepS.toPrecision(3))} s`
        : `each stamp is shared by about ${usualCount} samples, so they are spread evenly over ${Number(usualStepS.toPrecision(3))} s`,
    );
  if (moved > 0)
    warn(
      'stamps-rounded',
      null,
      `${moved} samples repeat a stamp where the next is missing, so they get that time`,
    );
  if (repeated > 0)
    warn(
      'stamps-repeated',
      firstRepeated,
      `${repeated} of ${ordered.length} samples repeat the time of the one before and are left out`,
    );
  return { kept: Uint32Array.from(kept), timesS: Float64Array.from(times) };
};
