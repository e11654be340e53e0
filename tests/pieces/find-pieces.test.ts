import { describe, expect, it } from 'vitest';
import { findPieces } from '../../src/pieces/index.js';
import { simulate } from '../../src/simulate/index.js';
import { simulateTwin } from '../simulator/twin.js';
import { trueOuting } from './true-outing.js';

/** Both simulators row this: a light row, then six pieces of 2 min at 28 between rests of 40 s. */
const sixPieces = {
  dynamic: () =>
    simulate({
      craft: '2x',
      seed: 3,
      script: [
        { do: 'rest', time_s: 30 },
        { do: 'row', rate_spm: 18, time_s: 480, strength: 0.6, label: 'light' },
        { do: 'rest', time_s: 60 },
        {
          do: 'repeat',
          times: 6,
          script: [
            { do: 'row', rate_spm: 28, time_s: 120, label: 'piece' },
            { do: 'rest', time_s: 40 },
          ],
        },
      ],
      sensors: { gnss: { hz: 10, speed: true } },
    }),
  kinematic: () =>
    simulateTwin({
      seed: 3,
      imu: null,
      script: [
        { restS: 30 },
        { rowS: 480, rateSpm: 18, drill: 'light' },
        { restS: 60 },
        ...Array.from({ length: 6 }, () => [
          { rowS: 120, rateSpm: 28, label: 'piece' },
          { restS: 40 },
        ]).flat(),
      ],
    }),
} as const;

/** 1500 m from a standing start after two bouts of straightening strokes. */
const race = {
  dynamic: () =>
    simulate({
      craft: '2x',
      seed: 5,
      script: [
        { do: 'rest', time_s: 20 },
        { do: 'row', rate_spm: 20, time_s: 300, strength: 0.6 },
        { do: 'rest', time_s: 60 },
        { do: 'straighten', strokes: 3 },
        { do: 'rest', time_s: 15 },
        { do: 'straighten', strokes: 2, back: true },
        { do: 'rest', time_s: 12 },
        { do: 'start', rate_spm: 33, high_spm: 42, distance_m: 1510, label: 'race' },
        { do: 'rest', time_s: 60 },
      ],
      sensors: { gnss: { hz: 10, speed: true } },
    }),
  kinematic: () =>
    simulateTwin({
      seed: 5,
      imu: null,
      script: [
        { restS: 20 },
        { rowS: 300, rateSpm: 20, drill: 'light' },
        { restS: 60 },
        { rowS: 8, rateSpm: 20, drill: 'light' },
        { restS: 15 },
        { rowS: 6, rateSpm: 20, drill: 'back' },
        { restS: 25, holdWater: true },
        { rowS: 340, rateSpm: 33, startSpm: 42, label: 'race' },
        { restS: 60 },
      ],
    }),
} as const;

describe.each(['dynamic', 'kinematic'] as const)(
  'pieces in a %s simulation, motion and strokes perfect',
  (which) => {
    it('are found unaided between rests, after a light row', () => {
      const simulated = sixPieces[which]();
      const { pieces, warnings } = findPieces(trueOuting(simulated), { kind: 'unaided' });
      const wanted = simulated.truth.stretches.filter(({ label }) => label === 'piece');
      expect(pieces).toHaveLength(6);
      pieces.forEach((piece, i) => {
        expect(Math.abs(piece.fromS - wanted[i]!.fromS)).toBeLessThan(4);
        expect(Math.abs(piece.toS - wanted[i]!.toS)).toBeLessThan(4);
      });
      expect(warnings.map(({ code }) => code)).toEqual(['light-rowing-left-out']);
    });

    it('of an asked length are found in spite of straightening strokes', () => {
      const simulated = race[which]();
      const { truth } = simulated;
      const { pieces } = findPieces(trueOuting(simulated), { kind: 'distance', metres: 1500 });
      const begin = truth.stretches.find(({ label }) => label === 'race')!;
      expect(pieces).toHaveLength(1);
      expect(pieces[0]).toMatchObject({ start: 'standing', outcome: 'complete' });
      expect(Math.abs(pieces[0]!.fromS - begin.fromS)).toBeLessThan(1.5);
      const first = truth.catchMarksS.find((atS) => atS > begin.fromS - 1)!;
      expect(Math.abs(pieces[0]!.strokesFromS - first)).toBeLessThan(0.5);
    });
  },
);
