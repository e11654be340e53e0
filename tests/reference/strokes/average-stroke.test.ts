import { describe, expect, it } from 'vitest';
import { averageResultOf } from '../../../src/outing/index.js';
import { hullOuting, simulatedHull } from '../../outing/simulated-hull.js';

// By the simulator with forces alone: the other one prescribes the shape of its strokes.
describe('the average stroke of an eight at race rate', () => {
  const legs = [{ restS: 25 }, { rowS: 90, rateSpm: 38 }, { restS: 15 }];
  const [band] = averageResultOf(
    hullOuting(simulatedHull({ simulator: 'forces', craft: '8+', legs }), '8+'),
    [5],
  ).bands;
  const speeds = band!.cycle.map((point) => point.hull_speed_mps!);
  const phaseOf = (value: number) => band!.cycle[speeds.indexOf(value)]!.phase_pct;

  // Martin & Bernfield 1980 (Olympic eight, 37 to 41 spm): slowest about 27 % into the leg drive, fastest in the
  // middle of the recovery. The leg drive is the first half or so of a drive of 45 to 50 % of the cycle
  // (common practice), so the slowest moment lies some 5 to 12 % after the catch.
  it('is slowest early in the drive', () => {
    expect(phaseOf(Math.min(...speeds))).toBeGreaterThanOrEqual(4);
    expect(phaseOf(Math.min(...speeds))).toBeLessThanOrEqual(14);
  });

  it('is fastest in the recovery', () => {
    expect(phaseOf(Math.max(...speeds))).toBeGreaterThan(50);
    expect(phaseOf(Math.max(...speeds))).toBeLessThan(92);
  });

  // Physics Today 2017; de Brouwer et al. 2013: speed fluctuates by about 20 % of the mean.
  it('fluctuates by a fifth or so of its mean', () => {
    const swing = (Math.max(...speeds) - Math.min(...speeds)) / band!.speed_mps!;
    expect(swing).toBeGreaterThan(0.15);
    expect(swing).toBeLessThan(0.45);
  });
});
