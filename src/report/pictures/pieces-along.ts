import type { DrawnPiece, DrawnPieceMoment } from '../../contract/drawn.js';
import type { PartRow, PieceRow, PiecesResult } from '../../contract/pieces.js';
import type { SpeedUnit } from '../../units/speed.js';
import { cell, clockCell, clockWithSd, distanceCell } from '../cells.js';
import { drawChart, type Panel, type Shade } from '../drawing/chart.js';
import type { LegendItem } from '../drawing/legend.js';
import { beyondMarks, type Level, levelMarks, lineMark, type Sample } from '../drawing/marks.js';
import type { Drawing, Picture, Pointer } from '../drawing/picture.js';
import { ALONG, elapsedQuantity, LEAST, type Quantity, RATE, speedQuantity } from '../drawing/quantity.js';
import { stacked } from '../drawing/stacked.js';
import { usualDomain } from '../drawing/usual-domain.js';

/** Pieces of one page that are drawn one by one; the tables have all. */
const MOST = 24;

/** A piece with what is drawn of it. */
interface Drawn {
  readonly row: PieceRow;
  readonly moments: readonly DrawnPieceMoment[];
}

/** The scale of speed is made for what comes after a start takes so long, s; 15 to 30. */
const STARTING_S = 20;

/** How a moment lies along the axis: metres where all of them are known, else seconds. */
type Along = 'metres' | 'seconds';

const placeOf = ({ along_m, cumulative_s }: DrawnPieceMoment, along: Along): number =>
  along === 'metres' ? along_m! : cumulative_s;

const drawnOf = (pieces: readonly PieceRow[], drawn: readonly DrawnPiece[]): Drawn[] =>
  pieces.flatMap((row) => {
    const own = drawn.find(({ file, piece }) => file === row.file && piece === row.piece);
    return own === undefined || own.moments.length < 2 ? [] : [{ row, moments: own.moments }];
  });

const alongOf = (pieces: readonly Drawn[]): Along =>
  pieces.every(({ moments }) => moments.every(({ along_m }) => along_m !== null)) ? 'metres' : 'seconds';

/** One sd of the speed of a part, by its time or else by its length, m/s; null where neither has one. */
const speedSd = ({
  speed_mps,
  duration_s,
  duration_sd_s,
  distance_m,
  distance_sd_m,
}: PartRow): number | null => {
  if (speed_mps === null) return null;
  if (duration_sd_s !== null && duration_sd_s > 0) return (speed_mps * duration_sd_s) / duration_s;
  return distance_sd_m === null || distance_m === null ? null : (speed_mps * distance_sd_m) / distance_m;
};

/** The parts of a piece from left to right, with what each has. */
const levelsOf = (
  { row }: Drawn,
  along: Along,
  value: (part: PartRow) => number | null,
  sd: (part: PartRow) => number | null,
): Level[] =>
  row.parts.flatMap((part) => {
    const level = value(part);
    const [from, to] =
      along === 'metres'
        ? [part.from_along_m, part.to_along_m]
        : [part.cumulative_s - part.duration_s, part.cumulative_s];
    return level === null || from === null || to === null ? [] : [{ from, to, value: level, sd: sd(part) }];
  });

const samplesOf = (
  { moments }: Drawn,
  along: Along,
  value: (moment: DrawnPieceMoment) => number | null,
): Sample[] => moments.map((moment) => [placeOf(moment, along), value(moment)]);

const pointerOf = ({ moments }: Drawn, along: Along, speed: Quantity): Pointer => ({
  x: moments.map((moment) => Number(placeOf(moment, along).toFixed(1))),
  shown: {
    time: moments.map(({ cumulative_s }) => clockCell(cumulative_s, 1)),
    speed: moments.map(({ speed_mps }) => cell(speed_mps, speed.format)),
    rate: moments.map(({ rate_spm }) => cell(rate_spm, RATE.format)),
    ...(moments.some(({ curve_speed_mps }) => curve_speed_mps !== undefined && curve_speed_mps !== null)
      ? { expected: moments.map(({ curve_speed_mps }) => cell(curve_speed_mps, speed.format)) }
      : {}),
    distance: moments.map(({ along_m }) => distanceCell(along_m)),
  },
});

/** Where speed and rate part, on the axis of a piece. */
const partingsOf = ({ off_curve = [] }: PiecesResult, { row, moments }: Drawn, along: Along): Shade[] =>
  off_curve
    .filter(({ file, piece }) => file === row.file && piece === row.piece)
    .flatMap(({ side, start_at_s, end_at_s }) => {
      const within = moments.filter(({ at_s }) => at_s >= start_at_s && at_s <= end_at_s);
      if (within.length === 0) return [];
      return [
        {
          from: placeOf(within[0]!, along),
          to: placeOf(within.at(-1)!, along),
          label: side === 'above' ? 'faster than its rate' : 'slower than its rate',
        },
      ];
    });

const titleOf = ({ row }: Drawn, several: boolean): string =>
  `Piece ${row.piece}${several ? `, ${row.crew ?? row.file}` : ''}: ${distanceCell(row.distance_m)} in ${clockWithSd(row.duration_s, row.duration_sd_s)}`;

const known = (values: readonly (number | null)[]): number[] => values.filter((value) => value !== null);

/** Domains that all pieces share. */
interface Domains {
  readonly speed: readonly [number, number];
  readonly rate: readonly [number, number] | null;
  readonly along: readonly [number, number];
}

const domainsOf = (pieces: readonly Drawn[], along: Along): Domains => {
  const moments = pieces.flatMap((piece) => piece.moments);
  const settled = pieces.flatMap(({ moments: own }) => {
    const late = own.filter(({ cumulative_s }) => cumulative_s > STARTING_S);
    return late.length > own.length / 2 ? late : own;
  });
  const rates = known(moments.map(({ rate_spm }) => rate_spm));
  return {
    speed: usualDomain(known(settled.map(({ speed_mps }) => speed_mps)), LEAST.speedMps),
    rate: rates.length > 1 ? usualDomain(rates, LEAST.rateSpm) : null,
    along: [0, Math.max(...pieces.map(({ moments: own }) => placeOf(own.at(-1)!, along)))],
  };
};

const panelsOf = (
  piece: Drawn,
  index: number,
  along: Along,
  domains: Domains,
  speed: Quantity,
  title: string,
): Panel[] => {
  const parts = levelsOf(piece, along, ({ speed_mps }) => speed_mps, speedSd);
  return [
    {
      y: speed,
      title: `${title}. ${speed.heading}`,
      domain: domains.speed,
      height: 92,
      pointer: index,
      marks: (scales) => [
        levelMarks(parts, 0, scales),
        beyondMarks(parts, scales),
        lineMark(
          samplesOf(piece, along, ({ curve_speed_mps }) => curve_speed_mps ?? null),
          1,
          scales,
        ),
        lineMark(
          samplesOf(piece, along, ({ speed_mps }) => speed_mps),
          4,
          scales,
          'thin plain',
        ),
      ],
    },
    ...(domains.rate === null
      ? []
      : [
          {
            y: RATE,
            domain: domains.rate,
            height: 60,
            pointer: index,
            marks: (scales) => [
              levelMarks(
                levelsOf(
                  piece,
                  along,
                  ({ rate_spm }) => rate_spm,
                  () => null,
                ),
                2,
                scales,
              ),
              lineMark(
                samplesOf(piece, along, ({ rate_spm }) => rate_spm),
                4,
                scales,
                'thin plain',
              ),
            ],
          } satisfies Panel,
        ]),
  ];
};

/** Every piece on one shared scale: speed and rate stroke by stroke, and its parts with their ±; null where there is nothing to draw. */
export const piecesAlong = (result: PiecesResult, unit: SpeedUnit): Picture | null => {
  const all = drawnOf(result.pieces, result.drawn ?? []);
  const pieces = all
    .filter(({ moments }) => known(moments.map(({ speed_mps }) => speed_mps)).length > 1)
    .slice(0, MOST);
  if (pieces.length === 0) return null;
  const along = alongOf(pieces);
  const domains = domainsOf(pieces, along);
  const speed = speedQuantity(unit, 20);
  const several = new Set(result.pieces.map(({ file }) => file)).size > 1;
  const curved = pieces.some(({ moments }) =>
    moments.some(({ curve_speed_mps }) => curve_speed_mps !== undefined && curve_speed_mps !== null),
  );
  const legend: LegendItem[] = [
    { label: 'stroke by stroke', look: 'line', series: 'c5 thin plain' },
    { label: 'parts, ± one sd', look: 'level', series: 0 },
    ...(domains.rate === null ? [] : [{ label: 'rate of the parts', look: 'level', series: 2 } as const]),
    ...(curved
      ? [{ label: 'speed that the curve gives at the rate', look: 'line', series: 1 } as const]
      : []),
  ];
  const draw = (width: number): Drawing =>
    stacked(
      pieces.map((piece, i) =>
        drawChart(
          {
            x: along === 'metres' ? ALONG : elapsedQuantity('time from the start'),
            domain: domains.along,
            legend: i === 0 ? legend : [],
            headless: i < pieces.length - 1,
            shades: partingsOf(result, piece, along),
            panels: panelsOf(piece, i, along, domains, speed, titleOf(piece, several)),
          },
          width,
        ),
      ),
    );
  const beyond = pieces.some(
    ({ row, moments }) =>
      row.start === 'standing' &&
      known(moments.map(({ speed_mps }) => speed_mps)).some((mps) => mps < domains.speed[0]),
  );
  return {
    title: 'Piece by piece, on one scale',
    description: `${pieces.map((piece) => titleOf(piece, several)).join('. ')}. Each piece has a panel of speed and one of rate, stroke by stroke, with its parts as levels; all have the same scales.`,
    draw,
    pointers: pieces.map((piece) => pointerOf(piece, along, speed)),
    numbers: null,
    notes: [
      ...(beyond
        ? [
            'The first strokes of a start are slower than the scale shows, so that they do not squeeze the rest.',
          ]
        : []),
      ...(all.length > pieces.length
        ? [`Drawn are the first ${pieces.length} of ${all.length} pieces; the tables below have all.`]
        : []),
    ],
  };
};
