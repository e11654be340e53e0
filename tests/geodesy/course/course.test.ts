import { describe, expect, it } from 'vitest';
import { courseAway, parseCourse } from '../../../src/geodesy/course/course-file.js';
import {
  alongCourse,
  destination,
  finishOf,
  geodesicBetween,
  lineAlong,
  type Place,
  startOf,
  straightCourse,
} from '../../../src/geodesy/index.js';

const START: Place = { latDeg: 47.2, lonDeg: 8.6 };

interface Drawn {
  readonly line?: string;
  readonly along_m?: number;
  readonly role?: string;
  readonly points: readonly Place[];
}

const geoJson = (drawn: readonly Drawn[], swap = false): string =>
  JSON.stringify(
    {
      type: 'FeatureCollection',
      features: drawn.map(({ points, ...properties }) => ({
        type: 'Feature',
        properties,
        geometry: {
          type: 'LineString',
          coordinates: points.map(({ latDeg, lonDeg }) => (swap ? [latDeg, lonDeg] : [lonDeg, latDeg])),
        },
      })),
    },
    null,
    1,
  );

/** A line square to a bearing of 40°, so many metres along it; ends given right to left when turned. */
const across = (alongM: number, turned = false): Place[] => {
  const middle = destination(START, 40, alongM);
  const ends = [destination(middle, -50, 40), destination(middle, 130, 40)];
  return turned ? ends.reverse() : ends;
};

const lines = (finishM = 2000, markM = 1000, statedMarkM = markM): Drawn[] => [
  { line: 'start', points: across(0) },
  { line: 'finish', along_m: finishM, points: across(2000, true) },
  { line: 'mark', along_m: statedMarkM, points: across(markM) },
];

const fault = (text: string): string => {
  try {
    parseCourse(text, 'course.geojson');
  } catch (error) {
    return `${(error as Error).name} ${(error as Error).message}`;
  }
  return 'none';
};

describe('a course', () => {
  const course = parseCourse(geoJson(lines()), 'course.geojson');

  it('has its lines in order, each with left and right as a crew passes it', () => {
    expect(course.lines.map(({ kind, alongM }) => [kind, Math.round(alongM)])).toEqual([
      ['start', 0],
      ['mark', 1000],
      ['finish', 2000],
    ]);
    for (const line of course.lines) {
      expect(line.widthM).toBeCloseTo(80, 3);
      expect(Math.abs(line.headingDeg - 40)).toBeLessThan(0.1);
      expect(geodesicBetween(line.left, line.right).bearingDeg).toBeCloseTo(130, 0);
    }
    expect(finishOf(course).measuredM).toBeCloseTo(2000, 2);
    expect(course.lengthM).toBe(2000);
  });

  it('tells how far along a place lies, and the line there, by the lengths it states', () => {
    const stretched = parseCourse(geoJson(lines(2010, 1000, 1005)), 'course.geojson');
    const place = destination(START, 40, 1500);
    expect(alongCourse(stretched, place, null)!.alongM).toBeCloseTo(1507.5, 1);
    expect(alongCourse(course, destination(START, 40, -30), null)!.alongM).toBeCloseTo(0, 1);
    const { left, right } = lineAlong(course, 1500);
    expect(geodesicBetween(left, place).distanceM).toBeCloseTo(70, 1);
    expect(geodesicBetween(right, place).distanceM).toBeCloseTo(70, 1);
    expect(geodesicBetween(left, right).bearingDeg).toBeCloseTo(130, 0);
  });

  it('follows a centreline, whichever way it was drawn', () => {
    const corner = destination(START, 40, 1200);
    const end = destination(corner, 100, 800);
    const beyond = [destination(START, 40, -20), corner, destination(end, 100, 20)];
    const bent: Drawn[] = [
      { line: 'start', points: across(0) },
      { line: 'finish', along_m: 2000, points: [destination(end, 10, 40), destination(end, 190, 40)] },
    ];
    for (const points of [beyond, [...beyond].reverse()]) {
      const river = parseCourse(geoJson([...bent, { role: 'centreline', points }]), 'river.geojson');
      expect(finishOf(river).measuredM).toBeCloseTo(2000, 1);
      expect(finishOf(river).headingDeg).toBeCloseTo(100, 0);
      expect(alongCourse(river, destination(corner, 100, 300), null)!.alongM).toBeCloseTo(1500, 0);
    }
    expect(fault(geoJson(bent))).toMatch(/finish is 1744 m .* 2000 m by "along_m": .*add a centreline/);
  });

  it('says which line is wrong and what to change', () => {
    expect(fault(geoJson(lines().slice(0, 1)))).toBe(
      'UserError course.geojson has no finish line: give one LineString the property "line": "finish"',
    );
    expect(fault(geoJson([...lines(), lines()[0]!]))).toMatch(
      /line 70: there are 2 lines with "line": "start"/,
    );
    expect(fault(geoJson(lines(2100)))).toMatch(/the finish is 2000 m from the start .* 2100 m by "along_m"/);
    expect(fault(geoJson(lines(2000, 1000, 1300)))).toMatch(/the mark at 1300 m is 1000 m from the start/);
    expect(fault(geoJson(lines(2000, 1000, 2500)))).toMatch(/must lie between the start and the finish/);
    expect(
      fault(geoJson([{ line: 'start', along_m: 3000, points: across(0) }, ...lines().slice(1)])),
    ).toMatch(/the finish is at 2000 m and the start at 3000 m: the start comes first/);
    const aside = [0, 2000].map((alongM) => destination(destination(START, 40, alongM), 130, 300));
    expect(fault(geoJson([...lines(), { role: 'centreline', points: aside }]))).toMatch(
      /does not cross the centreline/,
    );
    expect(fault(geoJson([{ line: 'start', points: across(0).slice(1) }, ...lines().slice(1)]))).toMatch(
      /two points, one on each side of the water, and 1 came/,
    );
    const order = [
      lines()[0]!,
      { line: 'mark', along_m: 500, points: across(1500) },
      lines()[2]!,
      lines()[1]!,
    ];
    const way = { role: 'centreline', points: [destination(START, 40, -50), destination(START, 40, 2100)] };
    expect(fault(geoJson([...order, way]))).toMatch(/marks out of order|1500 m from the start/);
  });

  it('notices latitude and longitude swapped', () => {
    expect(fault(geoJson(lines(), true))).toMatch(/only with latitude and longitude swapped/);
    const southern = lines().map((drawn) => ({
      ...drawn,
      points: drawn.points.map(({ latDeg, lonDeg }) => ({ latDeg: -latDeg + 20, lonDeg: lonDeg + 142 })),
    }));
    expect(fault(geoJson(southern, true))).toMatch(/latitude 150\.\d+ is beyond 90/);
    const away = courseAway(course, { latDeg: 8.61, lonDeg: 47.21 });
    expect(away.swappedM).toBeLessThan(2000);
    expect(away.asWrittenM).toBeGreaterThan(1e6);
  });

  it('is made from two points, with marks every 500 m', () => {
    const finish = destination(START, 40, 2000);
    const straight = straightCourse(`47.2,8.6:${finish.latDeg},${finish.lonDeg}`);
    expect(straight.lines.map(({ kind }) => kind)).toEqual(['start', 'mark', 'mark', 'mark', 'finish']);
    expect(straight.lengthM).toBeCloseTo(2000, 3);
    expect(startOf(straight).widthM).toBeCloseTo(108, 3);
    expect(() => straightCourse('47.2,8.6')).toThrow(/write LAT,LON:LAT,LON/);
    expect(() => straightCourse('47.2,8.6:47.2,8.6')).toThrow(/0\.0 m apart/);
  });
});
