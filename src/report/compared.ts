import type { PiecesResult } from '../contract/pieces.js';
import type { SheetRow } from '../contract/sheet.js';
import type { Craft } from '../units/craft.js';
import { grouped } from '../units/grouped.js';
import { cell, dateCell, numberCell, speedCell, speedColumn, speedUnit } from './cells.js';
import { figures, type Reading, type Section, words } from './section.js';

const VERDICTS = {
  faster: 'faster',
  slower: 'slower',
  too_small_to_matter: 'too small to matter',
  no_difference_shown: 'no difference shown',
} as const;

/** Sources: Smith & Hopkins 2012; Holt 2020. */
const MATTERS = '0.3 %, the smallest change that matters in racing';

const signed = (pct: number, decimals: number): string => `${pct > 0 ? '+' : ''}${numberCell(pct, decimals)}`;

/** Below this the rates explain nothing worth a column, %. */
const RATES_ALIKE_PCT = 0.3;

/** What was known of a day: when, wind, stream and notes. */
const dayOf = (
  { sheet, pieces }: Pick<PiecesResult, 'sheet' | 'pieces'>,
  file: string,
  reading: Reading,
): string => {
  const row: SheetRow | undefined = sheet.find((each) => each.file === file);
  const began = pieces.find((piece) => piece.file === file)?.start_time ?? null;
  const conditions = [
    row?.wind ? `wind ${row.wind}` : 'wind not given',
    row?.stream ? `stream ${row.stream}` : 'stream not given',
    ...(row?.notes ? [row.notes] : []),
  ];
  return `${file}${began === null ? '' : ` (${dateCell(began, reading).slice(0, 10)})`}: ${conditions.join('; ')}`;
};

const meanNote = ({ compared_mean: mean }: PiecesResult): string[] =>
  mean === null || mean === undefined
    ? []
    : [
        `All ${mean.piece_count} together: ${signed(mean.difference_pct, 2)} % ±${numberCell(mean.difference_sd_pct, 2)}, ${cell(mean.verdict, (verdict) => VERDICTS[verdict])}.`,
      ];

const VARIATION_BY = {
  given: 'as given',
  published: 'as published for racing crews; give yours with --variation',
  pieces: 'as these pieces differ',
} as const;

const limitNote = (
  { compared = [], compared_variation: variation }: PiecesResult,
  rated: boolean,
): string => {
  const sds = compared.flatMap(({ difference_sd_pct }) =>
    difference_sd_pct === null ? [] : [difference_sd_pct],
  );
  const shown =
    sds.length === 0
      ? ''
      : ` These days show a difference from ${numberCell(2 * Math.max(...sds), 1)} % on in a single piece.`;
  const day =
    variation === undefined
      ? ''
      : ` The ± holds the logs and how much a crew varies from day to day (${numberCell(variation.variation_pct, 1)} %, ${VARIATION_BY[variation.variation_by]}); that wind and water of the two days were alike is yours to judge.`;
  return `A difference is shown beyond two ± and from ${MATTERS}.${shown}${day}${rated ? ' By rate is what the rates alone make at constant work a stroke.' : ''}`;
};

const list = (numbers: readonly number[]): string => numbers.join(', ');

/** In what the paired pieces are alike, and which have none like them. */
const likeNotes = ({ compared = [], pieces }: PiecesResult, named: boolean): string[] => {
  const likes = grouped(compared, ({ rate_apart_spm, direction_apart_deg }) =>
    [
      'start',
      'length',
      ...(rate_apart_spm === null ? [] : ['rate']),
      ...(direction_apart_deg === null ? [] : ['direction']),
    ].join(', '),
  );
  const paired = [...likes].map(([like, rows]) =>
    likes.size === 1
      ? `Paired by ${like}.`
      : `${rows.length === 1 ? 'Piece' : 'Pieces'} ${list(rows.map(({ piece }) => piece))}: paired by ${like}.`,
  );
  const alone = pieces
    .filter(({ file, piece }) => !compared.some((row) => row.file === file && row.piece === piece))
    .map(({ piece }) => piece);
  return alone.length === 0 || named
    ? paired
    : [...paired, `Without one like it on the other day: ${list(alone)}.`];
};

/** Wind along a piece, in words. */
const windCell = (mps: number | null): string =>
  cell(mps, (value) => `${value < 0 ? 'tail' : 'head'} ${numberCell(Math.abs(value), 1)}`);

/** Pieces beside those of another day. */
export const comparedSections = (
  result: PiecesResult,
  craft: Craft | null,
  reading: Reading,
): readonly Section[] => {
  const { compared } = result;
  if (compared === undefined) return [];
  const [first] = compared;
  if (first === undefined)
    return [
      {
        title: 'Against the other day',
        columns: [],
        rows: [],
        notes: [
          'No piece of the other day is like these in start, length (within 5 %), rate (within 1.5 spm) and direction (within 45°).',
        ],
      },
    ];
  const unit = speedUnit(reading, craft);
  const files = [...new Set(compared.map(({ file }) => file))];
  const others = [...new Set(compared.map(({ with_file }) => with_file))];
  const named = files.length > 1;
  const windy = compared.some(
    ({ headwind_mps, with_headwind_mps }) => headwind_mps !== null || with_headwind_mps !== null,
  );
  const rated = compared.some(({ by_rate_pct }) => Math.abs(by_rate_pct ?? 0) >= RATES_ALIKE_PCT);
  return [
    {
      title: `Against ${others.join(', ')}`,
      columns: [
        ...(named ? [words('log')] : []),
        figures('piece'),
        figures('then'),
        speedColumn(unit),
        figures('then'),
        figures('rate'),
        figures('then'),
        figures('diff %'),
        figures('±'),
        ...(rated ? [figures('by rate')] : []),
        ...(windy ? [words('wind m/s'), words('then')] : []),
        words('verdict'),
      ],
      rows: compared.map((row) => [
        ...(named ? [row.file] : []),
        String(row.piece),
        String(row.with_piece),
        speedCell(row.speed_mps, unit),
        speedCell(row.with_speed_mps, unit),
        numberCell(row.rate_spm, 1),
        numberCell(row.with_rate_spm, 1),
        cell(row.difference_pct, (pct) => signed(pct, 2)),
        numberCell(row.difference_sd_pct, 2),
        ...(rated ? [cell(row.by_rate_pct, (pct) => signed(pct, 1))] : []),
        ...(windy ? [windCell(row.headwind_mps), windCell(row.with_headwind_mps)] : []),
        cell(row.verdict, (verdict) => VERDICTS[verdict]),
      ]),
      notes: [
        ...meanNote(result),
        ...likeNotes(result, named),
        ...files.map((file) => `Now, ${dayOf(result, file, reading)}.`),
        ...others.map((file) => `Then, ${dayOf(result, file, reading)}.`),
        limitNote(result, rated),
      ],
    },
  ];
};
