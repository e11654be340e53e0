import { ticks } from 'd3-array';
import { scaleUtc } from 'd3-scale';
import { formatClock } from '../../units/clock-time.js';
import { MPS_PER_KNOT, SPEED_HEADING, type SpeedUnit } from '../../units/speed.js';
import { dateCell, numberCell, speedCell, timeCell } from '../cells.js';
import type { Reading } from '../section.js';
import { roundSplits } from './round-splits.js';

/** A value that an axis names. */
export interface Tick {
  readonly value: number;
  readonly label: string;
}

/** What an axis measures. */
export interface Quantity {
  /** As it stands at the axis, with its unit. */
  readonly heading: string;
  /**
   * Round values within a domain.
   * @param lengthPx how long the axis is, px
   */
  readonly ticks: (domain: readonly [number, number], lengthPx: number) => readonly Tick[];
  /** A value as tables write it, with its unit. */
  readonly format: (value: number) => string;
}

/** Least room from tick to tick, px: up an axis, and along one, where labels stand side by side. */
export const TICK_ROOM = Object.freeze({ up: 26, along: 64 });

const countOf = (lengthPx: number, roomPx: number): number => Math.max(2, Math.floor(lengthPx / roomPx));

const decimalsOf = (values: readonly number[]): number => {
  const step = values.length > 1 ? Math.abs(values[1]! - values[0]!) : 1;
  return step >= 1 ? 0 : Math.min(3, Math.ceil(-Math.log10(step) - 1e-9));
};

/** A plain number with its unit; the axis takes the digits of its steps, values take `decimals`. */
export const plainQuantity = (
  heading: string,
  unit: string,
  decimals: number,
  roomPx: number = TICK_ROOM.up,
): Quantity => ({
  heading,
  ticks: ([low, high], lengthPx) => {
    const values = ticks(low, high, countOf(lengthPx, roomPx));
    const digits = decimalsOf(values);
    return values.map((value) => ({ value, label: numberCell(value, digits) }));
  },
  format: (value) => (unit === '' ? numberCell(value, decimals) : `${numberCell(value, decimals)} ${unit}`),
});

/** A number that counts: ticks at whole numbers alone. */
export const countQuantity = (heading: string, roomPx: number = TICK_ROOM.along / 2): Quantity => ({
  heading,
  ticks: ([low, high], lengthPx) =>
    ticks(low, high, countOf(lengthPx, roomPx))
      .filter(Number.isInteger)
      .map((value) => ({ value, label: String(value) })),
  format: String,
});

/** Least width of an axis: what differs by less must not look as if it did. */
export const LEAST = Object.freeze({
  /** m/s; two seconds of a split of 1:40. */
  speedMps: 0.1,
  /** spm; crews hold a rate to about 1. */
  rateSpm: 4,
  /** bpm. */
  heartBpm: 10,
});

/** Seconds more or fewer, with their sign. */
export const signedSeconds = (heading: string): Quantity => {
  const plain = plainQuantity(heading, 's', 1);
  const signed = (value: number, text: string) => (value > 0 ? `+${text}` : text);
  return {
    ...plain,
    ticks: (domain, lengthPx) =>
      plain.ticks(domain, lengthPx).map(({ value, label }) => ({ value, label: signed(value, label) })),
    format: (value) => signed(value, plain.format(value)),
  };
};

const PER_MPS: Readonly<Record<Exclude<SpeedUnit, 'split'>, number>> = {
  mps: 1,
  kmh: 3.6,
  knots: 1 / MPS_PER_KNOT,
};

/** Speed, m/s on the scale and up is faster; its ticks are round in the unit that is read: splits at 1:40, 1:45. */
export const speedQuantity = (unit: SpeedUnit, roomPx: number = TICK_ROOM.up): Quantity => {
  const heading = SPEED_HEADING[unit];
  const [, ...unitWords] = heading.split(' ');
  return {
    heading,
    ticks: (domain, lengthPx) => {
      if (unit === 'split')
        return roundSplits(domain, lengthPx, roomPx).map(({ splitS, speedMps }) => ({
          value: speedMps,
          label: formatClock(splitS, Number.isInteger(splitS) ? 0 : 1),
        }));
      const factor = PER_MPS[unit];
      const values = ticks(domain[0] * factor, domain[1] * factor, countOf(lengthPx, roomPx));
      const digits = decimalsOf(values);
      return values.map((value) => ({ value: value / factor, label: numberCell(value, digits) }));
    },
    format: (mps) => `${speedCell(mps, unit)} ${unitWords.join(' ')}`,
  };
};

/** Stroke rate. */
export const RATE: Quantity = plainQuantity('rate spm', 'spm', 1);

/** Stroke rate along an axis from left to right. */
export const RATE_ALONG: Quantity = plainQuantity('rate spm', 'spm', 1, TICK_ROOM.along);

/** Heart rate. */
export const HEART_RATE: Quantity = plainQuantity('heart rate bpm', 'bpm', 0);

/** Metres from the start. */
export const ALONG: Quantity = plainQuantity('m from the start', 'm', 0, TICK_ROOM.along);

/** Steps of an axis of time, s. */
const TIME_STEPS_S = [1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14_400, 21_600];

const timeStep = ([from, to]: readonly [number, number], lengthPx: number): number => {
  const most = countOf(lengthPx, TICK_ROOM.along);
  return TIME_STEPS_S.find((stepS) => (to - from) / stepS <= most) ?? 86_400;
};

const multiples = (from: number, to: number, step: number, offset: number): number[] => {
  const first = Math.ceil((from - offset) / step);
  const last = Math.floor((to - offset) / step);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => (first + i) * step + offset);
};

/** Time since something began, as minutes and seconds. */
export const elapsedQuantity = (heading: string): Quantity => ({
  heading,
  ticks: (domain, lengthPx) =>
    multiples(...domain, timeStep(domain, lengthPx), 0).map((value) => ({
      value,
      label: formatClock(value, 0),
    })),
  format: (value) => formatClock(value, 1),
});

/**
 * Time of day where the log has a clock, else time since the log began; values are seconds from its first sample.
 * @param startTime instant of that sample, ISO 8601; null without a clock
 */
export const clockQuantity = (startTime: string | null, reading: Reading): Quantity => {
  if (startTime === null) return elapsedQuantity('time since the log began');
  const startMs = Date.parse(startTime);
  const timeAt = (atS: number) => timeCell(new Date(startMs + 1000 * atS).toISOString(), reading);
  const [hour, minute, second] = timeAt(0).split(':').map(Number) as [number, number, number];
  const sinceMidnightS = hour * 3600 + minute * 60 + second + (startMs % 1000) / 1000;
  return {
    heading: `time of day, ${reading.zone}`,
    ticks: (domain, lengthPx) => {
      const step = timeStep(domain, lengthPx);
      return multiples(...domain, step, -(sinceMidnightS % step)).map((value) => {
        const text = timeAt(value + 0.001);
        return { value, label: step < 60 ? text : text.slice(0, 5) };
      });
    },
    format: timeAt,
  };
};

/** Room for a date along an axis, px. */
const DATE_ROOM_PX = 92;

/** Days of the calendar; values are milliseconds since 1970-01-01T00:00Z. */
export const dateQuantity = (reading: Reading): Quantity => ({
  heading: 'date',
  ticks: ([from, to], lengthPx) => {
    const calendar = scaleUtc().domain([from, to]);
    const of = (count: number) => calendar.ticks(count).filter((day) => day.getTime() % 86_400_000 === 0);
    let count = countOf(lengthPx, DATE_ROOM_PX);
    while (count > 1 && of(count).length * DATE_ROOM_PX > lengthPx) count--;
    const days = of(count).map((day) => day.toISOString().slice(0, 10));
    const months = days.every((day) => day.endsWith('-01'));
    return days.map((day) => ({ value: Date.parse(day), label: months ? day.slice(0, 7) : day }));
  },
  format: (value) => dateCell(new Date(value).toISOString(), reading),
});
