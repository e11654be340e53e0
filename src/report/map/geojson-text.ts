import { decimalsOf } from '../../contract/decimals.js';
import type { Positions } from '../../contract/positions.js';
import type { MapShape } from './map-shape.js';

type Point = Positions[number][number];
type Pair = readonly [number, number];

const pairOf = ({ lon_deg, lat_deg }: Pick<Point, 'lat_deg' | 'lon_deg'>): Pair => {
  const digits = decimalsOf('lat_deg')!;
  return [Number(lon_deg.toFixed(digits)), Number(lat_deg.toFixed(digits))];
};

/** A line in parts where it crosses the antimeridian (RFC 7946, 3.1.9): each part stays on one side. */
const cutAtAntimeridian = (part: readonly Point[]): Pair[][] => {
  const lines: Pair[][] = [[]];
  for (const [i, point] of part.entries()) {
    const before = part[i - 1];
    if (before !== undefined && Math.abs(point.lon_deg - before.lon_deg) > 180) {
      const side = before.lon_deg > 0 ? 180 : -180;
      const beyond = point.lon_deg + 2 * side;
      const share = (side - before.lon_deg) / (beyond - before.lon_deg);
      const lat_deg = before.lat_deg + share * (point.lat_deg - before.lat_deg);
      lines.at(-1)!.push(pairOf({ lon_deg: side, lat_deg }));
      lines.push([pairOf({ lon_deg: -side, lat_deg })]);
    }
    lines.at(-1)!.push(pairOf(point));
  }
  return lines;
};

/** A point where there is one place; a line; several lines where the track is parted; null where there is none. */
const geometryOf = (positions: Positions): object | null => {
  const [first] = positions[0] ?? [];
  if (first === undefined) return null;
  if (positions.length === 1 && positions[0]!.length === 1)
    return { type: 'Point', coordinates: pairOf(first) };
  const lines = positions.filter((part) => part.length > 1).flatMap(cutAtAntimeridian);
  return lines.length === 1
    ? { type: 'LineString', coordinates: lines[0] }
    : { type: 'MultiLineString', coordinates: lines };
};

/** Shapes as GeoJSON (RFC 7946), a feature a line, so that two versions can be compared. */
export const geojsonText = (shapes: readonly MapShape[]): string => {
  const features = shapes.map(({ name, kind, positions, figures }) =>
    JSON.stringify({
      type: 'Feature',
      geometry: geometryOf(positions),
      properties: { name, kind, ...figures },
    }),
  );
  return `{"type":"FeatureCollection","features":[\n${features.join(',\n')}\n]}\n`;
};
