import { describe, expect, it } from 'vitest';
import { summarise } from '../../src/outing/index.js';
import { evenStrokes, northTrack, outingOf } from './made-up.js';

describe('rate bands', () => {
  it('add up to the strokes, the time and the length rowed', () => {
    const outing = outingOf(
      northTrack((atS) => ((atS >= 30 && atS < 230) || (atS >= 300 && atS < 420) ? 5 : 0), 480),
      evenStrokes([
        { fromS: 30, toS: 230, rateSpm: 30 },
        { fromS: 300, toS: 420, rateSpm: 20 },
      ]),
    );
    const { row } = summarise(outing, { pieceCount: null });
    const sum = (of: (band: (typeof row.rate_bands)[number]) => number | null) =>
      row.rate_bands.reduce((total, band) => total + (of(band) ?? 0), 0);
    expect(sum(({ stroke_count }) => stroke_count)).toBe(row.stroke_count);
    expect(sum(({ rowing_s }) => rowing_s)).toBeCloseTo(row.rowing_s!, 6);
    expect(sum(({ distance_m }) => distance_m)).toBeCloseTo(row.distance_m!, 3);
    expect(row.rowing_s).toBeCloseTo(320, 6);
  });
});
