import { describe, expect, it } from 'vitest';
import { coveredDistance, coveredM, coveredS, isCovered } from '../../src/outing/coverage.js';
import { summarise } from '../../src/outing/summary.js';
import { findPieces } from '../../src/pieces/index.js';
import { evenStrokes, northTrack, outingOf } from './made-up.js';

const track = northTrack(() => 4, 400, { outages: [{ fromS: 100, toS: 160 }] });

describe('what a track tells of a stretch', () => {
  it('leaves out holes and what lies beyond its ends', () => {
    expect(coveredS(track, { fromS: 50, toS: 200 })).toBe(90);
    expect(coveredS(track, { fromS: 350, toS: 500 })).toBe(50);
    expect(coveredM(track, { fromS: 350, toS: 500 })).toBeCloseTo(200, 6);
    expect(isCovered(track, { fromS: 200, toS: 400.5 })).toBe(true);
    expect(coveredDistance(track, { fromS: 200, toS: 400.5 })?.value).toBeCloseTo(800, 6);
    expect(coveredDistance(track, { fromS: 50, toS: 200 })).toBeNull();
    expect(coveredDistance(null, { fromS: 50, toS: 200 })).toBeNull();
  });

  it('is not made up by the summary: speed is over the time that the track tells, and the rest is said', () => {
    const outing = outingOf({ ...track, toS: 300 }, evenStrokes([{ fromS: 200, toS: 400, rateSpm: 30 }]));
    const { row, warnings } = summarise(outing, { pieceCount: null });
    expect(row.rowing_s).toBeCloseTo(200, 6);
    expect(row.distance_m).toBeCloseTo(400, 6);
    expect(row.speed_mps).toBeCloseTo(4, 6);
    expect(warnings.map(({ code }) => code)).toContain('rowing-without-positions');
  });

  it('is asked before a piece is measured', () => {
    const outing = outingOf(
      { ...track, timeAfter: () => null },
      evenStrokes([{ fromS: 20, toS: 380, rateSpm: 30 }]),
    );
    const { pieces, warnings } = findPieces(outing, { kind: 'distance', metres: 1000 });
    expect(pieces).toEqual([]);
    expect(warnings.map(({ code }) => code)).toContain('piece-without-positions');
  });
});

describe('a boat that moved without strokes', () => {
  it('is said to have moved', () => {
    const outing = outingOf(
      northTrack(() => 4, 400),
      evenStrokes([{ fromS: 20, toS: 60, rateSpm: 30 }]),
    );
    const { warnings } = summarise(outing, { pieceCount: null });
    expect(warnings.map(({ code }) => code)).toContain('few-strokes-found');
  });
});
