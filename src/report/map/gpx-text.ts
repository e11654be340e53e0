import { decimalsOf } from '../../contract/decimals.js';
import type { MapShape } from './map-shape.js';

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

const segmentOf = (part: MapShape['positions'][number]): string => {
  const digits = decimalsOf('lat_deg')!;
  const points = part.map(({ lat_deg, lon_deg, time }) => {
    const at = time === null ? '' : `<time>${time}</time>`;
    return `<trkpt lat="${lat_deg.toFixed(digits)}" lon="${lon_deg.toFixed(digits)}">${at}</trkpt>`;
  });
  return `<trkseg>\n${points.join('\n')}\n</trkseg>`;
};

/**
 * Shapes that are lines as GPX 1.1 (Topografix schema): a track each, with a segment for each unbroken stretch. Parts
 * lie on their pieces and are left out.
 */
export const gpxText = (shapes: readonly MapShape[]): string => {
  const tracks = shapes
    .filter(({ kind, positions }) => kind !== 'part' && kind !== 'mark' && positions.length > 0)
    .map(
      ({ name, positions }) =>
        `<trk><name>${escaped(name)}</name>\n${positions.map(segmentOf).join('\n')}\n</trk>`,
    );
  return `<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="thole" xmlns="http://www.topografix.com/GPX/1/1">
${tracks.join('\n')}
</gpx>
`;
};
