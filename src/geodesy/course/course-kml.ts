import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { type CourseFile, courseFile, LINE_KINDS } from '../../contract/course.js';
import type { InputFile } from '../../contract/input-file.js';
import { UserError } from '../../units/user-error.js';

const PARSER = new XMLParser({
  ignoreAttributes: false,
  attributeNamePrefix: '@',
  removeNSPrefix: true,
  parseTagValue: false,
});

const listOf = (value: unknown): readonly unknown[] =>
  value === undefined ? [] : Array.isArray(value) ? value : [value];

/** Every element of a name at any depth of a parsed document, in no certain order. */
export const elementsNamed = (document: unknown, wanted: string): Record<string, unknown>[] => {
  const found: Record<string, unknown>[] = [];
  const open: unknown[] = [document];
  while (open.length > 0) {
    const element = open.pop();
    if (typeof element !== 'object' || element === null) continue;
    for (const [name, value] of Object.entries(element))
      for (const child of listOf(value)) {
        if (typeof child !== 'object' || child === null) continue;
        if (name === wanted) found.push(child as Record<string, unknown>);
        open.push(child);
      }
  }
  return found.reverse();
};

/**
 * An XML document as plain objects.
 * @throws UserError where it is not well formed, with the line
 */
export const parsedXml = (text: string, name: string): unknown => {
  const valid = XMLValidator.validate(text);
  if (valid !== true)
    throw new UserError(`${name}, line ${valid.err.line}: this is no whole XML: ${valid.err.msg}`);
  return PARSER.parse(text);
};

/** Coordinates as KML writes them: `lon,lat[,height]`, apart by spaces. */
export const kmlCoordinates = (line: Record<string, unknown>): number[][] =>
  String(line.coordinates ?? '')
    .trim()
    .split(/\s+/)
    .filter((tuple) => tuple !== '')
    .map((tuple) => tuple.split(',').slice(0, 2).map(Number));

/** What a placemark states in its own data fields: `<Data name="line"><value>start</value></Data>`. */
const statedIn = (placemark: Record<string, unknown>): Record<string, string> =>
  Object.fromEntries(
    [...elementsNamed(placemark, 'Data'), ...elementsNamed(placemark, 'SimpleData')].map((data) => [
      String(data['@name']),
      String(data.value ?? data['#text'] ?? '').trim(),
    ]),
  );

/** What a line is by its name, where no data field says it: `start`, `finish`, `centreline`, `mark 500` or `500 m`. */
const namedAs = (name: string): Record<string, unknown> => {
  const word = name.trim().toLowerCase();
  if (word === 'centreline' || word === 'centerline') return { role: 'centreline' };
  if (word === 'start' || word === 'finish') return { line: word };
  const metres = /^(?:mark\s*)?(\d+(?:\.\d+)?)\s*m?$/.exec(word);
  return metres === null ? {} : { line: 'mark', along_m: Number(metres[1]) };
};

const propertiesOf = (placemark: Record<string, unknown>): Record<string, unknown> => {
  const { line, along_m, role } = statedIn(placemark);
  const name = typeof placemark.name === 'string' ? placemark.name : '';
  const isLine = LINE_KINDS.some((kind) => kind === line);
  const stated = isLine ? { line } : role === 'centreline' ? { role } : namedAs(name);
  return { ...stated, ...(along_m === undefined ? {} : { along_m: Number(along_m) }), name };
};

/**
 * A course drawn in KML (OGC 12-007r2): each line of it is the LineString of a placemark. The placemark's data fields
 * `line`, `along_m` and `role` say what it is, else its name does.
 * @throws UserError where it is no whole XML or holds no line
 */
export const kmlCourse = (text: string, name: string): InputFile<CourseFile> => {
  const placemarks = elementsNamed(parsedXml(text, name), 'Placemark').flatMap((placemark) =>
    elementsNamed(placemark, 'LineString').map((line) => ({ placemark, line })),
  );
  if (placemarks.length === 0)
    throw new UserError(`${name} holds no LineString: draw the start, the finish and the marks as lines`);
  const errorAt: InputFile<CourseFile>['errorAt'] = (path, what) => {
    const named = typeof path[1] === 'number' ? placemarks[path[1]]?.placemark.name : undefined;
    return new UserError(`${name}${named === undefined ? '' : `, placemark "${String(named)}"`}: ${what}`);
  };
  const checked = courseFile.safeParse({
    type: 'FeatureCollection',
    features: placemarks.map(({ placemark, line }) => ({
      type: 'Feature',
      properties: propertiesOf(placemark),
      geometry: { type: 'LineString', coordinates: kmlCoordinates(line) },
    })),
  });
  if (!checked.success) {
    const [issue] = checked.error.issues;
    throw errorAt(issue!.path as never, `"${String(issue!.path.at(-1))}" is not what a course can have`);
  }
  return { value: checked.data, errorAt };
};
