import { type PiecesResult, type TogetherRow, togetherRow } from '../contract/pieces.js';
import { stemOf } from '../outing/index.js';
import {
  cell,
  clockCell,
  clockWithSd,
  distanceCell,
  numberCell,
  speedCell,
  speedColumn,
  speedUnit,
  timeCell,
} from './cells.js';
import { figures, figuresWhereKnown, type Reading, type Section, words } from './section.js';
import { flat, type View } from './view.js';

const craftOf = ({ sheet }: PiecesResult, rows: readonly TogetherRow[]) =>
  sheet.find(({ file }) => rows.some((row) => row.file === file))?.craft ?? null;

const groupSection = (rows: readonly TogetherRow[], result: PiecesResult, reading: Reading): Section => {
  const unit = speedUnit(reading, craftOf(result, rows));
  const [first] = rows;
  return {
    title: `Together at ${timeCell(first!.start_time, reading)}, over ${distanceCell(first!.compared_over_m)}`,
    columns: [
      figures('place'),
      words('boat'),
      figures('time'),
      figures('to 1st'),
      figures('to next'),
      words('apart'),
      figuresWhereKnown('rate'),
      speedColumn(unit),
      figuresWhereKnown('target %'),
    ],
    rows: rows.map((row) => [
      String(row.place),
      row.crew ?? stemOf(row.file),
      row.compared_sd_s === null
        ? clockCell(row.compared_s, 1)
        : clockWithSd(row.compared_s, row.compared_sd_s),
      row.place === 1 ? '' : `+${numberCell(row.margin_winner_s, 1)}`,
      row.place === 1 ? '' : cell(row.margin_ahead_s, (seconds) => `+${numberCell(seconds, 2)}`),
      row.separable === null ? '' : row.separable ? 'yes' : 'no',
      numberCell(row.rate_spm, 1),
      speedCell(row.speed_mps, unit),
      numberCell(row.target_pct, 1),
    ]),
    notes: [],
  };
};

/** `thole pieces --together`: boats side by side. */
export const togetherView: View<PiecesResult> = {
  pictures: async () => (await import('./pictures/pieces.js')).piecesPictures,
  keys: Object.keys(togetherRow.shape),
  rows: ({ together }) => together ?? [],
  cells: ({ together }) => (together ?? []).map((row) => flat(row)),
  sections: (result, reading) => {
    const rows = result.together ?? [];
    const groups = [...new Set(rows.map(({ group }) => group))].map((group) =>
      groupSection(
        rows.filter((row) => row.group === group),
        result,
        reading,
      ),
    );
    if (groups.length === 0)
      return [
        {
          title: null,
          columns: [],
          rows: [],
          notes: ['No two boats did a piece at the same time, by their clocks.'],
        },
      ];
    return groups.map((section, i) =>
      i < groups.length - 1
        ? section
        : {
            ...section,
            notes: [
              'Matched by clock. Where lengths differ, each boat\u2019s own speed is put on the shortest. To next: behind the boat ahead; "apart" is no where that is less than two of its own ±.',
            ],
          },
    );
  },
};
