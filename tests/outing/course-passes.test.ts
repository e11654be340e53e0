import { describe, expect, it } from 'vitest';
import { settle } from '../../src/contract/decimals.js';
import { piecesResult } from '../../src/contract/pieces.js';
import { straightCourse } from '../../src/geodesy/index.js';
import { coursePasses, courseSections } from '../../src/outing/index.js';
import { piecesResultOf } from '../../src/pieces/index.js';
import {
  courseOf,
  HEADING_DEG,
  outingOf,
  simulateCrew,
  trueCrossingS,
} from '../regatta/simulated-regatta.js';

/** Down a course of 1000 m with a mark at 500, round, back up half of it, a rest, the rest of the way. */
const course = courseOf(1000);
const twin = simulateCrew({
  crew: 'a',
  craft: '2x',
  seed: 11,
  script: [
    { restS: 10, moored: true },
    { rowS: 270, rateSpm: 24, speedMps: 4.2 },
    { restS: 40, turnDeg: 180 },
    { rowS: 170, rateSpm: 20, speedMps: 3.9 },
    { restS: 60, moored: true },
    { rowS: 140, rateSpm: 22, speedMps: 4 },
    { restS: 20 },
  ],
  bowAlongM: -60,
  bowRightM: 0,
  bowOffsetM: 5,
});
const outing = outingOf(twin.track!, '2x', 'a.csv');
const passes = coursePasses({ ...outing, boat: { ...outing.boat, bow_offset_m: 5 } }, course);

describe('passes along a course', () => {
  it('are found both ways, and broken by a rest', () => {
    expect(passes.map(({ direction, passages }) => [direction, passages.map(({ line }) => line)])).toEqual([
      ['with', [0, 1, 2]],
      ['against', [2, 1]],
    ]);
  });

  it('have the times of the bow from line to line', () => {
    const [down] = passes;
    for (const line of [1, 2]) {
      const truth = trueCrossingS(twin, course, line, 5) - trueCrossingS(twin, course, 0, 5);
      expect(Math.abs(down!.passages[line]!.atS - down!.passages[0]!.atS - truth)).toBeLessThan(0.5);
    }
    const [first, second] = [down!.passages[1]!.sinceLastSdS!, down!.passages[2]!.sinceLastSdS!];
    expect(down!.durationSdS).toBeLessThan(Math.hypot(first, second) + 0.1);
    expect(down!.durationSdS).toBeGreaterThan(0.02);
  });

  it('become pieces whose parts are the sections, and rows of the outing', () => {
    const result = piecesResultOf(outing, { kind: 'course', course });
    expect(piecesResult.safeParse(settle(result)).error?.issues).toBeUndefined();
    expect(result.pieces.map(({ course_way, outcome }) => [course_way, outcome])).toEqual([
      ['with', 'complete'],
      ['against', 'stopped_short'],
    ]);
    const [down, up] = result.pieces;
    expect(down!.parts.map(({ to_along_m }) => Math.round(to_along_m!))).toEqual([500, 1000]);
    expect(down!.parts.reduce((sum, part) => sum + part.duration_s, 0)).toBeCloseTo(down!.duration_s, 9);
    expect(Math.abs(down!.heading_deg! - HEADING_DEG)).toBeLessThan(2);
    expect(Math.abs(up!.heading_deg! - HEADING_DEG - 180)).toBeLessThan(3);
    const sections = courseSections(outing, course);
    expect(
      sections.map((row) => [row.course_way, Math.round(row.from_along_m), Math.round(row.to_along_m)]),
    ).toEqual([
      ['with', 0, 500],
      ['with', 500, 1000],
      ['against', 1000, 500],
    ]);
    for (const row of sections) expect(row.speed_mps * row.duration_s).toBeCloseTo(500, 0);
  });

  it('are none, with the reason, where the boat was elsewhere', () => {
    const { pieces, warnings } = piecesResultOf(outing, {
      kind: 'course',
      course: straightCourse('47.3,8.6:47.31,8.6'),
    });
    expect(pieces).toEqual([]);
    expect(warnings.map(({ code }) => code)).toContain('course-not-passed');
  });
});
