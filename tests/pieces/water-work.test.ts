import { describe, expect, it } from 'vitest';
import { openOuting } from '../../src/outing/index.js';
import { findPieces, pieceRow } from '../../src/pieces/index.js';
import { simulate } from '../../src/simulate/index.js';

const STREAM = { speedMps: 1, toDeg: 40 };

/** Two pieces down a stream of 1 m/s and, turned round, two up it, in a watch without a cadence. */
const outing = (stream: typeof STREAM | undefined) => {
  const { track } = simulate({
    craft: '2x',
    seed: 5,
    path: { kind: 'out_and_back', heading_deg: 40, leg_m: 1500 },
    stream: { mps: STREAM.speedMps, to_deg: STREAM.toDeg },
    script: [
      { do: 'rest', time_s: 30 },
      {
        do: 'repeat',
        times: 4,
        script: [
          { do: 'row', rate_spm: 28, time_s: 200 },
          { do: 'rest', time_s: 60 },
        ],
      },
    ],
    sensors: { gnss: { hz: 1, speed: true } },
  });
  return openOuting([track!], { craft: '2x', ...(stream ? { stream } : {}) });
};

describe('work against a stream that is given', () => {
  it('is as hard as work with it, and no boat adrift rows', () => {
    const given = outing(STREAM);
    const { pieces } = findPieces(given, { kind: 'unaided' });
    expect(pieces).toHaveLength(4);
    const rows = pieces.map((piece, i) => pieceRow(given, piece, i + 1));
    expect(rows.every(({ speed_over }) => speed_over === 'water')).toBe(true);
    const speeds = rows.map(({ speed_mps }) => speed_mps!);
    expect(Math.max(...speeds) / Math.min(...speeds)).toBeLessThan(1.03);
    // over ground the distances differ by about 2 m/s over 200 s
    const metres = rows.map(({ distance_m }) => distance_m!);
    expect(Math.max(...metres) - Math.min(...metres)).toBeGreaterThan(300);
  });
});
