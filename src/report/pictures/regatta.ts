import type { RegattaResult } from '../../contract/regatta.js';
import type { Picture } from '../drawing/picture.js';
import { regattaGaps } from './regatta-gaps.js';
import { regattaPlaces } from './regatta-places.js';

/** The pictures of `thole regatta`, event by event. */
export const regattaPictures = (result: RegattaResult): readonly Picture[] =>
  [...new Set(result.results.map(({ event }) => event))].flatMap((event) =>
    [
      regattaGaps(event, result),
      regattaPlaces(
        event,
        result.results.filter((row) => row.event === event),
      ),
    ].filter((picture) => picture !== null),
  );
