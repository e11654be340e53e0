import { expect, it } from 'vitest';
import { piecesResultOf } from '../../src/pieces/index.js';
import { evenStrokes, northTrack, outingOf } from '../outing/made-up.js';

const WITHIN = { kind: 'between', fromS: 20, toS: 120 } as const;

const pieceWith = (bridges: readonly { readonly fromS: number; readonly toS: number }[]) =>
  piecesResultOf(
    outingOf(
      northTrack(() => 5, 200, { bridges }),
      evenStrokes([{ fromS: 20, toS: 180, rateSpm: 20 }]),
    ),
    WITHIN,
    { by: 'time', count: 2 },
  ).pieces[0]!;

it('says how much of a piece and of each part was bridged between fixes', () => {
  const bridged = pieceWith([
    { fromS: 10, toS: 25 },
    { fromS: 60, toS: 80 },
  ]);
  expect(bridged.bridged_s).toBeCloseTo(25, 6);
  expect(bridged.parts.map(({ bridged_s }) => bridged_s)).toEqual([15, 10]);
});

it('says 0 where there are fixes throughout', () => {
  const whole = pieceWith([]);
  expect(whole.bridged_s).toBe(0);
  expect(whole.parts.map(({ bridged_s }) => bridged_s)).toEqual([0, 0]);
});
