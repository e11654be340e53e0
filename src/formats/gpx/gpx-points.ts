import type { Lap } from '../../recording/index.js';
import { parseIsoTime } from '../../units/instant.js';
import { parseDecimal } from '../decimal.js';
import type { SampleTable } from '../sample-table.js';
import { statedSdM } from '../stated-sd.js';
import { type FieldNames, setPointFields } from '../xml/point-fields.js';
import {
  POINT_FIELDS,
  pointColumns,
  type TrackPoints,
  timesFromOrigin,
  trackPoints,
} from '../xml/track-points.js';
import { attributeOf, childrenOf, elementsOf, textOf, type XmlElement } from '../xml/xml-element.js';

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

/** Points of a file in their order, and where each list of them ends. */
export interface GpxLists {
  readonly points: TrackPoints;
  /** Rows at which lists end, in order; equal ends are of empty lists. */
  readonly ends: readonly number[];
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

const [LAT, LON] = [POINT_FIELDS.indexOf('lat'), POINT_FIELDS.indexOf('lon')];

const ZONE = /(?:Z|[+-]\d{2}:?\d{2})$/i;

/** Unix time of a point's time, s, NaN where it has none; and whether a time states no zone. */
export const gpxTime = (text: string | null): { unixS: number; zoneless: boolean } => {
  const unixS = text === null ? null : parseIsoTime(text);
  return { unixS: unixS ?? Number.NaN, zoneless: unixS !== null && !ZONE.test(text!.trim()) };
};

const listsOf = (lists: readonly (readonly XmlElement[])[]): GpxLists => {
  const points = trackPoints();
  let zonelessCount = 0;
  const ends = lists.map((list) => {
    for (const point of list) {
      const { unixS, zoneless } = gpxTime(textOf(point, 'time'));
      if (zoneless) zonelessCount++;
      points.begin(unixS);
      points.setFirst(LAT, parseDecimal(attributeOf(point, 'lat') ?? ''));
      points.setFirst(LON, parseDecimal(attributeOf(point, 'lon') ?? ''));
      setPointFields(points, point, GPX_FIELDS);
    }
    return points.count();
  });
  return { points, ends, zonelessCount };
};

/** Each list with two times or more is a lap. */
const lapsOf = (atS: Float64Array, ends: readonly number[]): Lap[] =>
  ends.flatMap((end, i) => {
    const times = atS.subarray(ends[i - 1] ?? 0, end);
    const fromS = times.find(Number.isFinite);
    const toS = times.findLast(Number.isFinite);
    return fromS !== undefined && toS !== undefined && toS > fromS ? [{ fromS, toS }] : [];
  });

const tracksOf = (root: XmlElement): readonly XmlElement[] => elementsOf(root, 'trk');

/** How many segments the tracks of a parsed GPX file have, empty ones too. */
export const segmentCount = (root: XmlElement): number =>
  tracksOf(root).reduce((sum, track) => sum + childrenOf(track, 'trkseg').length, 0);

/** What a GPX file holds, of its outermost element and its points. */
export const gpxOfLists = (root: XmlElement, kind: GpxPoints['kind'], lists: GpxLists): GpxPoints => {
  const { points, ends, zonelessCount } = lists;
  const accuracy = points.column('accuracy');
  const { atS, originUnixS } = timesFromOrigin(points.unixS());
  return {
    kind,
    table: {
      atS,
      originUnixS,
      columns: pointColumns(points),
      segmentRows: ends.map((_, i) => ends[i - 1] ?? 0).filter((start, i) => start > 0 && ends[i]! > start),
      laps: kind === 'track' ? lapsOf(atS, ends) : [],
    },
    device: attributeOf(root, 'creator'),
    sport:
      tracksOf(root)
        .map((track) => textOf(track, 'type'))
        .find((type) => type !== null) ?? null,
    statedPositionSdM: accuracy === null ? null : statedSdM(accuracy),
    zonelessCount,
  };
};

/**
 * The points of a GPX file: those of its tracks; of a file without tracks its routes or its waypoints.
 * @param root its outermost element, parsed
 */
export const gpxPoints = (root: XmlElement): GpxPoints => {
  const track = listsOf(
    tracksOf(root).flatMap((one) => elementsOf(one, 'trkseg').map((segment) => elementsOf(segment, 'trkpt'))),
  );
  if (track.points.count() > 0) return gpxOfLists(root, 'track', track);
  const route = listsOf(elementsOf(root, 'rte').map((one) => elementsOf(one, 'rtept')));
  if (route.points.count() > 0) return gpxOfLists(root, 'route', route);
  return gpxOfLists(root, 'waypoints', listsOf([elementsOf(root, 'wpt')]));
};
