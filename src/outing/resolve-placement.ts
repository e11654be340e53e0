import type { BoatFile } from '../contract/boat.js';
import type { SheetRow } from '../contract/sheet.js';
import type { Placement, Recording, Warning } from '../recording/index.js';
import { guessPlacement } from './guess-placement.js';

/** Where the logger sat, by what was told before what was found. */
export interface ResolvedPlacement {
  readonly placement: Placement;
  readonly warnings: readonly Warning[];
}

const NEEDS_THE_HULL = 'speed within the stroke, catch deceleration and drive';

const WHERE: Readonly<Record<Placement, string>> = {
  hull: 'fixed to the hull',
  cox: 'on the cox, who moves against the hull',
  wrist: 'on a wrist, which does not move like the hull',
  pocket: 'in a pocket, which does not move like the hull',
  body: 'on the body, which does not move like the hull',
  unknown: 'in a place that nobody told',
};

/** Where the logger sat: told, else the sheet, the boat file, the log itself, else guessed from how it moved. */
export const resolvePlacement = (
  recording: Recording,
  told: Placement | null,
  sheet: SheetRow | null,
  boat: BoatFile | null,
): ResolvedPlacement => {
  const known = told ?? sheet?.placement ?? boat?.placement ?? recording.statedPlacement;
  const moved = recording.channels.acceleration !== undefined;
  const guess = known === null && moved ? guessPlacement(recording) : null;
  const placement = known ?? guess?.placement ?? 'unknown';
  const warning = (code: string, message: string): Warning => ({
    code,
    file: recording.provenance.file,
    where: null,
    message,
  });
  if (guess !== null)
    return {
      placement,
      warnings: [
        warning(
          'placement-guessed',
          `Nobody told where the logger sat; it seems to have been ${WHERE[placement]} (${guess.why})${placement === 'hull' ? '' : `, so ${NEEDS_THE_HULL} are not known`}; say so with --placement or in the outing sheet.`,
        ),
      ],
    };
  if (placement === 'hull' || !moved) return { placement, warnings: [] };
  return {
    placement,
    warnings: [
      warning('not-on-the-hull', `The logger was ${WHERE[placement]}, so ${NEEDS_THE_HULL} are not known.`),
    ],
  };
};
