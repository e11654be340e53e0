import type { BoatFile } from '../contract/boat.js';
import type { Craft } from '../units/craft.js';
import { HULL_LENGTH_M } from '../units/hull-length.js';

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

/** Length of a hull that nobody named, m: a coxless four's. */
const UNKNOWN_HULL_M = 13.4;

/** Length of a hull, from its boat file, else usual for the craft, m. */
export const hullLengthOf = (craft: Craft | null, boat: BoatFile | null): number =>
  boat?.hull_length_m ?? (craft === null ? UNKNOWN_HULL_M : HULL_LENGTH_M[craft]);

/**
 * The bow offset of a boat, as given, else from its boat file, else assumed with an sd that says so.
 * @param knownM what an entry list says, m; null where it says nothing
 */
export const bowOf = (craft: Craft | null, knownM: number | null, boat: BoatFile | null): Bow => {
  const offsetM = knownM ?? boat?.bow_offset_m ?? null;
  if (offsetM !== null) return { offsetM, sdM: 0, known: true };
  const lengthM = hullLengthOf(craft, boat);
  return { offsetM: ASSUMED.share * lengthM, sdM: ASSUMED.sdShare * lengthM, known: false };
};
