import { expect, it } from 'vitest';
import { inspectResultOf, openOuting } from '../../src/outing/index.js';
import { makeRecording } from '../../src/recording/index.js';

const RATE_HZ = 25;
const LENGTH_S = 90;
const PERIOD_S = 2.5;

/** A boat that rows 24 strokes a minute for a minute and a half, and again so many days later. */
const twice = (days: number) => {
  const atS = Float64Array.from({ length: 2 * LENGTH_S * RATE_HZ }, (_, i) => {
    const half = Math.floor(i / (LENGTH_S * RATE_HZ));
    return half * days * 86_400 + (i - half * LENGTH_S * RATE_HZ) / RATE_HZ;
  });
  // A short deep catch and a long drive: no sine, so that its direction can be told.
  const surge = (at: number): number => {
    const phase = (((at % 86_400) / PERIOD_S) % 1) * PERIOD_S;
    return phase < 0.4
      ? -5 * Math.sin((Math.PI * phase) / 0.4)
      : 1.06 * Math.sin((Math.PI * (phase - 0.4)) / 2.1) ** 2;
  };
  return makeRecording({
    provenance: { file: 'weeks.csv', format: 'csv', device: null, sport: null },
    originUnixS: Date.UTC(2026, 4, 3, 7) / 1000,
    channels: { acceleration: { atS, columns: [atS.map(surge), atS.map(() => 0), atS.map(() => 9.81)] } },
  });
};

it.each([7, 700])('finds the strokes of two outings %i days apart in one log, at their own times', (days) => {
  const outing = openOuting([twice(days)], { craft: '1x' });
  const marks = outing.strokes.strokes.map(({ atS }) => atS);
  const [first, second] = [
    marks.filter((at) => at < LENGTH_S + PERIOD_S),
    marks.filter((at) => at >= days * 86_400 - PERIOD_S),
  ];
  expect(first.length + second.length).toBe(marks.length);
  for (const part of [first, second]) {
    expect(part.length).toBeGreaterThanOrEqual(LENGTH_S / PERIOD_S - 2);
    expect(part.length).toBeLessThanOrEqual(LENGTH_S / PERIOD_S + 1);
  }
  expect(inspectResultOf(outing).recordings[0]!.channels[0]!.longest_gap_s).toBeGreaterThan(days * 86_000);
});
