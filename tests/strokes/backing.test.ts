import { describe, expect, it } from 'vitest';
import { smoothTrack, type Track } from '../../src/motion/index.js';
import { makeRecording } from '../../src/recording/index.js';
import { isBacking } from '../../src/strokes/backing.js';
import { detectStrokes } from '../../src/strokes/index.js';
import { simulateTwin } from '../simulator/twin.js';

/** A boat that runs north, lies for a while, moves `wayDeg` slowly from 40 to 60 s, and then runs `thenDeg`. */
const track = (wayDeg: number, thenDeg: number): Track =>
  ({
    speedAt: (at: number) => (at < 30 || at > 70 ? 4 : at > 40 && at < 60 ? 0.8 : 0),
    headingAt: (at: number) => (at < 30 ? 0 : at > 70 ? thenDeg : at > 40 && at < 60 ? wayDeg : null),
  }) as Track;

describe('isBacking', () => {
  it('is a slow way against the way before and after', () => {
    expect(isBacking(track(180, 10), 49, 51)).toBe(true);
    expect(isBacking(track(20, 10), 49, 51)).toBe(false);
    expect(isBacking(track(180, 10), 20, 22)).toBe(false);
  });

  it('does not tell a boat that turns round from one that backs', () => {
    expect(isBacking(track(180, 180), 49, 51)).toBe(false);
  });

  it('is told in a simulated outing, and of no stroke ahead', () => {
    const { imu, track: fixes } = simulateTwin({
      seed: 5,
      craft: '2x',
      script: [
        { restS: 20 },
        { rowS: 60, rateSpm: 22 },
        { restS: 25 },
        { rowS: 24, rateSpm: 20, drill: 'back', label: 'back' },
        { restS: 20 },
        { rowS: 60, rateSpm: 28 },
        { restS: 20 },
      ],
      imu: { rateHz: 50 },
    });
    const recording = makeRecording({
      provenance: fixes!.provenance,
      originUnixS: fixes!.startUnixS,
      channels: { ...fixes!.channels, acceleration: imu!.channels.acceleration! },
    });
    const smoothed = smoothTrack(recording, { boat: null }).track;
    const { strokes } = detectStrokes(recording, smoothed, { craft: '2x', placement: 'hull', boat: null });
    const back = strokes.filter(({ atS }) => atS > 106 && atS < 128);
    expect(back.length).toBeGreaterThan(0);
    expect(back.filter(({ kind }) => kind === 'backing').length).toBe(back.length);
    expect(strokes.filter(({ atS, kind }) => (atS < 100 || atS > 132) && kind === 'backing')).toEqual([]);
  });
});
