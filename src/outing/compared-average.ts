import type {
  AverageBand,
  AverageResult,
  ComparedBand,
  ComparedCyclePoint,
  CycleStretch,
} from '../contract/average.js';
import type { WarningRow } from '../contract/envelope.js';

/** Where two average strokes are taken to differ. */
export const COMPARED_AVERAGE_SETTINGS = Object.freeze({
  /** Points in a row that differ, each 2 % of the cycle; 2 to 5: a single point is noise. */
  fewestPoints: 3,
  /** Mean rates within this, spm; 1 to 2: a stroke changes with its rate. */
  rateSpm: 1.5,
});

const pointsOf = (own: AverageBand, other: AverageBand): ComparedCyclePoint[] =>
  own.cycle.flatMap((point, i) => {
    const then = other.cycle[i];
    if (then === undefined) return [];
    const [sd, thenSd] = [point.acceleration_sd_mps2, then.acceleration_sd_mps2];
    return [
      {
        phase_pct: point.phase_pct,
        acceleration_mps2: point.acceleration_mps2,
        with_acceleration_mps2: then.acceleration_mps2,
        difference_mps2: point.acceleration_mps2 - then.acceleration_mps2,
        spread_mps2: sd === null || thenSd === null ? null : Math.hypot(sd, thenSd),
      },
    ];
  });

/** +1 and -1 where one surges more or less than the other by more than a stroke of each differs, else 0. */
const sideOf = ({ difference_mps2: difference, spread_mps2: spread }: ComparedCyclePoint): number =>
  spread === null || Math.abs(difference) <= spread ? 0 : Math.sign(difference);

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

const stretchesOf = (points: readonly ComparedCyclePoint[]): CycleStretch[] => {
  const stretches: CycleStretch[] = [];
  for (let from = 0; from < points.length; ) {
    let to = from + 1;
    while (to < points.length && sideOf(points[to]!) === sideOf(points[from]!)) to++;
    const run = points.slice(from, to);
    if (sideOf(run[0]!) !== 0 && run.length >= COMPARED_AVERAGE_SETTINGS.fewestPoints)
      stretches.push({
        from_phase_pct: run[0]!.phase_pct,
        to_phase_pct: run.at(-1)!.phase_pct,
        difference_mps2: mean(run.map((point) => point.difference_mps2)),
        spread_mps2: mean(run.map((point) => point.spread_mps2!)),
      });
    from = to;
  }
  return stretches;
};

const bandOf = (own: AverageBand, other: AverageBand): ComparedBand => {
  const cycle = pointsOf(own, other);
  const alike = Math.abs(own.rate_spm - other.rate_spm) <= COMPARED_AVERAGE_SETTINGS.rateSpm;
  return {
    from_spm: own.from_spm,
    to_spm: own.to_spm,
    stroke_count: own.stroke_count,
    with_stroke_count: other.stroke_count,
    rate_spm: own.rate_spm,
    with_rate_spm: other.rate_spm,
    rates_alike: alike,
    cycle,
    stretches: alike ? stretchesOf(cycle) : [],
  };
};

/**
 * The average strokes of two days or two crews over each other, band by band, and where in the cycle they differ by
 * more than a stroke of one differs from a stroke of the other.
 * @returns the result with both logs in its frame
 */
export const comparedAverage = (now: AverageResult, then: AverageResult): AverageResult => {
  const said = (code: WarningRow['code'], message: string): WarningRow => ({
    code,
    file: now.files[0] ?? null,
    where: null,
    message,
  });
  const compared = now.bands.flatMap((own) => {
    const other = then.bands.find((band) => band.from_spm === own.from_spm && band.to_spm === own.to_spm);
    return other === undefined ? [] : [bandOf(own, other)];
  });
  const crafts = now.craft !== null && then.craft !== null && now.craft !== then.craft;
  return {
    ...now,
    files: [...now.files, ...then.files],
    warnings: [
      ...now.warnings,
      ...then.warnings,
      ...(crafts
        ? [
            said(
              'crafts-differ',
              `The craft is ${now.craft} and that of ${then.files[0]} is ${then.craft}: compare like with like.`,
            ),
          ]
        : []),
      ...(compared.length === 0 && now.bands.length > 0 && then.bands.length > 0
        ? [
            said(
              'no-band-shared',
              'No rate band has steady strokes in both logs: give --bands that both have strokes in.',
            ),
          ]
        : []),
    ],
    error_model: [...now.error_model, ...then.error_model],
    compared,
  };
};
