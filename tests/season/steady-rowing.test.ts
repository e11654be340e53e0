import { expect, it } from 'vitest';
import { steadyRowing } from '../../src/season/steady-rowing.js';
import { evenStrokes, northTrack, outingOf } from '../outing/made-up.js';

it('counts work at a rate that bounds two bands in the upper one, though its strokes come a little below', () => {
  const runs = [17.8, 18.2, 17.9, 18.1].map((rateSpm, i) => ({
    ...{ fromS: 20 + 120 * i, toS: 140 + 120 * i },
    rateSpm,
  }));
  const outing = outingOf(
    northTrack((atS) => (atS > 20 && atS < 500 ? 4 : 0), 520),
    evenStrokes(runs),
  );
  const bands = steadyRowing(outing, [18, 22]);
  expect(bands.map(({ from_spm, to_spm }) => [from_spm, to_spm])).toEqual([[18, 22]]);
  expect(bands[0]!.rate_spm).toBeCloseTo(18, 1);
  expect(bands[0]!.speed_mps).toBeCloseTo(4, 2);
});
