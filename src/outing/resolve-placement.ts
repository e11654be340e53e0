import type { BoatFile } from '../contract/boat.js';
import type { SheetRow } from '../contract/sheet.js';
import type { Placement, Recording, Warning } from '../recording/index.js';
import { guessPlacement, type PlacementGuess } from './guess-placement.js';

/** Where the logger sat, by what was given before what was found. */
export interface ResolvedPlacement {
  readonly placement: Placement;
  readonly warnings: readonly Warning[];
}

const NEEDS_THE_HULL = 'speed within the stroke, catch deceleration and drive';

const SEEMS: Readonly<Record<PlacementGuess['placement'], string>> = {
  hull: 'fixed to the hull',
  body: 'worn on the body, which does not move like the hull',
  unknown: 'in a place that its movement does not show',
};

/** Where the logger sat: given, else the sheet, the boat file, the log itself, else guessed from how it moved. */
export const resolvePlacement = (
  recording: Recording,
  given: Placement | null,
  sheet: SheetRow | null,
  boat: BoatFile | null,
): ResolvedPlacement => {
  const known = given ?? sheet?.placement ?? boat?.placement ?? recording.statedPlacement;
  const moved = recording.channels.acceleration !== undefined;
  const guess = known === null && moved ? guessPlacement(recording) : null;
  const placement = known ?? guess?.placement ?? 'unknown';
  if (guess === null) return { placement, warnings: [] };
  const consequence = placement === 'hull' ? '' : `, so ${NEEDS_THE_HULL} are not known`;
  return {
    placement,
    warnings: [
      {
        code: 'placement-guessed',
        file: recording.provenance.file,
        where: null,
        message: `The placement of the logger is not given; it seems to have been ${SEEMS[guess.placement]} (${guess.why})${consequence}; give it with --placement or in the outing sheet.`,
      },
    ],
  };
};
