import { describe, expect, it } from 'vitest';
import { waterDistanceM } from '../../src/outing/water-distance.js';
import { northTrack } from './made-up.js';

describe('distance through the water', () => {
  const track = northTrack(() => 4, 300);
  const within = { fromS: 10, toS: 260 };

  it('is longer against the stream and shorter with it', () => {
    expect(waterDistanceM(track, within, { speedMps: 0.5, toDeg: 180 })).toBeCloseTo(4.5 * 250, 6);
    expect(waterDistanceM(track, within, { speedMps: 0.5, toDeg: 0 })).toBeCloseTo(3.5 * 250, 6);
    expect(waterDistanceM(track, within, { speedMps: 3, toDeg: 90 })).toBeCloseTo(5 * 250, 6);
  });

  it('gives out and back in a steady stream one speed (1000 m legs, 4.5 m/s, stream 0.5)', () => {
    const back = northTrack((at) => (at < 250 ? 4 : 5), 450, { headingAt: (at) => (at < 250 ? 0 : 180) });
    const stream = { speedMps: 0.5, toDeg: 180 };
    const legs = [
      { fromS: 0, toS: 249.9 },
      { fromS: 250.1, toS: 450 },
    ].map((leg) => waterDistanceM(back, leg, stream)! / (leg.toS - leg.fromS));
    for (const speed of legs) expect(speed).toBeCloseTo(4.5, 3);
  });

  it('is not known beyond the track or over a hole in it', () => {
    const stream = { speedMps: 0.5, toDeg: 0 };
    expect(waterDistanceM(track, { fromS: 0, toS: 301 }, stream)).toBeNull();
    const holed = northTrack(() => 4, 300, { outages: [{ fromS: 50, toS: 60 }] });
    expect(waterDistanceM(holed, within, stream)).toBeNull();
  });
});
