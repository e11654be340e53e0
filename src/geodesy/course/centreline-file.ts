import { UserError } from '../../units/user-error.js';
import type { Place } from '../place.js';
import { elementsNamed, kmlCoordinates, parsedXml } from './course-kml.js';

/** Points of the longest line, of those that a file holds. */
const longest = (lines: readonly (readonly Place[])[]): readonly Place[] =>
  lines.reduce((most, line) => (line.length > most.length ? line : most), []);

const numberIn = (point: Record<string, unknown>, key: string): number => Number(point[key] ?? Number.NaN);

const gpxLines = (document: unknown): Place[][] =>
  [
    ['rte', 'rtept'],
    ['trkseg', 'trkpt'],
  ].flatMap(([line, point]) =>
    elementsNamed(document, line!).map((element) =>
      elementsNamed({ points: element }, point!).map((each) => ({
        latDeg: numberIn(each, '@lat'),
        lonDeg: numberIn(each, '@lon'),
      })),
    ),
  );

const kmlLines = (document: unknown): Place[][] =>
  elementsNamed(document, 'LineString').map((line) =>
    kmlCoordinates(line).map(([lonDeg = Number.NaN, latDeg = Number.NaN]) => ({ latDeg, lonDeg })),
  );

/**
 * The line that a course follows, from a route or track in GPX, with times or without, or a LineString in KML: the one
 * with the most points.
 * @param name the file as messages name it
 * @throws UserError where it holds no such line, or a point is off the Earth
 */
export const parseCentreline = (text: string, name: string): readonly Place[] => {
  if (!/^\s*(?:\ufeff)?\s*</.test(text))
    throw new UserError(`${name} is no centreline: give a GPX route or track, or a KML line`);
  const document = parsedXml(text, name);
  const places = longest([...gpxLines(document), ...kmlLines(document)]);
  if (places.length < 2)
    throw new UserError(`${name} holds no route, track or line of two points: draw the centreline in it`);
  const wrong = places.findIndex(
    ({ latDeg, lonDeg }) => !(Math.abs(latDeg) <= 90 && Math.abs(lonDeg) <= 180),
  );
  if (wrong >= 0)
    throw new UserError(
      `${name}, point ${wrong + 1}: this is no place on the Earth: correct its coordinates`,
    );
  return places;
};
