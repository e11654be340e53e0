import type { SeasonResult } from '../../contract/season.js';
import type { Picture } from '../drawing/picture.js';
import type { Reading } from '../section.js';
import { seasonBestsPicture } from './season-bests.js';
import { seasonDistance } from './season-distance.js';
import { seasonProgress } from './season-progress.js';
import { seasonWeeks } from './season-weeks.js';

/** The pictures of `thole season`. */
export const seasonPictures = (result: SeasonResult, reading: Reading): readonly Picture[] => [
  ...[seasonWeeks(result), seasonDistance(result, reading)].filter((picture) => picture !== null),
  ...seasonProgress(result, reading),
  ...[seasonBestsPicture(result, reading)].filter((picture) => picture !== null),
];
