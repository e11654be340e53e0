import { parseDecimal } from '../decimal.js';
import { POINT_FIELDS, type PointField, type TrackPoints } from './track-points.js';
import { elementsOf, textOf, type XmlElement } from './xml-element.js';

/** Local names, in lower case, of a point's children and extensions, and the field that each fills. */
export type FieldNames = ReadonlyMap<string, PointField>;

/** Extensions nest no deeper than this in any real log. */
const DEEPEST = 8;

/**
 * Fill the last point's fields from an element's children at any depth, whatever their prefix; the first number
 * of a field counts, so what stands in the point itself goes before what an extension repeats.
 */
export const setPointFields = (
  points: TrackPoints,
  element: XmlElement,
  names: FieldNames,
  depth = 0,
): void => {
  const deeper: XmlElement[] = [];
  for (const [name, value] of Object.entries(element)) {
    if (name.startsWith('@') || value === undefined) continue;
    const field = names.get(name.toLowerCase());
    const number = field === undefined ? Number.NaN : parseDecimal(textOf(element, name) ?? '');
    if (field !== undefined && Number.isFinite(number)) points.setFirst(POINT_FIELDS.indexOf(field), number);
    else if (depth < DEEPEST) deeper.push(...elementsOf(element, name));
  }
  for (const child of deeper) setPointFields(points, child, names, depth + 1);
};
