import type { PieceRow } from '../contract/pieces.js';
import type { SheetRow } from '../contract/sheet.js';

/**
 * The wind that was written down, along a piece and across it. No speed is corrected for it.
 * @param sheet `wind_mps` and `wind_from_deg` of the outing; null where there is no sheet
 * @param headingDeg direction of the piece, degrees from true north
 * @returns nulls where wind or direction is not known
 */
export const windOn = (
  sheet: Pick<SheetRow, 'wind_mps' | 'wind_from_deg'> | null,
  headingDeg: number | null,
): Pick<PieceRow, 'headwind_mps' | 'crosswind_mps'> => {
  const { wind_mps: mps, wind_from_deg: fromDeg } = sheet ?? { wind_mps: null, wind_from_deg: null };
  if (mps === null || fromDeg === null || headingDeg === null)
    return { headwind_mps: null, crosswind_mps: null };
  const off = ((fromDeg - headingDeg) * Math.PI) / 180;
  return { headwind_mps: mps * Math.cos(off), crosswind_mps: mps * Math.sin(off) };
};
