import type { Lap } from '../../recording/index.js';
import { parseIsoTime } from '../../units/instant.js';
import { parseDecimal } from '../decimal.js';
import type { SampleTable } from '../sample-table.js';
import { statedSdM } from '../stated-sd.js';
import { type FieldNames, setPointFields } from '../xml/point-fields.js';
import { pointColumns, timesFromOrigin, trackPoints } from '../xml/track-points.js';
import { attributeOf, elementsOf, textOf, type XmlElement } from '../xml/xml-element.js';

/** What a GPX file holds. */
export interface GpxPoints {
  readonly kind: 'track' | 'route' | 'waypoints';
  readonly table: SampleTable;
  readonly device: string | null;
  readonly sport: string | null;
  readonly statedPositionSdM: number | null;
  /** Times that state no zone. */
  readonly zonelessCount: number;
}

/** Local names, in lower case, of what is read of a point's children and extensions; each one number. */
export const GPX_FIELDS: FieldNames = new Map([
  ['ele', 'elevation'],
  ['speed', 'speed'],
  ['cad', 'cadence'],
  ['cadence', 'cadence'],
  ['hr', 'heart_rate'],
  ['heartrate', 'heart_rate'],
  ['heart_rate', 'heart_rate'],
  ['accuracy', 'accuracy'],
  ['accuracy_horizontal', 'accuracy'],
  ['horizontal_accuracy', 'accuracy'],
]);

const ZONE = /(?:Z|[+-]\d{2}:?\d{2})$/i;

/**
 * The points of a parsed GPX file: those of its tracks; of a file without tracks its route or its waypoints.
 * @returns null where the outermost element is not `gpx`
 */
export const gpxPoints = (document: XmlElement): GpxPoints | null => {
  const gpx = document.gpx;
  if (gpx === undefined) return null;
  const root: XmlElement = elementsOf(document, 'gpx')[0] ?? {};
  const points = trackPoints();
  let zonelessCount = 0;
  const add = (point: XmlElement): void => {
    const text = textOf(point, 'time');
    const unixS = text === null ? null : parseIsoTime(text);
    if (unixS !== null && !ZONE.test(text!.trim())) zonelessCount++;
    points.begin(unixS ?? Number.NaN);
    points.set('lat', parseDecimal(attributeOf(point, 'lat') ?? ''));
    points.set('lon', parseDecimal(attributeOf(point, 'lon') ?? ''));
    setPointFields(points, point, GPX_FIELDS);
  };
  const segments: { from: number; to: number }[] = [];
  const addAll = (list: readonly XmlElement[]): void => {
    const from = points.count();
    for (const point of list) add(point);
    if (points.count() > from) segments.push({ from, to: points.count() });
  };
  const tracks = elementsOf(root, 'trk');
  for (const track of tracks)
    for (const segment of elementsOf(track, 'trkseg')) addAll(elementsOf(segment, 'trkpt'));
  let kind: GpxPoints['kind'] = 'track';
  if (points.count() === 0) {
    kind = 'route';
    for (const route of elementsOf(root, 'rte')) addAll(elementsOf(route, 'rtept'));
  }
  if (points.count() === 0) {
    kind = 'waypoints';
    addAll(elementsOf(root, 'wpt'));
  }
  const { atS, originUnixS } = timesFromOrigin(points.unixS());
  return {
    kind,
    table: {
      atS,
      originUnixS,
      columns: pointColumns(points),
      segmentRows: segments.map(({ from }) => from),
      laps: kind === 'track' ? lapsOf(atS, segments) : [],
    },
    device: attributeOf(root, 'creator'),
    sport: tracks.map((track) => textOf(track, 'type')).find((type) => type !== null) ?? null,
    statedPositionSdM: statedSdM(points.column('accuracy')),
    zonelessCount,
  };
};

/** Each segment with two times or more is a lap. */
const lapsOf = (atS: Float64Array, segments: readonly { from: number; to: number }[]): Lap[] =>
  segments.flatMap(({ from, to }) => {
    const times = atS.subarray(from, to).filter((at) => Number.isFinite(at));
    const [fromS, toS] = [times[0], times[times.length - 1]];
    return fromS !== undefined && toS !== undefined && toS > fromS ? [{ fromS, toS }] : [];
  });
