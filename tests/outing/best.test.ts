import { describe, expect, it } from 'vitest';
import { bestStretches } from '../../src/outing/best.js';
import { northTrack } from './made-up.js';

const rowing = (fromS: number, toS: number) => ({ fromS, toS, strokes: [] });
const surge = (at: number) => (at >= 300 && at < 400 ? 5 : 4);

describe('best stretches', () => {
  it('are the fastest over a distance and the longest over a time', () => {
    const track = northTrack(surge, 1000);
    const [overDistance, overTime] = bestStretches(
      track,
      [rowing(0, 1000)],
      [{ metres: 500 }, { seconds: 100 }],
    );
    expect(overDistance!.fromS).toBeCloseTo(300, 0);
    expect(overDistance!.toS - overDistance!.fromS).toBeCloseTo(100, 1);
    expect(overDistance!.durationSdS).toBe(0.2);
    expect(overTime!.distanceM).toBeCloseTo(500, 0);
    expect(overTime!.fromS).toBeCloseTo(300, 0);
  });

  it('say among how many they were chosen', () => {
    const track = northTrack(() => 4, 1000);
    expect(bestStretches(track, [rowing(0, 1000)], [{ metres: 500 }])[0]!.choices).toBe(8);
  });

  it('never cross a rest or a hole in the track', () => {
    const track = northTrack(surge, 1000);
    expect(bestStretches(track, [rowing(0, 120), rowing(200, 310)], [{ metres: 500 }])).toEqual([]);
    const holed = northTrack(surge, 1000, { outages: [{ fromS: 340, toS: 350 }] });
    const [best] = bestStretches(holed, [rowing(0, 1000)], [{ seconds: 45 }]);
    expect(best!.toS <= 340.01 || best!.fromS >= 350).toBe(true);
    expect(best!.distanceM).toBeGreaterThan(200);
  });
});
