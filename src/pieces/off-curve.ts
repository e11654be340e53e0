import type { Curve } from '../contract/curve.js';
import type { OffCurveRow } from '../contract/piece-detail.js';
import { median, runningMedian } from '../signal/index.js';
import { againstCurvePct } from './against-curve.js';
import type { PieceStroke } from './piece-strokes.js';

/** When speed and rate have parted company. */
export const OFF_CURVE_SETTINGS = Object.freeze({
  /** Off the piece's own level against the curve by more than this, %; 2 to 4: measured, see tests/pieces. */
  offPct: 3,
  /** Strokes in a row; 5 to 10. */
  fewest: 6,
  /** Strokes on either side of a running median; 2 to 4. */
  half: 2,
  /** The boat takes its speed in about so long after a start or a change of rate, s; 15 to 30. */
  settleS: 20,
  /** Fewest settled strokes that show a level; 10 to 20. */
  fewestSettled: 12,
});

/** A settled stroke with rate and speed. */
interface Rated {
  readonly stroke: number;
  readonly atS: number;
  readonly toS: number;
  /** From the start of the piece, m. */
  readonly fromM: number | null;
  readonly toM: number | null;
  readonly rateSpm: number;
  readonly speedMps: number;
  readonly pct: number;
}

const settled = (strokes: readonly PieceStroke[], curve: Curve): readonly Rated[] =>
  strokes.flatMap(
    ({ stroke, at_s, cumulative_s, rate_spm, speed_mps, distance_m, cumulative_m }): Rated[] => {
      const pct = againstCurvePct(curve, rate_spm, speed_mps);
      if (pct === null || cumulative_s < OFF_CURVE_SETTINGS.settleS) return [];
      return [
        {
          stroke,
          atS: at_s,
          toS: at_s + 60 / rate_spm!,
          fromM: cumulative_m === null || distance_m === null ? null : cumulative_m - distance_m,
          toM: cumulative_m,
          rateSpm: rate_spm!,
          speedMps: speed_mps!,
          pct,
        },
      ];
    },
  );

const rowOf = (run: readonly Rated[], curve: Curve, levelPct: number) => {
  const [startS, endS] = [run[0]!.atS, run.at(-1)!.toS];
  const timeS = run.reduce((sum, { rateSpm }) => sum + 60 / rateSpm, 0);
  const lengthM = run.reduce((sum, { rateSpm, speedMps }) => sum + (speedMps * 60) / rateSpm, 0);
  const [rateSpm, speedMps] = [(60 * run.length) / timeS, lengthM / timeS];
  const pct = againstCurvePct(curve, rateSpm, speedMps);
  if (pct === null) return null;
  return {
    side: pct > levelPct ? ('above' as const) : ('below' as const),
    from_stroke: run[0]!.stroke,
    to_stroke: run.at(-1)!.stroke,
    from_along_m: run[0]!.fromM,
    to_along_m: run.at(-1)!.toM,
    start_at_s: startS,
    end_at_s: endS,
    rate_spm: rateSpm,
    speed_mps: speedMps,
    speed_against_curve_pct: pct,
    level_against_curve_pct: levelPct,
    strokes: run.map((stroke) => ({
      stroke: stroke.stroke,
      at_s: stroke.atS,
      stroke_rate_spm: stroke.rateSpm,
      stroke_speed_mps: stroke.speedMps,
      stroke_against_curve_pct: stroke.pct,
    })),
  };
};

/**
 * Where the strokes of a piece leave what the curve makes of their rate, up or down, held against the piece as a
 * whole: wind and water that slow all of it are no parting.
 * @param file the log
 * @param piece its number
 */
export const offCurve = (
  file: string,
  piece: number,
  strokes: readonly PieceStroke[],
  curve: Curve,
): readonly OffCurveRow[] => {
  const { offPct, fewest, half, fewestSettled } = OFF_CURVE_SETTINGS;
  const rated = settled(strokes, curve);
  if (rated.length < fewestSettled) return [];
  const level = median(rated.map(({ pct }) => pct));
  const smooth = runningMedian(
    rated.map(({ pct }) => pct),
    half,
  );
  const side = smooth.map((pct) => (Math.abs(pct - level) > offPct ? Math.sign(pct - level) : 0));
  const rows: OffCurveRow[] = [];
  for (let from = 0; from < rated.length; ) {
    let to = from + 1;
    while (to < rated.length && side[to] === side[from] && rated[to]!.stroke === rated[to - 1]!.stroke + 1)
      to++;
    const row = side[from] !== 0 && to - from >= fewest ? rowOf(rated.slice(from, to), curve, level) : null;
    if (row !== null) rows.push({ file, piece, ...row });
    from = to;
  }
  return rows;
};
