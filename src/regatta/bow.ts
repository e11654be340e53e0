import type { BoatFile } from '../contract/boat.js';
import type { Craft } from '../units/craft.js';
import { HULL_LENGTH_M } from '../units/hull-length.js';
import type { Entry } from './entries.js';

/** What of a boat crosses a line, as seen from its antenna. */
export interface Bow {
  readonly offsetM: number;
  readonly sdM: number;
  /** False where it was assumed. */
  readonly known: boolean;
}

/** Where a logger sits that nobody measured, as shares of the hull's length back from the bow ball. */
const ASSUMED = Object.freeze({
  /** Amidships. */
  share: 0.5,
  /** sd of anywhere between the first seat and the last, 0.2 to 0.8 of the length. */
  sdShare: 0.17,
});

/** Length of a hull, from its boat file, else usual for the craft, m. */
export const hullLengthOf = (craft: Craft, boat: BoatFile | null): number =>
  boat?.hull_length_m ?? HULL_LENGTH_M[craft];

/** The bow offset of a crew, from the entries, else the boat file, else assumed with an sd that says so. */
export const bowOf = (entry: Pick<Entry, 'craft' | 'bowOffsetM'>, boat: BoatFile | null): Bow => {
  const told = entry.bowOffsetM ?? boat?.bow_offset_m ?? null;
  if (told !== null) return { offsetM: told, sdM: 0, known: true };
  const lengthM = hullLengthOf(entry.craft, boat);
  return { offsetM: ASSUMED.share * lengthM, sdM: ASSUMED.sdShare * lengthM, known: false };
};
