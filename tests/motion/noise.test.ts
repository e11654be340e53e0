import { describe, expect, it } from 'vitest';
import { smoothTrack } from '../../src/motion/index.js';
import { receiverSpeedSd } from '../../src/motion/noise.js';
import { sectionsOf } from '../../src/motion/section.js';
import { boatOf, type Receiver, type Stretch } from '../accuracy/boats.js';

const SLOW: Receiver = { hz: 1, positionSdM: 0.01, correlationS: 60, whiteSdM: 0.02, speedSdMps: 0.06 };
const PIECE: readonly Stretch[] = [{ restS: 60 }, { rowS: 420, rateSpm: 33, start: true }, { restS: 60 }];
const SEEDS = [1, 2, 3, 4, 5, 6];

describe.each(['forces', 'twin'] as const)('Doppler speed once a second (%s)', (simulator) => {
  const boats = SEEDS.map((seed) => boatOf(simulator, seed, PIECE, [SLOW]));

  it("shows the receiver's own noise at rest, though the stroke is in every sample at way", () => {
    for (const { tracks } of boats) {
      const { position, speed } = tracks[0]!.channels;
      const sd = receiverSpeedSd(sectionsOf(position!, speed!, null).sections[0]!);
      expect(sd).toBeGreaterThan(0.03);
      expect(sd).toBeLessThan(0.11);
    }
  });

  it('makes a piece between two rests no longer than it was', () => {
    const errors = boats.map(({ tracks, alongAt }) => {
      const { track } = smoothTrack(tracks[0]!, { boat: null });
      return track!.distanceM(70, 470)!.value - (alongAt(470) - alongAt(70));
    });
    const meanM = errors.reduce((sum, error) => sum + error, 0) / errors.length;
    expect(Math.abs(meanM)).toBeLessThan(0.4);
  });
});
