import { type CourseFile, courseFile } from '../../contract/course.js';
import { type InputFile, parseInputFile } from '../../contract/input-file.js';
import { UserError } from '../../units/user-error.js';
import { geodesicBetween } from '../geodesic.js';
import type { Place } from '../place.js';
import { parseCentreline } from './centreline-file.js';
import type { Course } from './course.js';
import { kmlCourse } from './course-kml.js';
import { type LineDraft, makeCourse } from './make-course.js';

type Feature = CourseFile['features'][number];

const SWAPPED = 'GeoJSON writes longitude first and latitude second: swap them';

/** Longest course that is believed, m. */
const LONGEST_M = 200_000;

const placeOf = (point: unknown, error: (what: string) => UserError): Place => {
  if (!Array.isArray(point) || typeof point[0] !== 'number' || typeof point[1] !== 'number')
    throw error('a point must be [longitude, latitude], two numbers');
  const [lonDeg, latDeg] = point as [number, number];
  if (Math.abs(latDeg) > 90 && Math.abs(latDeg) <= 180 && Math.abs(lonDeg) <= 90)
    throw error(`latitude ${latDeg} is beyond 90: ${SWAPPED}`);
  if (!(Math.abs(latDeg) <= 90 && Math.abs(lonDeg) <= 180))
    throw error(
      `[${lonDeg}, ${latDeg}] is off the Earth: write longitude -180 to 180 and latitude -90 to 90`,
    );
  return { latDeg, lonDeg };
};

const placesOf = (feature: Feature, error: (what: string) => UserError): Place[] => {
  const { type, coordinates = [] } = feature.geometry ?? {};
  if (type === undefined) throw error('it has no geometry: draw it as a LineString');
  if (type === 'LineString') return coordinates.map((point) => placeOf(point, error));
  if (type !== 'MultiLineString') throw error(`its geometry must be a LineString, and ${type} came`);
  const [only, ...more] = coordinates;
  if (!Array.isArray(only) || more.length > 0)
    throw error(
      `its geometry is a MultiLineString of ${coordinates.length} lines: keep one of them, or join them to one`,
    );
  return only.map((point) => placeOf(point, error));
};

/** Coordinate systems that are the one of GeoJSON, by the names that older files give. */
const isUsualSystem = (name: string): boolean => /CRS84|EPSG:+4326|WGS ?84/i.test(name);

/**
 * Holds that a file's coordinates are longitude and latitude on WGS84. RFC 7946 knows no other, but files of its
 * forerunner name theirs.
 * @throws UserError with the system that came
 */
const checkSystem = ({ value, errorAt }: InputFile<CourseFile>): void => {
  const name = value.crs?.properties?.name;
  if (name !== undefined && !isUsualSystem(name))
    throw errorAt(
      ['crs'],
      `its coordinates are in ${name}: save the course with longitude and latitude on WGS84 (EPSG:4326)`,
    );
};

const draftsOf = ({ value, errorAt }: InputFile<CourseFile>, swap: boolean) => {
  const seen = (place: Place): Place => (swap ? { latDeg: place.lonDeg, lonDeg: place.latDeg } : place);
  const lines: LineDraft[] = [];
  const centrelines: { places: Place[]; error: (what: string) => UserError }[] = [];
  value.features.forEach((feature, i) => {
    const error = (what: string) => errorAt(['features', i, 'geometry', 'coordinates'], what);
    const { line, role, along_m, name } = feature.properties ?? {};
    if (line !== undefined) {
      const places = placesOf(feature, error).map(seen);
      if (places.length !== 2)
        throw error(
          `a ${line} line has two points, one on each side of the water, and ${places.length} came`,
        );
      lines.push({
        kind: line,
        name: name ?? null,
        ends: [places[0]!, places[1]!],
        alongM: along_m ?? null,
        error,
      });
    } else if (role === 'centreline') centrelines.push({ places: placesOf(feature, error).map(seen), error });
  });
  if (centrelines.length > 1) throw centrelines[1]!.error('there are two centrelines: keep one of them');
  return { lines, centreline: centrelines[0] ?? null };
};

/** True where the course fails as written and stands with longitude and latitude swapped. */
const standsSwapped = (input: InputFile<CourseFile>, name: string): boolean => {
  try {
    makeCourse({ name, ...draftsOf(input, true) });
    return true;
  } catch {
    return false;
  }
};

/**
 * Read a course from GeoJSON or KML.
 * @param name the file as messages name it
 * @param along the line that the course follows, from a file of its own; null for that of the course file, if any
 * @throws UserError that says which line of the file is wrong and what to change
 */
export const parseCourse = (
  text: string,
  name: string,
  along: { readonly text: string; readonly name: string } | null = null,
): Course => {
  const input = /^\s*(?:\ufeff)?\s*</.test(text)
    ? kmlCourse(text, name)
    : parseInputFile(courseFile, text, name);
  checkSystem(input);
  const drawn = { name, ...draftsOf(input, false) };
  const draft =
    along === null
      ? drawn
      : {
          ...drawn,
          centreline: {
            places: parseCentreline(along.text, along.name),
            error: (what: string) => new UserError(`${along.name}: ${what}`),
          },
        };
  let course: Course;
  try {
    course = makeCourse(draft);
  } catch (error) {
    const stated = draft.lines.some(({ kind, alongM }) => kind === 'finish' && alongM !== null);
    if (stated && standsSwapped(input, name))
      throw draft.lines[0]!.error(`the lengths fit only with latitude and longitude swapped: ${SWAPPED}`);
    throw error;
  }
  if (course.axis.lengthM > LONGEST_M)
    throw draft.lines[0]!.error(
      `the course is ${(course.axis.lengthM / 1000).toFixed(0)} km long: check its coordinates`,
    );
  return course;
};

/** How far a course lies from a place, m, and how far with its latitudes and longitudes swapped. */
export const courseAway = (
  course: Course,
  place: Place,
): { readonly asWrittenM: number; readonly swappedM: number } => {
  const { latDeg, lonDeg } = course.axis.vertices[0]!;
  const swapped = Math.abs(lonDeg) <= 90 ? { latDeg: lonDeg, lonDeg: latDeg } : null;
  return {
    asWrittenM: geodesicBetween(course.axis.vertices[0]!, place).distanceM,
    swappedM: swapped === null ? Number.POSITIVE_INFINITY : geodesicBetween(swapped, place).distanceM,
  };
};
