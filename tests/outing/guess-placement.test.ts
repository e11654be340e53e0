import { describe, expect, it } from 'vitest';
import { guessPlacement } from '../../src/outing/guess-placement.js';
import { makeRecording } from '../../src/recording/index.js';
import { simulate } from '../../src/simulate/index.js';
import { simulateTwin } from '../simulator/twin.js';

const RATES = { '1x': 30, '8+': 34, K1: 100, C1: 60, dragon: 80 } as const;

/** Acceleration of a worn sensor: axes in turn up and down, along, across. */
const worn = (move: (atS: number) => readonly [number, number, number]) => {
  const atS = Float64Array.from({ length: 3000 }, (_, i) => i / 25);
  const rows = Array.from(atS, move);
  return makeRecording({
    provenance: { file: 'worn.csv', format: 'csv', device: null, sport: null },
    originUnixS: null,
    channels: {
      acceleration: { atS, columns: [0, 1, 2].map((k) => Float64Array.from(rows, (row) => row[k]!)) },
    },
  });
};
const wave = (amplitude: number, hz: number, atS: number, phase = 0) =>
  amplitude * Math.sin(2 * Math.PI * hz * atS + phase);

describe('the guess where a logger sat', () => {
  it.each(Object.entries(RATES))('knows the hull of a %s of both simulators, in any mount', (craft, rate) => {
    const twin = simulateTwin({
      seed: 2,
      craft: craft as keyof typeof RATES,
      script: [{ restS: 20 }, { rowS: 60, rateSpm: rate * 0.7 }, { restS: 30 }, { rowS: 60, rateSpm: rate }],
      imu: { mount: 'random', gyro: true },
      receiver: null,
    });
    expect(guessPlacement(twin.imu!).placement).toBe('hull');
    const dynamic = simulate({
      craft: craft as keyof typeof RATES,
      seed: 2,
      script: [
        { do: 'rest', time_s: 20 },
        { do: 'row', rate_spm: rate, time_s: 90 },
      ],
      sensors: { imu: { hz: 100, rotation: true, mount: { yaw_deg: 140, roll_deg: 30 } } },
    });
    expect(guessPlacement(dynamic.imu!).placement).toBe('hull');
  });

  it('says that a body does not move like a hull, and how it saw that', () => {
    const swings = worn((at) => [9.8, wave(6, 0.5, at), wave(2, 1, at)]);
    expect(guessPlacement(swings)).toMatchObject({ placement: 'body', why: expect.stringMatching(/shaken/) });
    const walks = worn((at) => [9.8 + wave(3, 1.8, at), wave(1, 0.9, at), wave(0.8, 0.9, at, 1)]);
    expect(guessPlacement(walks)).toMatchObject({
      placement: 'body',
      why: expect.stringMatching(/up and down/),
    });
    const leg = worn((at) => [9.8, wave(2.5, 0.4, at), wave(1.3, 0.4, at, 1.5)]);
    expect(guessPlacement(leg)).toMatchObject({ placement: 'body', why: expect.stringMatching(/swayed/) });
  });

  it('does not guess where there is little to go by', () => {
    expect(guessPlacement(worn(() => [9.8, 0, 0])).placement).toBe('unknown');
    const waves = worn((at) => [9.8 + wave(1.2, 0.6, at), wave(1, 0.6, at), wave(0.3, 0.6, at)]);
    expect(guessPlacement(waves).placement).toBe('unknown');
  });
});
