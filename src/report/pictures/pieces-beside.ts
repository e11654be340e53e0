import type { PieceRow, PiecesResult } from '../../contract/pieces.js';
import type { SpeedUnit } from '../../units/speed.js';
import { cell, clockWithSd, distanceCell } from '../cells.js';
import { drawChart, type Panel } from '../drawing/chart.js';
import { dotMarks, errorMarks, type Sample } from '../drawing/marks.js';
import { SERIES_COUNT } from '../drawing/palette.js';
import type { Picture, Pointer } from '../drawing/picture.js';
import { countQuantity, LEAST, RATE, speedQuantity } from '../drawing/quantity.js';
import { domainOf } from '../drawing/scale.js';

const NUMBER = countQuantity('piece');

const filesOf = (pieces: readonly PieceRow[]): string[] => [...new Set(pieces.map(({ file }) => file))];

const pointerOf = (pieces: readonly PieceRow[], unit: SpeedUnit, several: boolean, place: Place): Pointer => {
  const speed = speedQuantity(unit);
  const sorted = [...pieces].sort((a, b) => place(a) - place(b));
  return {
    x: sorted.map(place),
    shown: {
      piece: sorted.map(({ piece, crew, file }) => `${piece}${several ? `, ${crew ?? file}` : ''}`),
      distance: sorted.map(({ distance_m }) => distanceCell(distance_m)),
      time: sorted.map(({ duration_s, duration_sd_s }) => clockWithSd(duration_s, duration_sd_s)),
      speed: sorted.map(({ speed_mps }) => cell(speed_mps, speed.format)),
      rate: sorted.map(({ rate_spm }) => cell(rate_spm, RATE.format)),
    },
  };
};

type Place = (row: PieceRow) => number;

/** Room that the logs share around a piece's number, as a share of the way to the next. */
const SPREAD = 0.5;

/** Pieces of several logs stand beside one another, each log a little further to the right. */
const placing = (files: readonly string[]): Place => {
  const count = files.length;
  return ({ piece, file }) => piece + (count < 2 ? 0 : SPREAD * (files.indexOf(file) / (count - 1) - 0.5));
};

/** How the pieces compare: speed with ± and rate, piece beside piece; null where there are fewer than two. */
export const piecesBeside = ({ pieces }: PiecesResult, unit: SpeedUnit): Picture | null => {
  const fast = pieces.filter(({ speed_mps }) => speed_mps !== null);
  const files = filesOf(pieces);
  if (fast.length < 2 || files.length > SERIES_COUNT || pieces.every(({ piece }) => piece === 1)) return null;
  const place = placing(files);
  const samples = (file: string, value: Place | ((row: PieceRow) => number | null)): Sample[] =>
    pieces.filter((row) => row.file === file).map((row) => [place(row), value(row)]);
  const spans = (file: string) =>
    fast
      .filter((row) => row.file === file && row.speed_sd_mps !== null)
      .map((row) => ({
        x: place(row),
        low: row.speed_mps! - row.speed_sd_mps!,
        high: row.speed_mps! + row.speed_sd_mps!,
      }));
  const rates = pieces.flatMap(({ rate_spm }) => (rate_spm === null ? [] : [rate_spm]));
  const ends = files.flatMap(spans).flatMap(({ low, high }) => [low, high]);
  const panels: Panel[] = [
    {
      y: speedQuantity(unit),
      domain: domainOf([...fast.map(({ speed_mps }) => speed_mps!), ...ends], {
        room: 0.1,
        least: LEAST.speedMps,
      }),
      height: 120,
      pointer: 0,
      marks: (scales) =>
        files.flatMap((file, i) => [
          errorMarks(spans(file), i, scales),
          dotMarks(
            samples(file, ({ speed_mps }) => speed_mps),
            i,
            scales,
          ),
        ]),
    },
    ...(rates.length < 2
      ? []
      : [
          {
            y: RATE,
            domain: domainOf(rates, { room: 0.1, least: LEAST.rateSpm }),
            height: 80,
            pointer: 0,
            marks: (scales) =>
              files.map((file, i) =>
                dotMarks(
                  samples(file, ({ rate_spm }) => rate_spm),
                  i,
                  scales,
                ),
              ),
          } satisfies Panel,
        ]),
  ];
  const last = Math.max(...pieces.map(({ piece }) => piece));
  return {
    title: 'How the pieces compare',
    description: `Speed with one standard deviation, and rate, of ${pieces.length} pieces side by side: ${fast.map((row) => `piece ${row.piece} ${speedQuantity(unit).format(row.speed_mps!)}`).join(', ')}.`,
    draw: (width) =>
      drawChart(
        {
          x: NUMBER,
          domain: [0.5, last + 0.5],
          panels,
          legend:
            files.length < 2
              ? []
              : files.map((file, i) => ({
                  label: pieces.find((row) => row.file === file)?.crew ?? file,
                  look: 'dot',
                  series: i,
                })),
        },
        width,
      ),
    pointers: [pointerOf(pieces, unit, files.length > 1, place)],
    numbers: null,
    notes: [
      'Higher is faster. Bars are one standard deviation; where there is none it is not known or too small to see.',
    ],
  };
};
