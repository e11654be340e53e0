import { describe, expect, it } from 'vitest';
import { parseCourse } from '../../../src/geodesy/course/course-file.js';
import { destination, type Place } from '../../../src/geodesy/index.js';

const START: Place = { latDeg: 47.2, lonDeg: 8.6 };
const across = (alongM: number): Place[] => {
  const middle = destination(START, 40, alongM);
  return [destination(middle, -50, 40), destination(middle, 130, 40)];
};
const LINES = [
  { name: 'Start', line: 'start', points: across(0) },
  { name: '500 m', line: 'mark', along_m: 500, points: across(500) },
  { name: 'Finish', line: 'finish', along_m: 1000, points: across(1000) },
];
const CENTRE = [-100, 300, 700, 1100].map((alongM) =>
  alongM < 0 ? destination(START, 220, -alongM) : destination(START, 40, alongM),
);

const pairs = (points: readonly Place[], height: number[] = []) =>
  points.map(({ latDeg, lonDeg }) => [lonDeg, latDeg, ...height]);

const geoJson = (shape: (points: readonly Place[]) => unknown, more: object = {}): string =>
  JSON.stringify({
    type: 'FeatureCollection',
    ...more,
    features: [
      { type: 'Feature', properties: { name: 'the boathouse' }, geometry: null },
      ...LINES.map(({ points, ...properties }) => ({ type: 'Feature', properties, geometry: shape(points) })),
    ],
  });

const kml = (
  inside: (line: (typeof LINES)[number]) => string,
): string => `<?xml version="1.0" encoding="UTF-8"?>
<kml xmlns="http://www.opengis.net/kml/2.2"><Document><Folder><Folder>
${LINES.map(
  (line) => `<Placemark>${inside(line)}<LineString><coordinates>
${pairs(line.points, [0])
  .map((tuple) => tuple.join(','))
  .join('\n')}
</coordinates></LineString></Placemark>`,
).join('\n')}
</Folder></Folder></Document></kml>`;

const plain = parseCourse(
  geoJson((points) => ({ type: 'LineString', coordinates: pairs(points) })),
  'course',
);

describe('a course', () => {
  it.each([
    ['heights', geoJson((points) => ({ type: 'LineString', coordinates: pairs(points, [412.5]) }))],
    [
      'lines in several parts, of which there is one',
      geoJson((points) => ({ type: 'MultiLineString', coordinates: [pairs(points)] })),
    ],
    [
      'a coordinate system that is the usual one',
      geoJson((points) => ({ type: 'LineString', coordinates: pairs(points) }), {
        crs: { type: 'name', properties: { name: 'urn:ogc:def:crs:OGC:1.3:CRS84' } },
      }),
    ],
    ['placemarks with names, in KML', kml(({ name }) => `<name>${name}</name>`)],
    [
      'placemarks with data fields, in KML',
      kml(
        ({ line, along_m }) =>
          `<ExtendedData><Data name="line"><value>${line}</value></Data>${along_m === undefined ? '' : `<Data name="along_m"><value>${along_m}</value></Data>`}</ExtendedData>`,
      ),
    ],
  ])('is the same with %s', (_, text) => {
    const course = parseCourse(text, 'course');
    expect(course.lines.map(({ kind, alongM, left }) => [kind, Math.round(alongM * 1000), left])).toEqual(
      plain.lines.map(({ kind, alongM, left }) => [kind, Math.round(alongM * 1000), left]),
    );
  });

  it.each([
    [
      'another coordinate system',
      geoJson((points) => ({ type: 'LineString', coordinates: pairs(points) }), {
        crs: { type: 'name', properties: { name: 'EPSG:2056' } },
      }),
      /course, line 1: its coordinates are in EPSG:2056: save the course with longitude and latitude on WGS84/,
    ],
    [
      'a line in two parts',
      geoJson((points) => ({ type: 'MultiLineString', coordinates: [pairs(points), pairs(points)] })),
      /MultiLineString of 2 lines: keep one of them, or join them to one/,
    ],
    ['a line without geometry', geoJson(() => null), /it has no geometry: draw it as a LineString/],
    [
      'KML without lines',
      '<kml><Document><Placemark><name>x</name></Placemark></Document></kml>',
      /holds no LineString/,
    ],
    ['XML that is cut off', kml(() => '').slice(0, 300), /course, line \d+: this is no whole XML/],
  ])('with %s is refused with what to do', (_, text, message) => {
    expect(() => parseCourse(text, 'course')).toThrow(message);
  });

  const gpx = (line: string, point: string, time = ''): string =>
    `<gpx><${line === 'rte' ? 'rte' : 'trk><trkseg'}>${CENTRE.map(({ latDeg, lonDeg }) => `<${point} lat="${latDeg}" lon="${lonDeg}">${time}</${point}>`).join('')}</${line === 'rte' ? 'rte' : 'trkseg></trk'}></gpx>`;

  it.each([
    ['a GPX route', gpx('rte', 'rtept')],
    ['a GPX track without times', gpx('trkseg', 'trkpt')],
    ['a GPX track with times', gpx('trkseg', 'trkpt', '<time>2026-05-02T06:00:00Z</time>')],
    [
      'a KML line',
      `<kml><Placemark><LineString><coordinates>${pairs(CENTRE)
        .map((pair) => pair.join(','))
        .join(' ')}</coordinates></LineString></Placemark></kml>`,
    ],
  ])('follows a centreline from %s', (_, text) => {
    const lines = geoJson((points) => ({ type: 'LineString', coordinates: pairs(points) }));
    const course = parseCourse(lines, 'course', { text, name: 'river' });
    expect(course.hasCentreline).toBe(true);
    expect(course.axis.vertices).toHaveLength(CENTRE.length);
    expect(course.lengthM).toBe(1000);
  });

  it.each([
    [
      'of points alone',
      '<gpx><wpt lat="1" lon="2"/></gpx>',
      /river holds no route, track or line of two points/,
    ],
    [
      'off the Earth',
      gpx('rte', 'rtept').replace('lat="47', 'lat="147'),
      /river, point \d: this is no place on the Earth/,
    ],
    [
      'in another format',
      'lat,lon\n1,2\n',
      /river is no centreline: give a GPX route or track, or a KML line/,
    ],
  ])('says what is wrong with a centreline %s', (_, text, message) => {
    const lines = geoJson((points) => ({ type: 'LineString', coordinates: pairs(points) }));
    expect(() => parseCourse(lines, 'course', { text, name: 'river' })).toThrow(message);
  });
});
