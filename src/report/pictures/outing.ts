import type { OutingResult, OutingRow } from '../../contract/outing.js';
import type { Picture } from '../drawing/picture.js';
import type { Reading } from '../section.js';
import { outingBands } from './outing-bands.js';
import { outingMap } from './outing-map.js';
import { outingTime } from './outing-time.js';

/** Pictures of so many logs at most: a page of a whole season of them would open on no phone. */
const MOST_LOGS = 20;

const picturesOf = (outing: OutingRow, named: boolean, reading: Reading): Picture[] => {
  const { drawn } = outing;
  if (drawn === undefined) return [];
  const name = outing.crew === null ? outing.file : `${outing.crew} (${outing.file})`;
  return [outingTime(outing, drawn, reading), outingMap(outing, drawn, reading), outingBands(outing)]
    .filter((picture) => picture !== null)
    .map((picture) => (named ? { ...picture, title: `${name}: ${picture.title}` } : picture));
};

/** The pictures of `thole outing`. */
export const outingPictures = ({ outings }: OutingResult, reading: Reading): readonly Picture[] =>
  outings.slice(0, MOST_LOGS).flatMap((outing) => picturesOf(outing, outings.length > 1, reading));
