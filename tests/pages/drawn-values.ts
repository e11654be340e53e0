/** One panel of a drawing: its scales, and what stands in it. */
export interface DrawnPanel {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  readonly width: number;
  readonly height: number;
  readonly markup: string;
}

const pairOf = (text: string): [number, number] => text.split(' ').map(Number) as [number, number];

/** The panels of a drawing's markup, in order. */
export const panelsOf = (markup: string): readonly DrawnPanel[] =>
  [...markup.matchAll(/<svg class="panel"[^>]*>(.*?)<\/svg>/gs)].map(([, inside]) => {
    const [, width, height, x, y] =
      /<rect class="ground" width="([\d.]+)" height="([\d.]+)" data-x="([^"]+)" data-y="([^"]+)"/.exec(
        inside!,
      )!;
    return { x: pairOf(x!), y: pairOf(y!), width: Number(width), height: Number(height), markup: inside! };
  });

/** Places on a panel turned back into values. */
const valued = ({ x, y, width, height }: DrawnPanel, left: number, top: number): [number, number] => [
  x[0] + (left / width) * (x[1] - x[0]),
  y[1] - (top / height) * (y[1] - y[0]),
];

/** Values of a panel per pixel of its drawing, and so how near a value can be read. */
export const perPx = ({ x, y, width, height }: DrawnPanel): readonly [number, number] => [
  Math.abs(x[1] - x[0]) / width,
  Math.abs(y[1] - y[0]) / height,
];

/** Points of every line of a class, turned back into values; each stretch without a gap on its own. */
export const linesOf = (panel: DrawnPanel, kind: string): readonly (readonly [number, number])[][] =>
  [...panel.markup.matchAll(new RegExp(`<path class="${kind}"[^>]* d="([^"]+)"`, 'g'))].flatMap(([, path]) =>
    path!
      .split('M')
      .slice(1)
      .map((stretch) =>
        stretch.split('L').map((point) => {
          const [left, top] = point.replace('Z', '').split(',').map(Number) as [number, number];
          return valued(panel, left, top);
        }),
      ),
  );
/** Middles of the dots of a class, turned back into values. */
export const dotsOf = (panel: DrawnPanel, kind: string): readonly (readonly [number, number])[] =>
  [
    ...panel.markup.matchAll(
      new RegExp(`<path class="dot ${kind}"[^>]* transform="translate\\(([^)]+)\\)"`, 'g'),
    ),
  ].map(([, at]) => valued(panel, ...pairOf(at!)));

/** Ends of the straight lines of a class, turned back into values. */
export const strokesOf = (
  panel: DrawnPanel,
  kind: string,
): readonly (readonly [from: readonly [number, number], to: readonly [number, number]])[] =>
  [
    ...panel.markup.matchAll(
      new RegExp(`<line class="${kind}" x1="([^"]+)" y1="([^"]+)" x2="([^"]+)" y2="([^"]+)"`, 'g'),
    ),
  ].map(([, x1, y1, x2, y2]) => [
    valued(panel, Number(x1), Number(y1)),
    valued(panel, Number(x2), Number(y2)),
  ]);
