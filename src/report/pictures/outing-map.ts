import { quantileSorted } from 'd3-array';
import type { DrawnMoment, DrawnOuting } from '../../contract/drawn.js';
import type { OutingRow } from '../../contract/outing.js';
import type { SpeedUnit } from '../../units/speed.js';
import { cell, distanceCell, speedCell, speedUnit } from '../cells.js';
import { element, escaped, px } from '../drawing/element.js';
import { legendOf } from '../drawing/legend.js';
import type { Drawing, Picture, Pointer } from '../drawing/picture.js';
import { clockQuantity, RATE, speedQuantity } from '../drawing/quantity.js';
import type { Reading } from '../section.js';

/** How a map is laid out, px. */
const MAP = Object.freeze({ edge: 26, tallest: 460, plate: 9, apart: 20, joinedS: 12 });

/** Steps of speed, each with a colour and a width. */
const STEPS = 5;

type Placed = DrawnMoment & { readonly east_m: number; readonly north_m: number };

const isPlaced = (moment: DrawnMoment): moment is Placed =>
  moment.east_m !== undefined && moment.north_m !== undefined;

/** What a bound between two steps is rounded to, in the unit that is read: half seconds of a split to 5 s. */
const rounded = (mps: number, spread: number, unit: SpeedUnit): number => {
  if (unit !== 'split') return Number(mps.toFixed(1));
  const stepS = [0.5, 1, 2, 5].filter((each) => each <= Math.max(0.5, spread / STEPS)).at(-1)!;
  return 500 / (Math.round(500 / mps / stepS) * stepS);
};

/** Bounds between the steps, m/s, rising, as round as their spread allows. */
const boundsOf = (speeds: readonly number[], unit: SpeedUnit): readonly number[] => {
  const sorted = [...speeds].sort((a, b) => a - b);
  const [low, high] = [quantileSorted(sorted, 0.05)!, quantileSorted(sorted, 0.95)!];
  const spread = low > 0 ? 500 / low - 500 / high : 0;
  return Array.from({ length: STEPS - 1 }, (_, i) =>
    rounded(low + ((i + 1) * (high - low)) / STEPS, spread, unit),
  );
};

const stepOf = (mps: number, bounds: readonly number[]): number =>
  bounds.filter((bound) => mps >= bound).length;

/** Names of the steps, slow to fast. */
const stepNames = (bounds: readonly number[], unit: SpeedUnit): string[] => {
  const cells = bounds.map((bound) => speedCell(bound, unit));
  const shown = cells.every((text) => text.endsWith('.0')) ? cells.map((text) => text.slice(0, -2)) : cells;
  return [
    `slower than ${shown[0]}`,
    ...shown.slice(1).map((faster, i) => `${shown[i]} to ${faster}`),
    `${shown.at(-1)} and faster`,
  ];
};

/** Where the metres of the water lie on the drawing. */
interface Ground {
  readonly scale: number;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly east: readonly [number, number];
  readonly north: readonly [number, number];
}

const groundOf = (moments: readonly Placed[], width: number, top: number): Ground => {
  const easts = moments.map(({ east_m }) => east_m);
  const norths = moments.map(({ north_m }) => north_m);
  const [e0, e1] = [easts.reduce((a, b) => Math.min(a, b)), easts.reduce((a, b) => Math.max(a, b))];
  const [n0, n1] = [norths.reduce((a, b) => Math.min(a, b)), norths.reduce((a, b) => Math.max(a, b))];
  const inside = width - 2 * MAP.edge;
  const scale = Math.min(
    inside / Math.max(e1 - e0, 50),
    (MAP.tallest - 2 * MAP.edge) / Math.max(n1 - n0, 50),
  );
  const height = Math.max(140, (n1 - n0) * scale + 2 * MAP.edge + 14);
  const [halfE, halfN] = [width / scale / 2, height / scale / 2];
  const [midE, midN] = [(e0 + e1) / 2, (n0 + n1) / 2];
  return {
    scale,
    left: 0,
    top,
    width,
    height,
    east: [midE - halfE, midE + halfE],
    north: [midN - halfN, midN + halfN],
  };
};

type Spot = readonly [x: number, y: number];

const spotOf = ({ east_m, north_m }: Placed, { scale, east, north }: Ground): Spot => [
  (east_m - east[0]) * scale,
  (north[1] - north_m) * scale,
];

/** The way in lines of one step of speed each, slow ones below. A point closer than can be seen is left out. */
const wayOf = (moments: readonly Placed[], ground: Ground, bounds: readonly number[]): string => {
  const lines: string[][] = Array.from({ length: STEPS }, () => []);
  let [before, step]: [Placed | null, number] = [null, -1];
  let last: Spot = [0, 0];
  for (const moment of moments) {
    const at = spotOf(moment, ground);
    const own = stepOf(moment.speed_mps ?? 0, bounds);
    const joined = before !== null && moment.at_s - before.at_s <= MAP.joinedS;
    if (joined && own === step && Math.hypot(at[0] - last[0], at[1] - last[1]) < 1) continue;
    if (!joined || own !== step) lines[own]!.push(joined ? `M${px(last[0])} ${px(last[1])}` : 'M');
    const line = lines[own]!;
    line.push(line.at(-1) === 'M' ? `${px(at[0])} ${px(at[1])}` : `L${px(at[0])} ${px(at[1])}`);
    [before, step, last] = [moment, own, at];
  }
  return lines
    .map((line, i) =>
      line.length === 0 ? '' : element('path', { class: `way s${i + 1}`, d: line.join('') }),
    )
    .join('');
};

/** Shares of a piece at which its number may stand, and how far beside the way, px. */
const SHARES = [0.5, 0.3, 0.7, 0.15, 0.85];
const BESIDE = [0, 18, -18, 34, -34];

/** Numbers of the pieces, each on its own way or a little beside it, so that none covers another. */
const numbersOf = (moments: readonly Placed[], { pieces }: DrawnOuting, ground: Ground): string => {
  const taken: Spot[] = [];
  return pieces
    .map(({ piece, start_at_s, end_at_s }) => {
      const own = moments.filter(({ at_s }) => at_s >= start_at_s && at_s <= end_at_s);
      if (own.length < 2) return '';
      const spots = BESIDE.flatMap((beside) =>
        SHARES.map((share): { at: Spot; on: Spot } => {
          const i = Math.min(own.length - 2, Math.floor(share * own.length));
          const [on, next] = [spotOf(own[i]!, ground), spotOf(own[i + 1]!, ground)];
          const [dx, dy] = [next[0] - on[0], next[1] - on[1]];
          const length = Math.hypot(dx, dy) || 1;
          return { on, at: [on[0] - (dy / length) * beside, on[1] + (dx / length) * beside] };
        }),
      );
      const inside = ([x, y]: Spot) =>
        x > MAP.plate && y > MAP.plate && x < ground.width - MAP.plate && y < ground.height - MAP.plate;
      const free =
        spots.find(
          ({ at }) => inside(at) && taken.every(([x, y]) => Math.hypot(x - at[0], y - at[1]) >= MAP.apart),
        ) ?? spots[0]!;
      const [x, y] = free.at;
      taken.push(free.at);
      return [
        element('line', { class: 'zero', x1: px(free.on[0]), y1: px(free.on[1]), x2: px(x), y2: px(y) }),
        element('circle', { class: 'plate', cx: px(x), cy: px(y), r: MAP.plate }),
        element('text', { x: px(x), y: px(y + 4), 'text-anchor': 'middle' }, String(piece)),
      ].join('');
    })
    .join('');
};

/** A round length that takes up to a quarter of the width. */
const barM = ({ scale, width }: Ground): number => {
  const most = width / 4 / scale;
  const power = 10 ** Math.floor(Math.log10(most));
  return [5, 2, 1].map((each) => each * power).find((length) => length <= most)!;
};

const scaleBar = (ground: Ground): string => {
  const lengthM = barM(ground);
  const [x, y, length] = [12, ground.height - 12, lengthM * ground.scale];
  return [
    element('path', {
      class: 'line plain bold c5',
      d: `M${px(x)} ${px(y - 5)}V${px(y)}H${px(x + length)}V${px(y - 5)}`,
    }),
    element('text', { x: px(x + length + 6), y: px(y) }, escaped(distanceCell(lengthM))),
  ].join('');
};

const northArrow = ({ width }: Ground): string =>
  [
    element('path', { class: 'needle', d: `M${px(width - 18)} 10l5 14l-5 -3l-5 3z` }),
    element('text', { x: px(width - 18), y: '38', 'text-anchor': 'middle' }, 'N'),
  ].join('');

const drawMap = (
  moments: readonly Placed[],
  drawn: DrawnOuting,
  bounds: readonly number[],
  unit: SpeedUnit,
  width: number,
): Drawing => {
  const key = legendOf(
    stepNames(bounds, unit).map((label, i) => ({ label, look: 'way', series: `s${i + 1}` })),
    width,
  );
  const ground = groundOf(moments, width, key.height + 4);
  const inside = [
    element('rect', {
      class: 'ground',
      width: px(ground.width),
      height: px(ground.height),
      'data-x': ground.east.map((metres) => metres.toFixed(2)).join(' '),
      'data-y': ground.north.map((metres) => metres.toFixed(2)).join(' '),
      'data-pointer': 0,
    }),
    wayOf(moments, ground, bounds),
    numbersOf(moments, drawn, ground),
    scaleBar(ground),
    northArrow(ground),
  ];
  return {
    width,
    height: Math.ceil(ground.top + ground.height),
    markup: [
      key.markup,
      element(
        'svg',
        { class: 'panel', x: 0, y: px(ground.top), width: px(ground.width), height: px(ground.height) },
        ...inside,
      ),
    ].join(''),
  };
};

const pointerOf = (moments: readonly Placed[], outing: OutingRow, reading: Reading): Pointer => {
  const speed = speedQuantity(speedUnit(reading, outing.craft));
  const clock = clockQuantity(outing.start_time, reading);
  return {
    x: moments.map(({ east_m }) => Number(east_m.toFixed(1))),
    y: moments.map(({ north_m }) => Number(north_m.toFixed(1))),
    shown: {
      time: moments.map(({ at_s }) => clock.format(at_s)),
      speed: moments.map(({ speed_mps }) => cell(speed_mps, speed.format)),
      rate: moments.map(({ rate_spm }) => cell(rate_spm, RATE.format)),
      distance: moments.map(({ along_m }) => distanceCell(along_m)),
    },
  };
};

/** The boat's own track on a plain ground, coloured by speed; null where no places were asked for or are known. */
export const outingMap = (outing: OutingRow, drawn: DrawnOuting, reading: Reading): Picture | null => {
  const moments = drawn.moments.filter(isPlaced);
  if (moments.length < 2) return null;
  const unit = speedUnit(reading, outing.craft);
  const known = (rowed: boolean) =>
    moments.flatMap(({ rate_spm, speed_mps }) =>
      speed_mps === null || (rowed && rate_spm === null) ? [] : [speed_mps],
    );
  const rowed = known(true);
  const bounds = boundsOf(rowed.length > 1 ? rowed : known(false), unit);
  return {
    title: 'Where the boat went, and how fast',
    description: `The boat's track, north up, over ${distanceCell(outing.over_ground_m)} of way, at most ${distanceCell(outing.furthest_m)} from where it began. Thicker is faster, in five steps; ${drawn.pieces.length} pieces are numbered.`,
    draw: (width) => drawMap(moments, drawn, bounds, unit, width),
    pointers: [pointerOf(moments, outing, reading)],
    numbers: null,
    notes: [
      'Thicker and further from the colour of the page is faster. This map shows where the boat was: --no-map leaves it out of a page that is passed on.',
    ],
  };
};
