import { type CourseFile, courseFile } from '../../contract/course.js';
import { type InputFile, parseInputFile } from '../../contract/input-file.js';
import type { UserError } from '../../units/user-error.js';
import { geodesicBetween } from '../geodesic.js';
import type { Place } from '../place.js';
import type { Course } from './course.js';
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
  if (feature.geometry?.type !== 'LineString')
    throw error(`its geometry must be a LineString, and ${feature.geometry?.type ?? 'none'} came`);
  return (feature.geometry.coordinates ?? []).map((point) => placeOf(point, error));
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
 * Read a course from GeoJSON.
 * @param name the file as messages name it
 * @throws UserError that says which line of the file is wrong and what to change
 */
export const parseCourse = (text: string, name: string): Course => {
  const input = parseInputFile(courseFile, text, name);
  const draft = { name, ...draftsOf(input, false) };
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
