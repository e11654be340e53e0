import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeRecording, type RecordingDraft, usualIntervalS } from '../../src/recording/index.js';

const provenance = { file: 'a.gpx', format: 'gpx', device: null, sport: null };
const even = (count: number, stepS: number, fromS = 0) =>
  Float64Array.from({ length: count }, (_, i) => fromS + i * stepS);
const speedLog = (atS: Float64Array, breaksS: number[] = []): RecordingDraft => ({
  provenance,
  originUnixS: 1000,
  channels: { speed: { atS, columns: [new Float64Array(atS.length).fill(4)], breaksS } },
});

describe('makeRecording', () => {
  it('starts its clock at the first sample of any channel and keeps each time base', () => {
    const made = makeRecording({
      provenance,
      originUnixS: 1000,
      channels: {
        speed: { atS: even(11, 1, 20), columns: [new Float64Array(11)] },
        acceleration: {
          atS: even(1001, 0.01, 19.5),
          columns: [0, 0, 9.81].map((value) => new Float64Array(1001).fill(value)),
        },
      },
      laps: [{ fromS: 20, toS: 25 }],
    });
    expect(made.startUnixS).toBe(1019.5);
    expect(made.channels.speed!.atS[0]).toBe(0.5);
    expect(made.channels.acceleration!.atS.length).toBe(1001);
    expect(made.laps).toEqual([{ fromS: 0.5, toS: 5.5 }]);
    expect(made.durationS).toBeCloseTo(10.5, 9);
    expect(made.clock).toBe('utc');
  });

  it('finds missing stretches, and borders of segments however short', () => {
    const missing = makeRecording(speedLog(Float64Array.from([0, 1, 2, 12, 13])));
    expect(missing.channels.speed!.gaps).toEqual([{ fromS: 2, toS: 12, kind: 'missing' }]);
    const broken = makeRecording(speedLog(even(5, 1), [2.5]));
    expect(broken.channels.speed!.gaps).toEqual([{ fromS: 2, toS: 3, kind: 'segment' }]);
    expect(makeRecording(speedLog(even(5, 1))).channels.speed!.gaps).toEqual([]);
  });

  it('is relative without an origin', () => {
    const made = makeRecording({ ...speedLog(even(3, 1)), originUnixS: null });
    expect([made.clock, made.startUnixS]).toEqual(['relative', null]);
  });

  it.each<[string, RecordingDraft]>([
    ['times that do not increase', speedLog(Float64Array.from([0, 1, 1]))],
    ['times that do not increase', speedLog(Float64Array.from([0, Number.NaN, 2]))],
    [
      'unequal length',
      {
        provenance,
        originUnixS: null,
        channels: { speed: { atS: even(3, 1), columns: [new Float64Array(2)] } },
      },
    ],
    [
      'has NaN outside -1 to 60',
      {
        provenance,
        originUnixS: null,
        channels: { speed: { atS: even(1, 1), columns: [Float64Array.of(Number.NaN)] } },
      },
    ],
    ['is empty', speedLog(new Float64Array(0))],
    [
      'has 91 outside -88 to 88',
      {
        provenance,
        originUnixS: null,
        channels: { position: { atS: even(1, 1), columns: [Float64Array.of(91), Float64Array.of(0)] } },
      },
    ],
    [
      'columns',
      {
        provenance,
        originUnixS: null,
        channels: { position: { atS: even(1, 1), columns: [Float64Array.of(1)] } },
      },
    ],
    ['no channel', { provenance, originUnixS: null, channels: {} }],
  ])('refuses %s', (message, draft) => {
    expect(() => makeRecording(draft)).toThrow(message);
  });

  it('takes the usual interval from the median, not the mean', () => {
    expect(usualIntervalS(Float64Array.from([0, 1, 2, 3, 100]))).toBe(1);
    expect(usualIntervalS(Float64Array.of(1))).toBeNull();
  });

  it('takes the median itself, whether a guess hits it or not', () => {
    const step = fc.oneof(fc.constantFrom(0.1, 0.5, 1), fc.double({ min: 1e-3, max: 10, noNaN: true }));
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 40 }), fc.nat(200), (drawn, repeats) => {
        const times = [0];
        for (let round = 0; round <= repeats; round++)
          for (const one of drawn) times.push(times[times.length - 1]! + one);
        const steps = Float64Array.from(times.slice(1), (at, i) => at - times[i]!).sort();
        expect(usualIntervalS(Float64Array.from(times))).toBe(steps[steps.length >> 1]);
      }),
      { numRuns: 300 },
    );
  });
});
