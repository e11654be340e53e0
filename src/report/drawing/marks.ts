import { area, curveStepAfter, line, symbol, symbolsFill } from 'd3-shape';
import { element, escaped, px } from './element.js';
import { seriesClass } from './palette.js';
import type { Scale } from './scale.js';
import { type Point, thinned } from './thinned.js';

/** Where marks are placed: the scales of one panel. */
export interface Scales {
  readonly x: Scale;
  readonly y: Scale;
}

/** A value along and a value up; null up is a gap. */
export type Sample = readonly [x: number, y: number | null];

/** A range of values at a place. */
export interface Span {
  readonly x: number;
  readonly low: number;
  readonly high: number;
}

/** A level from one place to another, with its standard deviation where it is known. */
export interface Level {
  readonly from: number;
  readonly to: number;
  readonly value: number;
  readonly sd: number | null;
}

const placed = (samples: readonly Sample[], { x, y }: Scales): (Point | null)[] =>
  samples.map(([along, up]) => (up === null ? null : [x.at(along), y.at(up)]));

/**
 * A line through samples, thinned to what can be seen, with a gap where there is none.
 * @param columnPx width of the columns that it is thinned by, px: wider ones for a line that is only a background
 */
export const lineMark = (
  samples: readonly Sample[],
  series: number,
  scales: Scales,
  kind = '',
  columnPx = 1,
): string => {
  const path = line<Point | null>()
    .defined((point) => point !== null)
    .x((point) => point![0])
    .y((point) => point![1])
    .digits(1)(thinned(placed(samples, scales), columnPx));
  return path === null
    ? ''
    : element('path', { class: `line ${seriesClass(series)}${kind === '' ? '' : ` ${kind}`}`, d: path });
};

/** Levels joined by upright strokes: a staircase. */
export const stairMark = (samples: readonly Sample[], series: number, scales: Scales): string => {
  const path = line<Point>().curve(curveStepAfter).digits(1)(
    placed(samples, scales).filter((point) => point !== null),
  );
  return path === null ? '' : element('path', { class: `line ${seriesClass(series)}`, d: path });
};

/** The range around a line. */
export const bandMark = (spans: readonly Span[], series: number, { x, y }: Scales): string => {
  const path = area<Span>()
    .x((span) => x.at(span.x))
    .y0((span) => y.at(span.low))
    .y1((span) => y.at(span.high))
    .digits(1)(spans);
  return path === null || spans.length === 0
    ? ''
    : element('path', { class: `band ${seriesClass(series)}`, d: path });
};

const box = (kind: string, left: number, top: number, width: number, height: number): string =>
  element('rect', { class: kind, x: px(left), y: px(top), width: px(width), height: px(height) });

const stroke = (kind: string, x1: number, y1: number, x2: number, y2: number): string =>
  element('line', { class: kind, x1: px(x1), y1: px(y1), x2: px(x2), y2: px(y2) });

/** Levels side by side, each with one standard deviation to either side. */
export const levelMarks = (levels: readonly Level[], series: number, { x, y }: Scales): string =>
  levels
    .map(({ from, to, value, sd }) => {
      const [left, right, at] = [x.at(from), x.at(to), y.at(value)];
      const reach = sd === null ? 0 : Math.abs(y.at(value + sd) - at);
      return [
        sd === null ? '' : box(`band ${seriesClass(series)}`, left, at - reach, right - left, 2 * reach),
        stroke(`level ${seriesClass(series)}`, left, at, right, at),
      ].join('');
    })
    .join('');

/** Half the width of a letter, px. */
const HALF_LETTER_PX = 3.2;

/** Levels that lie beyond the scale, each with its value at the edge that it lies beyond. */
export const beyondMarks = (levels: readonly Level[], { x, y }: Scales): string =>
  levels
    .filter(({ value }) => value < y.domain[0] || value > y.domain[1])
    .map(({ from, to, value }) => {
      const below = value < y.domain[0];
      const [figure] = y.quantity.format(value).split(' ');
      const text = `${below ? '↓' : '↑'} ${figure}`;
      const half = 2 + text.length * HALF_LETTER_PX;
      const middle = (x.at(from) + x.at(to)) / 2;
      return element(
        'text',
        {
          class: 'words',
          x: px(Math.max(half, Math.min(x.range[1] - half, middle))),
          y: px(below ? y.range[0] - 4 : y.range[1] + 12),
          'text-anchor': 'middle',
        },
        escaped(text),
      );
    })
    .join('');

/** A box from a place and a value to another: a column, or a part of a stack. */
export const boxMark = (
  from: readonly [x: number, y: number],
  to: readonly [x: number, y: number],
  kind: string,
  { x, y }: Scales,
): string => {
  const [x1, x2, y1, y2] = [x.at(from[0]), x.at(to[0]), y.at(from[1]), y.at(to[1])];
  return box(kind, Math.min(x1, x2), Math.min(y1, y2), Math.abs(x2 - x1), Math.abs(y2 - y1));
};

/** Area of a dot, square px. */
const DOT_AREA = Object.freeze({ small: 7, usual: 42 });

/** Dots, each series with a shape of its own. */
export const dotMarks = (
  samples: readonly Sample[],
  series: number,
  scales: Scales,
  size: keyof typeof DOT_AREA = 'usual',
): string => {
  const shape = symbol(
    symbolsFill[size === 'small' ? 0 : series % symbolsFill.length],
    DOT_AREA[size],
  ).digits(1)()!;
  return placed(samples, scales)
    .filter((point) => point !== null)
    .map(([x, y]) =>
      element('path', {
        class: `dot ${size} ${seriesClass(series)}`,
        d: shape,
        transform: `translate(${px(x)} ${px(y)})`,
      }),
    )
    .join('');
};

/** Half the width of the cap of an error bar, px. */
const CAP_PX = 3;

/** Upright bars from low to high, with caps: one standard deviation to either side, or an interval. */
export const errorMarks = (spans: readonly Span[], series: number, { x, y }: Scales): string =>
  spans
    .map((span) => {
      const [at, low, high] = [x.at(span.x), y.at(span.low), y.at(span.high)];
      const kind = `whisker ${seriesClass(series)}`;
      return [
        stroke(kind, at, low, at, high),
        stroke(kind, at - CAP_PX, low, at + CAP_PX, low),
        stroke(kind, at - CAP_PX, high, at + CAP_PX, high),
      ].join('');
    })
    .join('');

/** Bars from left to right, with caps, each on a height of its own. */
export const sideErrorMarks = (
  bars: readonly { readonly y: number; readonly low: number; readonly high: number }[],
  series: number,
  { x, y }: Scales,
): string =>
  bars
    .map((bar) => {
      const [at, low, high] = [y.at(bar.y), x.at(bar.low), x.at(bar.high)];
      const kind = `whisker ${seriesClass(series)}`;
      return [
        stroke(kind, low, at, high, at),
        stroke(kind, low, at - CAP_PX, low, at + CAP_PX),
        stroke(kind, high, at - CAP_PX, high, at + CAP_PX),
      ].join('');
    })
    .join('');

/** A line across the whole panel at a value. */
export const acrossMark = (value: number, { x, y }: Scales, kind = 'mark'): string =>
  stroke(kind, x.range[0], y.at(value), x.range[1], y.at(value));

/** A line up the whole panel at a place. */
export const uprightMark = (along: number, { x, y }: Scales, kind = 'mark'): string =>
  stroke(kind, x.at(along), y.range[0], x.at(along), y.range[1]);

/** Words at a place and a value. */
export const wordsMark = (
  [along, up]: readonly [number, number],
  text: string,
  { x, y }: Scales,
  { anchor = 'start', dx = 0, dy = 0, kind = 'words' } = {},
): string =>
  element(
    'text',
    { class: kind, x: px(x.at(along) + dx), y: px(y.at(up) + dy), 'text-anchor': anchor },
    escaped(text),
  );
