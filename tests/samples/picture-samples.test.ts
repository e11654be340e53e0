import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { Readable } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { outingJob } from '../../src/cli/jobs/outing-job.js';
import { piecesJob } from '../../src/cli/jobs/pieces-job.js';
import type { Picture } from '../../src/report/drawing/picture.js';
import { pictureFile } from '../../src/report/page/picture-file.js';
import { outingPictures } from '../../src/report/pictures/outing.js';
import { piecesPictures } from '../../src/report/pictures/pieces.js';
import type { Reading } from '../../src/report/section.js';

const READING: Reading = { speed: null, zone: 'UTC', plain: false, bold: false, width: 80 };
const NOTHING_GIVEN = {
  craft: null,
  boat: null,
  placement: null,
  imu: null,
  imuStart: null,
  stream: null,
  columns: null,
};

const outingPicture = async (): Promise<Picture> => {
  const options = { ...NOTHING_GIVEN, bands: null, drawn: { places: false } };
  const result = await outingJob('samples/outing/outing.gpx', options, Readable.from([]));
  if ('fault' in result) throw new Error(result.message);
  return outingPictures(result, READING)[0]!;
};

const racePicture = async (): Promise<Picture> => {
  const ask = { distance: 2000, time: null, from: null, to: null, laps: false, best: null };
  const options = {
    ...NOTHING_GIVEN,
    ...ask,
    parts: 5,
    by: 'distance' as const,
    every: null,
    longestStop: 30,
    zone: 'UTC',
    detail: { drawn: true },
  };
  const result = await piecesJob('samples/race/race.gpx', options, Readable.from([]));
  if ('fault' in result) throw new Error(result.message);
  return piecesPictures(result, READING)[0]!;
};

/** Pictures that the README shows; `npm run samples` draws them anew. */
describe('pictures among the samples', () => {
  it.each([
    ['outing', outingPicture],
    ['race', racePicture],
  ])('%s is what is drawn now', { timeout: 120_000 }, async (name, pictureOf) => {
    const path = `samples/pictures/${name}.svg`;
    const drawn = pictureFile(await pictureOf());
    if (process.env.BLESS === '1') {
      mkdirSync('samples/pictures', { recursive: true });
      writeFileSync(path, drawn);
    }
    expect(drawn === readFileSync(path, 'utf8'), `${path}: run npm run samples`).toBe(true);
    expect(drawn).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org\/2000\/svg)/);
  });
});
