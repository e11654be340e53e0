import { symbol, symbolsFill } from 'd3-shape';
import { element, escaped, px } from './element.js';
import { seriesClass } from './palette.js';

/** How one kind of mark looks, and what it stands for. */
export interface LegendItem {
  readonly label: string;
  readonly look: 'line' | 'level' | 'way' | 'dot' | 'point' | 'band' | 'box';
  /** Number of the series, or the class of a box. */
  readonly series: number | string;
}

/** Sizes of a legend, px. */
const LEGEND = Object.freeze({ lineHeight: 18, sample: 24, gap: 16, letter: 6.4 });

const sampleOf = ({ look, series }: LegendItem, x: number, y: number): string => {
  const kind = typeof series === 'number' ? seriesClass(series) : series;
  const [right, middle] = [x + LEGEND.sample - 4, y - 4];
  if (look === 'dot' || look === 'point')
    return element('path', {
      class: `dot ${look === 'dot' ? 'usual' : 'small'} ${kind}`,
      d: symbol(
        symbolsFill[look === 'dot' ? Number(series) % symbolsFill.length : 0],
        look === 'dot' ? 42 : 12,
      ).digits(1)()!,
      transform: `translate(${px(x + 10)} ${px(middle)})`,
    });
  if (look === 'band' || look === 'box')
    return element('rect', {
      class: look === 'box' ? kind : `band ${kind}`,
      x: px(x),
      y: px(y - 10),
      width: px(LEGEND.sample - 4),
      height: '11',
    });
  return element('line', {
    class: `${look} ${kind}`,
    x1: px(x),
    y1: px(middle),
    x2: px(right),
    y2: px(middle),
  });
};

/**
 * A legend in lines that fit a width.
 * @returns its markup, and its height in px
 */
export const legendOf = (
  items: readonly LegendItem[],
  width: number,
): { readonly markup: string; readonly height: number } => {
  let [x, line] = [0, 0];
  const parts = items.map((item) => {
    const wide = LEGEND.sample + item.label.length * LEGEND.letter;
    if (x > 0 && x + wide > width) [x, line] = [0, line + 1];
    const y = line * LEGEND.lineHeight + 12;
    const markup = [
      sampleOf(item, x, y),
      element('text', { class: 'words', x: px(x + LEGEND.sample), y: px(y) }, escaped(item.label)),
    ];
    x += wide + LEGEND.gap;
    return markup.join('');
  });
  return { markup: parts.join(''), height: items.length === 0 ? 0 : (line + 1) * LEGEND.lineHeight + 4 };
};
