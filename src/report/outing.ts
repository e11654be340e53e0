import {
  type BestRow,
  type OutingResult,
  type OutingRow,
  outingRow,
  type RateBandRow,
} from '../contract/outing.js';
import {
  cell,
  clockCell,
  clockWithSd,
  dateCell,
  distanceCell,
  numberCell,
  speedCell,
  speedColumn,
  speedUnit,
  timeCell,
  UNKNOWN,
  workWords,
} from './cells.js';
import { facts, figures, type Reading, type Section, words } from './section.js';
import { SPEED_OVER, speedOverNotes } from './speed-over.js';
import { flat, type View } from './view.js';

const titleOf = ({ file, crew, craft }: OutingRow): string =>
  [crew, craft, file].filter((part) => part !== null).join(', ');

const factsOf = (outing: OutingRow, reading: Reading): Section => {
  const unit = speedUnit(reading, outing.craft);
  const { doing, done } = workWords(outing.craft);
  return facts(titleOf(outing), [
    ['began', dateCell(outing.start_time, reading)],
    ['on the water', clockCell(outing.duration_s)],
    [doing, clockCell(outing.rowing_s)],
    [done, distanceCell(outing.distance_m)],
    [
      'over ground',
      `${distanceCell(outing.over_ground_m)}, of which drifting ${distanceCell(outing.drift_m)}`,
    ],
    ['furthest away', distanceCell(outing.furthest_m)],
    ['strokes', cell(outing.stroke_count, String)],
    ['rate', cell(outing.rate_spm, (rate) => `${numberCell(rate, 1)} spm`)],
    [
      speedColumn(unit).heading,
      cell(outing.speed_mps, (mps) => `${speedCell(mps, unit)} ${SPEED_OVER[outing.speed_over]}`),
    ],
    ['per stroke', cell(outing.distance_per_stroke_m, (metres) => `${numberCell(metres, 2)} m`)],
    ['heart rate', cell(outing.heart_rate_mean_bpm, (beats) => `${numberCell(beats)} bpm`)],
    ['pieces', cell(outing.piece_count, String)],
  ]);
};

/** A band in words. */
export const bandName = ({ from_spm, to_spm }: Pick<RateBandRow, 'from_spm' | 'to_spm'>): string => {
  if (from_spm === null) return to_spm === null ? 'no rate' : `below ${to_spm}`;
  return to_spm === null ? `${from_spm} and over` : `${from_spm} to ${to_spm}`;
};

/** Strokes, time and distance by rate band, as a table. */
export const bandsSection = (bands: readonly RateBandRow[]): Section => ({
  title: 'Rate bands (rate is not intensity)',
  columns: [
    words('rate spm'),
    figures('strokes'),
    figures('share'),
    figures('time'),
    figures('distance'),
    figures('variation'),
    figures('extra drag power'),
  ],
  rows: bands.map((band) => [
    bandName(band),
    String(band.stroke_count),
    cell(band.share_pct, (share) => `${numberCell(share)} %`),
    clockCell(band.rowing_s),
    distanceCell(band.distance_m),
    numberCell(band.speed_variation, 3),
    cell(band.extra_drag_power_pct, (extra) => `${numberCell(extra, 1)} %`),
  ]),
  notes: [],
});

/** What has to be said of steadiness, where it is known: larger catch decelerations go with faster boats (Holt et al. 2021). */
const STEADINESS =
  'Variation is how much the hull speeds up and slows down within a stroke, extra drag power what that costs. They describe a crew at each rate and do not grade it: a deep catch goes with fast crews.';

/** Rate bands with what they tell of steadiness. */
export const steadinessSection = (bands: readonly RateBandRow[]): Section => ({
  ...bandsSection(bands),
  notes: bands.some(({ speed_variation }) => speed_variation !== null) ? [STEADINESS] : [],
});

const asked = ({ asked_m, asked_s }: BestRow): string =>
  asked_m === undefined ? cell(asked_s, (seconds) => `${seconds / 60} min`) : `${asked_m} m`;

const bestSection = (best: readonly BestRow[], outing: OutingRow, reading: Reading): Section => {
  const unit = speedUnit(reading, outing.craft);
  return {
    title: 'Best stretches, over ground',
    columns: [
      figures('over'),
      figures('time'),
      figures('distance'),
      speedColumn(unit),
      figures('rate'),
      figures('from'),
    ],
    rows: best.map((row) => [
      asked(row),
      clockWithSd(row.duration_s, row.duration_sd_s),
      distanceCell(row.distance_m),
      speedCell(row.duration_s > 0 ? row.distance_m / row.duration_s : null, unit),
      numberCell(row.rate_spm, 1),
      timeCell(row.start_time, reading),
    ]),
    notes: [
      'A best stretch is the fastest of many, so it comes out a little fast; ± is one standard deviation.',
    ],
  };
};

const courseSection = ({ course_sections: rows = [], craft }: OutingRow, reading: Reading): Section => {
  const unit = speedUnit(reading, craft);
  return {
    title: 'Between the lines of the course, over ground',
    columns: [
      figures('at'),
      words('course'),
      figures('from m'),
      figures('to m'),
      figures('time'),
      speedColumn(unit),
      figures('rate'),
    ],
    rows: rows.map((row) => [
      timeCell(row.start_time, reading),
      row.course_way,
      numberCell(row.from_along_m),
      numberCell(row.to_along_m),
      clockWithSd(row.duration_s, row.duration_sd_s),
      speedCell(row.speed_mps, unit),
      numberCell(row.rate_spm, 1),
    ]),
    notes: rows.length === 0 ? ['It passed no two neighbouring lines of the course without a rest.'] : [],
  };
};

const manySection = (outings: readonly OutingRow[], reading: Reading): Section => {
  const crews = outings.flatMap(({ crew }) => (crew === null ? [] : [crew]));
  // A crew that comes twice does not name its row.
  const byFile = new Set(crews).size < crews.length;
  const unit = speedUnit(reading, outings[0]!.craft);
  return {
    title: null,
    columns: [
      words('crew or log'),
      words('craft'),
      figures('began'),
      figures('distance'),
      figures('time'),
      figures('strokes'),
      figures('rate'),
      speedColumn(unit),
    ],
    rows: outings.map((outing) => [
      byFile ? outing.file : (outing.crew ?? outing.file),
      outing.craft ?? UNKNOWN,
      dateCell(outing.start_time, reading),
      distanceCell(outing.distance_m),
      clockCell(outing.rowing_s),
      cell(outing.stroke_count, String),
      numberCell(outing.rate_spm, 1),
      speedCell(outing.speed_mps, unit),
    ]),
    notes: speedOverNotes(outings),
  };
};

/** `thole outing`: one outing at a glance, several side by side. */
export const outingView: View<OutingResult> = {
  pictures: async () => (await import('./pictures/outing.js')).outingPictures,
  keys: Object.keys(
    outingRow.omit({ rate_bands: true, best: true, course_sections: true, drawn: true, positions: true })
      .shape,
  ),
  rows: ({ outings }) => outings,
  cells: ({ outings }) => outings.map((outing) => flat(outing)),
  shapes: ({ outings }) =>
    outings.map((outing) => ({
      name: titleOf(outing),
      kind: 'outing' as const,
      positions: outing.positions ?? [],
      figures: flat(outing),
    })),
  sections: ({ outings }, reading) => {
    if (outings.length === 0) return [];
    if (outings.length > 1) return [manySection(outings, reading)];
    const outing = outings[0]!;
    return [
      factsOf(outing, reading),
      ...(outing.rate_bands.length > 0 ? [steadinessSection(outing.rate_bands)] : []),
      ...(outing.best.length > 0 ? [bestSection(outing.best, outing, reading)] : []),
      ...(outing.course_sections === undefined ? [] : [courseSection(outing, reading)]),
    ];
  },
};
