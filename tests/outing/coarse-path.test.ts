import { describe, expect, it } from 'vitest';
import { coarsePath, isWithoutJumps, movingStretches } from '../../src/outing/coarse-path.js';
import { type Channel, makeRecording } from '../../src/recording/index.js';

/** Metres of a degree of longitude on the equator: 111 319.49 (WGS84). */
const M_PER_DEG = 111_319.49;
const FASTEST = { fastestMps: 12, errorM: 6 };

/** Fixes on the equator once a second, across the date line, at places given in metres; NaN: no fix. */
const position = (metres: readonly number[]): Channel => {
  const kept = [...metres.keys()].filter((i) => !Number.isNaN(metres[i]));
  const atS = Float64Array.from(kept);
  const lon = Float64Array.from(kept, (i) => {
    const deg = 179.999 + metres[i]! / M_PER_DEG;
    return deg > 180 ? deg - 360 : deg;
  });
  return makeRecording({
    provenance: { file: 'a.csv', format: 'csv', device: null, sport: null },
    originUnixS: null,
    channels: { position: { atS, columns: [atS.map(() => 0), lon] } },
  }).channels.position!;
};

/** At rest for 30 s, 4 m/s for 60 s, at rest again. */
const row = Array.from({ length: 121 }, (_, s) => 4 * Math.min(60, Math.max(0, s - 30)));

describe('coarsePath', () => {
  it('tells the way step by step, over the date line too, and where the boat moved', () => {
    const way = coarsePath(position(row), 10);
    expect([...way.stepM].map(Math.round)).toEqual([0, 0, 0, 40, 40, 40, 40, 40, 40, 0, 0, 0]);
    expect(movingStretches(way, 1)).toEqual([{ fromS: 30, toS: 90 }]);
  });

  it('counts no way over a gap', () => {
    const way = coarsePath(position(row.map((metres, s) => (s > 45 && s < 66 ? Number.NaN : metres))), 10);
    expect([...way.stepM].map(Math.round)).toEqual([0, 0, 0, 40, 0, 0, 0, 40, 40, 0, 0, 0]);
    expect(movingStretches(way, 1)).toEqual([
      { fromS: 30, toS: 40 },
      { fromS: 70, toS: 90 },
    ]);
  });
});

it('sees a fix that no boat can have come from', () => {
  expect(isWithoutJumps(position(row), FASTEST)).toBe(true);
  expect(isWithoutJumps(position(row.map((metres, s) => (s === 50 ? metres + 25 : metres))), FASTEST)).toBe(
    false,
  );
});
