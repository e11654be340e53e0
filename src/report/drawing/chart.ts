import { element, escaped, px } from './element.js';
import { type LegendItem, legendOf } from './legend.js';
import type { Scales } from './marks.js';
import type { Drawing } from './picture.js';
import type { Quantity } from './quantity.js';
import { type Scale, scaleOf } from './scale.js';

/** One of several panels above one another; each has a scale of its own up, and all share the one along. */
export interface Panel {
  readonly y: Quantity;
  /** Lowest and highest value that is drawn. */
  readonly domain: readonly [number, number];
  /** px. */
  readonly height: number;
  /** What stands above it; the heading of its quantity unless given. */
  readonly title?: string;
  /** What is drawn, back to front. */
  readonly marks: (scales: Scales) => readonly string[];
  /** What stands beside it, where nothing is cut off. */
  readonly outside?: (scales: Scales) => readonly string[];
  /** Which of the picture's pointers answers here; none unless given. */
  readonly pointer?: number;
  /** No ticks up: the places have names of their own. */
  readonly bare?: true;
}

/** A stretch of the axis along that all panels show. */
export interface Shade {
  readonly from: number;
  readonly to: number;
  readonly label: string;
}

/** Panels over one axis. */
export interface Chart {
  readonly x: Quantity;
  readonly domain: readonly [number, number];
  readonly panels: readonly Panel[];
  readonly shades?: readonly Shade[];
  readonly legend?: readonly LegendItem[];
  /** The axis along has a heading in the chart below. */
  readonly headless?: boolean;
  /** Room for names at the left, px; what ticks need unless given. */
  readonly leftPx?: number;
  /** Room for names at the right, px. */
  readonly rightPx?: number;
}

/** Room around panels, px. */
const ROOM = Object.freeze({
  left: 48,
  right: 14,
  heading: 20,
  below: 8,
  axis: 38,
  bareAxis: 22,
  shadeLabel: 15,
});

const gridOf = ({ x, y }: Scales, bare: boolean): string => {
  const [left, right] = x.range;
  const [bottom, top] = y.range;
  return [
    ...(bare
      ? []
      : y.ticks.map(({ value }) =>
          element('line', {
            class: 'grid',
            x1: px(left),
            x2: px(right),
            y1: px(y.at(value)),
            y2: px(y.at(value)),
          }),
        )),
    ...x.ticks.map(({ value }) =>
      element('line', {
        class: 'grid',
        x1: px(x.at(value)),
        x2: px(x.at(value)),
        y1: px(top),
        y2: px(bottom),
      }),
    ),
  ].join('');
};

const shadesOf = (shades: readonly Shade[], { x, y }: Scales): string =>
  shades
    .map(({ from, to }) =>
      element('rect', {
        class: 'shade',
        x: px(x.at(from)),
        y: px(y.range[1]),
        width: px(Math.max(1, x.at(to) - x.at(from))),
        height: px(y.range[0] - y.range[1]),
      }),
    )
    .join('');

const upTicks = (y: Scale, left: number): string =>
  y.ticks
    .map(({ value, label }) =>
      element(
        'text',
        { class: 'tick', x: px(left - 6), y: px(y.at(value) + 4), 'text-anchor': 'end' },
        escaped(label),
      ),
    )
    .join('');

const panelOf = (
  panel: Panel,
  x: Scale,
  left: number,
  top: number,
  shades: readonly Shade[],
  headingTop: number,
): string => {
  const width = x.range[1];
  const y = scaleOf(panel.y, panel.domain, [panel.height, 0]);
  const bare = panel.bare === true;
  const ground = element('rect', {
    class: 'ground',
    width: px(width),
    height: px(panel.height),
    'data-x': x.domain.join(' '),
    'data-y': panel.domain.join(' '),
    'data-pointer': panel.pointer ?? null,
  });
  const inside = [ground, shadesOf(shades, { x, y }), gridOf({ x, y }, bare), ...panel.marks({ x, y })];
  return [
    element(
      'text',
      { class: 'heading', x: px(left), y: px(headingTop - 6) },
      escaped(panel.title ?? panel.y.heading),
    ),
    element('g', { transform: `translate(0 ${px(top)})` }, bare ? '' : upTicks(y, left)),
    // A drawing within the drawing: what goes beyond the panel is cut off.
    element(
      'svg',
      { class: 'panel', x: px(left), y: px(top), width: px(width), height: px(panel.height) },
      ...inside,
    ),
    panel.outside === undefined
      ? ''
      : element('g', { transform: `translate(${px(left)} ${px(top)})` }, ...panel.outside({ x, y })),
  ].join('');
};

const axisOf = (x: Scale, left: number, top: number, headless: boolean): string =>
  [
    ...x.ticks.map(({ value, label }) =>
      element(
        'text',
        { class: 'tick', x: px(left + x.at(value)), y: px(top + 16), 'text-anchor': 'middle' },
        escaped(label),
      ),
    ),
    headless
      ? ''
      : element(
          'text',
          { class: 'heading', x: px(left + x.range[1]), y: px(top + 33), 'text-anchor': 'end' },
          escaped(x.quantity.heading),
        ),
  ].join('');

/** Labels of stretches, left out where they would run into one another. */
const shadeLabels = (shades: readonly Shade[], x: Scale, left: number, top: number): string => {
  let free = Number.NEGATIVE_INFINITY;
  return shades
    .map(({ from, to, label }) => {
      const middle = x.at((from + to) / 2);
      const half = (label.length * 6.4) / 2;
      if (middle - half < free || middle - half < -20 || middle + half > x.range[1] + 12) return '';
      free = middle + half + 4;
      return element(
        'text',
        { class: 'words', x: px(left + middle), y: px(top), 'text-anchor': 'middle' },
        escaped(label),
      );
    })
    .join('');
};

/** Draw panels above one another over one axis. */
export const drawChart = (chart: Chart, width: number): Drawing => {
  const {
    panels,
    shades = [],
    legend = [],
    leftPx = ROOM.left,
    rightPx = ROOM.right,
    headless = false,
  } = chart;
  const x = scaleOf(chart.x, chart.domain, [0, width - leftPx - rightPx]);
  const key = legendOf(legend, width);
  const labelled = shades.some(({ label }) => label !== '');
  let top = key.height;
  const parts = [key.markup];
  panels.forEach((panel, i) => {
    const headingTop = top + ROOM.heading;
    top = headingTop + (i === 0 && labelled ? ROOM.shadeLabel : 0);
    if (i === 0) parts.push(shadeLabels(shades, x, leftPx, top - 5));
    parts.push(panelOf(panel, x, leftPx, top, shades, headingTop));
    top += panel.height + ROOM.below;
  });
  parts.push(axisOf(x, leftPx, top - ROOM.below, headless));
  return {
    width,
    height: Math.ceil(top - ROOM.below + (headless ? ROOM.bareAxis : ROOM.axis)),
    markup: parts.join(''),
  };
};
