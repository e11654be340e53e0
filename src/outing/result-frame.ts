import type { ErrorModelRow, WarningRow } from '../contract/envelope.js';
import type { SheetRow } from '../contract/sheet.js';
import { distinctWarnings } from './distinct-warnings.js';
import type { Outing } from './outing.js';

/** What results on one outing have in common: its logs, warnings, error model, and what the sheet says of it. */
export const resultFrame = (
  outing: Outing,
  more: readonly WarningRow[] = [],
): {
  readonly files: string[];
  readonly warnings: WarningRow[];
  readonly error_model: ErrorModelRow[];
  readonly sheet: SheetRow[];
} => {
  const model = outing.track?.errorModel;
  return {
    files: [...outing.files],
    warnings: distinctWarnings([...outing.warnings, ...more]),
    error_model:
      model === undefined
        ? []
        : [
            {
              file: outing.file,
              position_sd_m: model.positionSdM,
              correlation_s: model.correlationS,
              white_sd_m: model.whiteSdM,
              speed_sd_mps: model.speedSdMps,
              speed_wander_sd_mps: model.speedWander?.sdMps ?? null,
              speed_wander_s: model.speedWander?.correlationS ?? null,
              source: model.source,
            },
          ],
    sheet: outing.sheet === null ? [] : [{ ...outing.sheet, file: outing.file }],
  };
};
