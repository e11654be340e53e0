import { check } from '@placemarkio/check-geojson';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { describe, expect, it } from 'vitest';
import type { OutingResult } from '../../../src/contract/outing.js';
import type { PiecesResult } from '../../../src/contract/pieces.js';
import { geojsonText } from '../../../src/report/map/geojson-text.js';
import { gpxText } from '../../../src/report/map/gpx-text.js';
import type { MapShape } from '../../../src/report/map/map-shape.js';
import { ran } from '../../cli/ran.js';

const WATCH = 'samples/watch/watch.gpx';

const written = async (words: readonly string[], format: string): Promise<string> => {
  const { status, stdout } = await ran([...words, '--format', format, '--quiet']);
  expect(status).toBe(0);
  return stdout;
};

interface Feature {
  readonly geometry: { readonly type: string; readonly coordinates: number[][] };
  readonly properties: Record<string, unknown>;
}
const featuresOf = (text: string): Feature[] => (check(text) as unknown as { features: Feature[] }).features;

const position = (at_s: number, lat_deg: number, lon_deg: number) => ({ at_s, time: null, lat_deg, lon_deg });
const shape = (positions: MapShape['positions'], name = 'a boat'): MapShape => ({
  name,
  kind: 'outing',
  positions,
  figures: { duration_s: 10, duration_sd_s: 0.1 },
});

describe('GeoJSON', () => {
  it('of an outing is its smoothed track with the figures of the result', async () => {
    const [feature, ...more] = featuresOf(await written(['outing', WATCH], 'geojson'));
    const { outings } = JSON.parse(await written(['outing', WATCH], 'json')) as OutingResult;
    expect(more).toEqual([]);
    expect(feature!.geometry.type).toBe('LineString');
    expect(feature!.properties).toMatchObject({
      kind: 'outing',
      distance_m: outings[0]!.distance_m,
      stroke_count: outings[0]!.stroke_count,
    });
    expect(outings[0]).not.toHaveProperty('positions');
  });

  it('of pieces has each piece and its parts, with their times and standard deviations, end to end', async () => {
    const words = ['pieces', WATCH, '--distance', '1000'];
    const features = featuresOf(await written(words, 'geojson'));
    const { pieces } = JSON.parse(await written(words, 'json')) as PiecesResult;
    const whole = features.filter(({ properties }) => properties.kind === 'piece');
    expect(whole.map(({ properties }) => [properties.duration_s, properties.duration_sd_s])).toEqual(
      pieces.map(({ duration_s, duration_sd_s }) => [duration_s, duration_sd_s]),
    );
    const parts = features.filter(({ properties }) => properties.kind === 'part' && properties.piece === 1);
    expect(parts).toHaveLength(pieces[0]!.parts.length);
    for (const [i, part] of parts.slice(1).entries())
      expect(part.geometry.coordinates[0]).toEqual(parts[i]!.geometry.coordinates.at(-1));
    expect(parts[0]!.geometry.coordinates[0]).toEqual(whole[0]!.geometry.coordinates[0]);
    expect(parts.at(-1)!.geometry.coordinates.at(-1)).toEqual(whole[0]!.geometry.coordinates.at(-1));
  });

  it('of a parted track has a line for each stretch, and none where there is no track', () => {
    const two = shape([
      [position(0, 1, 2), position(1, 1.1, 2)],
      [position(60, 1.5, 2), position(61, 1.6, 2)],
    ]);
    const [parted, none] = featuresOf(geojsonText([two, shape([])]));
    expect(parted!.geometry).toEqual({
      type: 'MultiLineString',
      coordinates: [
        [
          [2, 1],
          [2, 1.1],
        ],
        [
          [2, 1.5],
          [2, 1.6],
        ],
      ],
    });
    expect(none!.geometry).toBeNull();
  });

  // RFC 7946, section 3.1.9: geometries that cross the antimeridian are cut in two.
  it.each([1, -1])('is cut at the antimeridian, heading %i', (way) => {
    const line = [position(0, 10, way * 179.9999), position(1, 12, way * -179.9999)];
    const [feature] = featuresOf(geojsonText([shape([line])]));
    expect(feature!.geometry).toEqual({
      type: 'MultiLineString',
      coordinates: [
        [
          [way * 179.9999, 10],
          [way * 180, 11],
        ],
        [
          [way * -180, 11],
          [way * -179.9999, 12],
        ],
      ],
    });
  });
});

describe('GPX', () => {
  const parsed = (text: string) => {
    expect(XMLValidator.validate(text)).toBe(true);
    const list = ['trk', 'trkseg', 'trkpt'];
    return new XMLParser({ ignoreAttributes: false, isArray: (name) => list.includes(name) }).parse(text).gpx;
  };

  it('1.1 of pieces has a track a piece, whose points and times a reader finds again', async () => {
    const words = ['pieces', WATCH, '--distance', '1000'];
    const gpx = parsed(await written(words, 'gpx'));
    const { pieces } = JSON.parse(await written(words, 'json')) as PiecesResult;
    expect(gpx['@_version']).toBe('1.1');
    expect(gpx['@_xmlns']).toBe('http://www.topografix.com/GPX/1/1');
    expect(gpx.trk).toHaveLength(pieces.length);
    const points = gpx.trk[0].trkseg[0].trkpt;
    expect(points[0].time).toBe(pieces[0]!.start_time);
    expect(points.at(-1).time).toBe(pieces[0]!.end_time);
  });

  it('holds a name of any letters', () => {
    const gpx = parsed(gpxText([shape([[position(0, 1, 2), position(1, 1, 2.1)]], '<A & "B">')]));
    expect(gpx.trk[0].name).toBe('<A & "B">');
  });
});

describe('a map', () => {
  it('is refused where there is none to make', async () => {
    expect(await ran(['strokes', WATCH, '--format', 'geojson'])).toMatchObject({ status: 2 });
  });
});
