import { describe, expect, it } from 'vitest';
import { type Scenario, scenario } from '../../src/contract/scenario.js';
import { simulate } from '../../src/simulate/index.js';

const outing: Scenario = {
  craft: '4x',
  seed: 7,
  script: [
    { do: 'rest', time_s: 5 },
    { do: 'start', rate_spm: 34, distance_m: 300 },
    { do: 'rest', time_s: 20 },
    { do: 'repeat', times: 2, script: [{ do: 'row', rate_spm: 20, time_s: 60 }] },
    { do: 'pause', rate_spm: 18, strokes: 5 },
    { do: 'straighten', strokes: 2, back: true },
    { do: 'single', strokes: 2, every_s: 8 },
  ],
  chop: { surge_mps2: 0.2 },
  sensors: { gnss: { hz: 10, speed: true }, imu: { hz: 100, rotation: true, mount: { yaw_deg: 90 } } },
};

describe('simulate', () => {
  it('takes a scenario that its own shape accepts', () => {
    expect(scenario.parse(outing)).toEqual(outing);
  });

  it('gives the same outing for the same start, and another for another', () => {
    const [once, again] = [simulate(outing), simulate(outing)];
    expect(again.truth.catchMarksS).toEqual(once.truth.catchMarksS);
    expect(again.track?.channels.position?.columns).toEqual(once.track?.channels.position?.columns);
    expect(again.imu?.channels.acceleration?.columns).toEqual(once.imu?.channels.acceleration?.columns);
    const other = simulate({ ...outing, seed: 8 });
    expect(other.truth.catchMarksS).not.toEqual(once.truth.catchMarksS);
  });

  it('rows the same strokes whatever is aboard', () => {
    const light = simulate({ ...outing, sensors: { gnss: { hz: 1 } } });
    expect(light.imu).toBeNull();
    expect(light.truth.catchMarksS).toEqual(simulate(outing).truth.catchMarksS);
  });

  it('marks every stroke once, in order, near its catch', () => {
    const { truth } = simulate(outing);
    expect(truth.catchMarksS).toHaveLength(truth.strokes.length);
    for (const [i, mark] of truth.catchMarksS.entries()) {
      if (i > 0) expect(mark).toBeGreaterThan(truth.catchMarksS[i - 1]!);
      expect(Math.abs(mark - truth.strokes[i]!.atS)).toBeLessThan(0.4);
    }
  });
});
