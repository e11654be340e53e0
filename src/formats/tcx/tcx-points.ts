import type { Lap } from '../../recording/index.js';
import { parseIsoTime } from '../../units/instant.js';
import { parseDecimal } from '../decimal.js';
import type { SampleTable } from '../sample-table.js';
import { type FieldNames, setPointFields } from '../xml/point-fields.js';
import { pointColumns, timesFromOrigin, trackPoints } from '../xml/track-points.js';
import { attributeOf, elementsOf, textOf, type XmlElement } from '../xml/xml-element.js';

/** What a TCX file holds. */
export interface TcxPoints {
  readonly table: SampleTable;
  readonly device: string | null;
  readonly sport: string | null;
  /** True where distance was logged and no position at all, as an ergometer does. */
  readonly land: boolean;
}

const TCX_FIELDS: FieldNames = new Map([
  ['altitudemeters', 'elevation'],
  ['distancemeters', 'distance'],
  ['speed', 'speed'],
  ['cadence', 'cadence'],
  ['runcadence', 'cadence'],
  ['heartratebpm', 'heart_rate'],
]);

/** A position and a heart rate stand in elements of their own inside a point. */
const POSITION_FIELDS: FieldNames = new Map([
  ['latitudedegrees', 'lat'],
  ['longitudedegrees', 'lon'],
]);
const HEART_RATE_FIELDS: FieldNames = new Map([['value', 'heart_rate']]);

interface LapRows {
  readonly startUnixS: number | null;
  readonly totalS: number;
  readonly from: number;
  readonly to: number;
}

/**
 * The points of a parsed TCX file, of its activities and, where it has none, of its courses.
 * @returns null where the outermost element is not `TrainingCenterDatabase`
 */
export const tcxPoints = (document: XmlElement): TcxPoints | null => {
  if (document.TrainingCenterDatabase === undefined) return null;
  const root: XmlElement = elementsOf(document, 'TrainingCenterDatabase')[0] ?? {};
  const points = trackPoints();
  const segmentRows: number[] = [];
  const lapRows: LapRows[] = [];
  const addTracks = (tracks: readonly XmlElement[]): void => {
    for (const [nth, track] of tracks.entries()) {
      if (nth > 0) segmentRows.push(points.count());
      for (const point of elementsOf(track, 'Trackpoint')) {
        points.begin(parseIsoTime(textOf(point, 'Time') ?? '') ?? Number.NaN);
        for (const position of elementsOf(point, 'Position'))
          setPointFields(points, position, POSITION_FIELDS);
        for (const rate of elementsOf(point, 'HeartRateBpm')) setPointFields(points, rate, HEART_RATE_FIELDS);
        setPointFields(points, point, TCX_FIELDS);
      }
    }
  };
  const lists = elementsOf(root, 'Activities');
  const sessions = lists.flatMap((list) => elementsOf(list, 'MultiSportSession'));
  const sports = ['FirstSport', 'NextSport'].flatMap((name) =>
    sessions.flatMap((session) => elementsOf(session, name)),
  );
  const activities = [...lists, ...sports].flatMap((list) => elementsOf(list, 'Activity'));
  for (const activity of activities) {
    if (points.count() > 0) segmentRows.push(points.count());
    for (const lap of elementsOf(activity, 'Lap')) {
      const from = points.count();
      addTracks(elementsOf(lap, 'Track'));
      lapRows.push({
        startUnixS: parseIsoTime(attributeOf(lap, 'StartTime') ?? ''),
        totalS: parseDecimal(textOf(lap, 'TotalTimeSeconds') ?? ''),
        from,
        to: points.count(),
      });
    }
  }
  if (activities.length === 0)
    for (const course of elementsOf(root, 'Courses').flatMap((list) => elementsOf(list, 'Course')))
      addTracks(elementsOf(course, 'Track'));
  const { atS, originUnixS } = timesFromOrigin(points.unixS());
  const columns = pointColumns(points);
  const creator = activities.flatMap((activity) => elementsOf(activity, 'Creator'))[0];
  return {
    table: { atS, originUnixS, columns, segmentRows, laps: lapsOf(lapRows, atS, originUnixS) },
    device: creator === undefined ? null : textOf(creator, 'Name'),
    sport: activities.map((activity) => attributeOf(activity, 'Sport')).find((name) => name !== null) ?? null,
    land: columns.position === undefined && columns.distance !== undefined,
  };
};

/**
 * A lap goes from its stated start to its last point, or by its stated length where that is longer (the last
 * point comes before the press of the button), but never into the next lap.
 */
const lapsOf = (rows: readonly LapRows[], atS: Float64Array, originUnixS: number): Lap[] =>
  rows.flatMap(({ startUnixS, totalS, from, to }, nth) => {
    const times = atS.subarray(from, to).filter((at) => Number.isFinite(at));
    const fromS = startUnixS === null ? times[0] : startUnixS - originUnixS;
    if (fromS === undefined) return [];
    const next = rows[nth + 1]?.startUnixS ?? null;
    const statedS = Number.isFinite(totalS) ? fromS + totalS : fromS;
    const limitS = next === null ? Number.POSITIVE_INFINITY : next - originUnixS;
    const toS = Math.min(Math.max(statedS, times[times.length - 1] ?? fromS), limitS);
    return toS > fromS ? [{ fromS, toS }] : [];
  });
