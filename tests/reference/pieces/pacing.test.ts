import { describe, expect, it } from 'vitest';
import { openOuting } from '../../../src/outing/index.js';
import { type CurveBlock, curveOf, curveSpeed, findPieces, pieceRow } from '../../../src/pieces/index.js';
import { formatClock } from '../../../src/units/clock-time.js';
import { speedOfSplit, splitOfSpeed } from '../../../src/units/speed.js';
import { evenTimes, straightLog } from '../../motion/made-log.js';

/** Position along a course of 500 m sectors, each at its own even speed, after `beforeS` at the first one's speed. */
const sectorAlong = (speeds: readonly number[], beforeS: number) => (atS: number) => {
  let [leftS, alongM] = [atS - beforeS, speeds[0]! * beforeS];
  for (const speed of speeds) {
    if (leftS <= 500 / speed) return alongM + speed * leftS;
    leftS -= 500 / speed;
    alongM += 500;
  }
  return alongM + speeds.at(-1)! * leftS;
};

describe('the 500 m sectors of a 2000 m race', () => {
  it('come out of a track as they went in: 103.3, 99.0, 98.3 and 99.7 % of the mean speed (Garland 2005, Br. J. Sports Med. 39:39-42)', () => {
    const shares = [103.3, 99.0, 98.3, 99.7];
    const along = sectorAlong(
      shares.map((share) => (5 * share) / 100),
      60,
    );
    const raceS = shares.reduce((sum, share) => sum + 500 / (0.05 * share), 0);
    const log = straightLog({ atS: evenTimes(Math.ceil(raceS) + 120, 5), alongM: along, bearingDeg: 30 });
    const outing = openOuting([log]);
    const { pieces } = findPieces(outing, { kind: 'between', fromS: 60, toS: 60 + raceS });
    const row = pieceRow(outing, pieces[0]!, 1, { by: 'distance', count: 4 });
    // The published figures are rounded, so their sectors make up the mean to 0.04 %.
    const found = row.parts.map(({ speed_mps }) => (100 * speed_mps!) / row.speed_mps!);
    found.forEach((share, i) => {
      expect(Math.abs(share - shares[i]!)).toBeLessThan(0.1);
    });
  });
});

describe('constant work a stroke: speed as the cube root of rate, distance per stroke as rate to the -2/3', () => {
  const rates = [20, 22, 24, 26, 28, 30, 32, 34, 36, 21, 25, 33];
  const curve = curveOf(
    rates.map(
      (rateSpm): CurveBlock => ({
        rateSpm,
        speedMps: speedOfSplit(130) * (rateSpm / 20) ** (1 / 3),
        strokeCount: 8,
      }),
    ),
    'ground',
  );
  if ('why' in curve) throw new Error(curve.why);
  const speed = (rate: number) => curveSpeed(curve, rate)!;

  // Computed from the formula.
  it.each([
    [24, '2:02.33'],
    [30, '1:53.57'],
    [36, '1:46.87'],
  ])('makes of 2:10.0 at 20 spm at %d spm a split of %s', (rate, split) => {
    expect(formatClock(splitOfSpeed(speed(rate)), 2)).toBe(split);
  });

  it('from 20 to 36 spm is 1.21644 of the speed and 0.67580 of the distance per stroke (computed)', () => {
    expect(speed(36) / speed(20)).toBeCloseTo(1.21644, 5);
    expect(speed(36) / 36 / (speed(20) / 20)).toBeCloseTo(0.6758, 5);
  });
});
