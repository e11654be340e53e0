import { describe, expect, it } from 'vitest';
import { findPieces, pieceRow } from '../../src/pieces/index.js';
import { evenStrokes, northTrack, outingOf } from '../outing/made-up.js';

/** Work at 30 and 5 m/s between these moments, at rest else. */
const rowed = (spans: readonly (readonly [number, number])[], endS: number) =>
  outingOf(
    northTrack((atS) => (spans.some(([from, to]) => atS >= from && atS < to) ? 5 : 0), endS),
    evenStrokes(spans.map(([fromS, toS]) => ({ fromS, toS, rateSpm: 30 }))),
  );
const buoy = rowed(
  [
    [30, 250],
    [257, 451],
  ],
  500,
);
const codes = (warnings: readonly { readonly code: string }[]) => warnings.map(({ code }) => code);

describe('a piece that a short stop interrupts', () => {
  it('is one piece, with the stop and its time both ways', () => {
    const { pieces, warnings } = findPieces(buoy, { kind: 'unaided' });
    expect(pieces).toHaveLength(1);
    const row = pieceRow(buoy, pieces[0]!, 1);
    expect(row.duration_s).toBeCloseTo(421, 0);
    expect(row.stopped_s).toBeCloseTo(7, 0);
    expect(row.uninterrupted_s).toBeCloseTo(414, 0);
    expect(row.interruptions).toHaveLength(1);
    expect(row.interruptions[0]).toMatchObject({ kind: 'stop' });
    expect(row.interruptions[0]!.along_m).toBeCloseTo(1100, -1);
    // 30 strokes a minute at 5 m/s, the stop left out
    expect(row.distance_per_stroke_m).toBeCloseTo((60 * 5) / 30, 0);
    expect(codes(warnings)).toContain('piece-interrupted');
  });

  it('is two pieces where the user says that a stop ends one', () => {
    const look = { within: null, longestInterruptionS: 0 };
    expect(findPieces(buoy, { kind: 'unaided' }, look).pieces).toHaveLength(2);
  });

  it('of an asked length is clocked on through the stop', () => {
    const { pieces } = findPieces(buoy, { kind: 'distance', metres: 2000 });
    expect(pieces).toMatchObject([{ outcome: 'complete' }]);
    expect(pieces[0]!.toS - pieces[0]!.fromS).toBeCloseTo(407, 0);
    const timed = findPieces(buoy, { kind: 'time', seconds: 400 }).pieces;
    expect(timed).toMatchObject([{ outcome: 'complete' }]);
    expect(timed[0]!.toS - timed[0]!.fromS).toBe(400);
  });

  it('ends before it where the length is reached before it', () => {
    const { pieces } = findPieces(buoy, { kind: 'distance', metres: 900 });
    expect(pieces).toHaveLength(2);
    expect(pieces.every(({ interruptions }) => interruptions.length === 0)).toBe(true);
  });
});

describe('pieces of one length with short rests', () => {
  const intervals = rowed(
    [0, 1, 2, 3].map((i) => [30 + i * 145, 150 + i * 145] as const),
    700,
  );

  it('stay intervals', () => {
    expect(findPieces(intervals, { kind: 'unaided' }).pieces).toHaveLength(4);
    expect(findPieces(intervals, { kind: 'time', seconds: 120 }).pieces).toHaveLength(4);
  });
});

describe('a piece that was not rowed to its length', () => {
  const strokes = evenStrokes([
    { fromS: 30, toS: 230, rateSpm: 30 },
    { fromS: 230, toS: 430, rateSpm: 20 },
  ]);
  const eased = outingOf(
    northTrack((atS) => (atS < 30 || atS > 430 ? 0 : atS < 230 ? 5 : 3.6), 480),
    strokes,
  );

  it('is eased off where the crew rowed on lightly, and never stopped short', () => {
    const { pieces } = findPieces(eased, { kind: 'distance', metres: 1500 });
    expect(pieces).toMatchObject([{ outcome: 'eased_off' }]);
    expect(pieces[0]!.toS).toBeCloseTo(230, 0);
  });

  it('ends with the log where that was cut off, and keeps its distance', () => {
    const cut = outingOf(
      northTrack((atS) => (atS < 30 ? 0 : 5), 201),
      evenStrokes([{ fromS: 30, toS: 202, rateSpm: 30 }]),
    );
    const { pieces, warnings } = findPieces(cut, { kind: 'unaided' });
    expect(pieceRow(cut, pieces[0]!, 1).distance_m).toBeCloseTo(855, 0);
    expect(codes(warnings)).toContain('log-ends-in-piece');
    expect(findPieces(cut, { kind: 'distance', metres: 1500 }).pieces).toMatchObject([
      { outcome: 'log_ended' },
    ]);
  });
});

describe('pieces between two moments', () => {
  it('are looked for with every way of cutting, work across a moment cut there', () => {
    const look = { within: { fromS: 100, toS: 500 }, longestInterruptionS: 30 };
    const timed = findPieces(buoy, { kind: 'time', seconds: 60 }, look).pieces;
    expect(timed[0]).toMatchObject({ fromS: 100, start: 'rolling', startSdS: 0 });
    const measured = findPieces(buoy, { kind: 'distance', metres: 500 }, look).pieces;
    expect(measured[0]!.fromS).toBe(100);
    expect(measured[0]!.toS).toBeCloseTo(200, 0);
    const { pieces } = findPieces(buoy, { kind: 'unaided' }, { ...look, within: { fromS: 0, toS: 200 } });
    expect(pieces).toMatchObject([{ toS: 200, endSdS: 0 }]);
  });
});
