import { describe, expect, it } from 'vitest';
import { bridged, rowingIntervalsOf } from '../../src/outing/rowing-interval.js';
import { evenStrokes, northTrack, outingOf } from './made-up.js';

describe('rowingIntervals', () => {
  it('run from the first catch mark to the end of the last stroke', () => {
    const strokes = evenStrokes([
      { fromS: 10, toS: 70, rateSpm: 20 },
      { fromS: 100, toS: 130, rateSpm: 30 },
    ]);
    expect(rowingIntervalsOf(outingOf(null, strokes))).toMatchObject([
      { fromS: 10, toS: 70 },
      { fromS: 100, toS: 130 },
    ]);
  });

  it('leave out strokes that back the boat', () => {
    const strokes = evenStrokes([{ fromS: 0, toS: 30, rateSpm: 20 }]).map((stroke) => ({
      ...stroke,
      kind: 'backing' as const,
    }));
    expect(rowingIntervalsOf(outingOf(null, strokes))).toEqual([]);
  });

  it('are told from movement where there are no strokes, drifting left out', () => {
    const speed = (at: number) => (at < 100 ? 0.3 : at < 200 ? 4 : at < 203 ? 0 : at < 300 ? 4 : 0.2);
    const rowingIntervals = rowingIntervalsOf(outingOf(northTrack(speed, 400), null))!;
    expect(rowingIntervals).toHaveLength(1);
    expect(rowingIntervals[0]!.fromS).toBeCloseTo(100, 0);
    expect(rowingIntervals[0]!.toS).toBeCloseTo(300, 0);
  });

  it('are not known without strokes and track', () => {
    expect(rowingIntervalsOf(outingOf(null, null))).toBeNull();
  });

  it('are joined over a break too short to be a rest', () => {
    const rowing = (fromS: number, toS: number) => ({ fromS, toS, strokes: [] });
    expect(bridged(null, [rowing(0, 10), rowing(14, 20), rowing(40, 50)])).toEqual([
      rowing(0, 20),
      rowing(40, 50),
    ]);
  });

  it('are joined over a longer break in which the boat kept its way, but not over one in which it lost it', () => {
    const rowingIntervals = [0, 112].map((fromS) => ({ fromS, toS: fromS + 100, strokes: [] }));
    expect(
      bridged(
        northTrack(() => 4, 300),
        rowingIntervals,
      ),
    ).toHaveLength(1);
    const slows = northTrack((at) => (at > 100 && at < 112 ? 2 : 4), 300);
    expect(bridged(slows, rowingIntervals)).toHaveLength(2);
    expect(bridged(null, rowingIntervals)).toHaveLength(2);
  });

  it('do not take moments far apart for stops', () => {
    const sparse = Float64Array.from({ length: 41 }, (_, i) => i * 10);
    const track = northTrack(() => 1, 400, { atS: sparse, speedMps: sparse.map(() => 1) });
    expect(rowingIntervalsOf(outingOf(track, null))).toMatchObject([{ fromS: 0, toS: 400 }]);
    const holed = { ...track, outages: [{ fromS: 100, toS: 200 }] };
    expect(rowingIntervalsOf(outingOf(holed, null))).toMatchObject([{ toS: 100 }, { fromS: 200 }]);
  });
});
