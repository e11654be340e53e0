import type { Curve } from '../contract/curve.js';
import type { WarningRow } from '../contract/envelope.js';
import type { PieceRow } from '../contract/pieces.js';
import type { WarningCode } from '../contract/severity.js';
import { curveSpeed } from './curve.js';

/** Speed against what a curve gives at a rate, %; null where either is not known or the curve has no such rate. */
export const againstCurvePct = (
  curve: Curve,
  rateSpm: number | null,
  speedMps: number | null,
): number | null => {
  const wanted = rateSpm === null ? null : curveSpeed(curve, rateSpm);
  return wanted === null || speedMps === null ? null : (100 * speedMps) / wanted;
};

/** A piece and its parts beside a reference curve. */
export const pieceAgainstCurve = (piece: PieceRow, curve: Curve): PieceRow => ({
  ...piece,
  speed_against_curve_pct: againstCurvePct(curve, piece.rate_spm, piece.speed_mps),
  parts: piece.parts.map((part) => ({
    ...part,
    speed_against_curve_pct: againstCurvePct(curve, part.rate_spm, part.speed_mps),
  })),
});

const OVER = { ground: 'over ground', water: 'through the water' } as const;

const rateText = (spm: number): string => spm.toFixed(1);

/** What has to be said of pieces beside a curve: speeds of another kind, and rates that the curve does not have. */
export const curveWarnings = (
  pieces: readonly PieceRow[],
  curve: Curve,
  file: string,
): readonly WarningRow[] => {
  const mixed = pieces.find(({ speed_over }) => speed_over !== curve.speed_over);
  const beyond = pieces.filter(
    ({ rate_spm, speed_mps }) =>
      rate_spm !== null && speed_mps !== null && curveSpeed(curve, rate_spm) === null,
  );
  const warning = (code: WarningCode, message: string): WarningRow => ({ code, file, where: null, message });
  return [
    ...(mixed === undefined
      ? []
      : [
          warning(
            'speeds-mixed',
            `The curve is of speeds ${OVER[curve.speed_over]} and these pieces are ${OVER[mixed.speed_over]}, so the stream shows as speed against the curve: give the stream of all days, or of none.`,
          ),
        ]),
    ...(beyond.length === 0
      ? []
      : [
          warning(
            'rate-beyond-curve',
            `The curve is of ${rateText(curve.rate_from_spm)} to ${rateText(curve.rate_to_spm)} spm, so it says nothing of ${beyond.map(({ piece, rate_spm }) => `piece ${piece} at ${rateText(rate_spm!)} spm`).join(', ')}.`,
          ),
        ]),
  ];
};
