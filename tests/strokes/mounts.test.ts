import { describe, expect, it } from 'vitest';
import type { Channel } from '../../src/recording/index.js';
import { mountSpans, spanOf } from '../../src/strokes/mounts.js';
import { drawnOuting, drawnScore } from '../accuracy/drawn-outings.js';

/** An accelerometer at 20 Hz that shows gravity along `upAt`, and a shake along x. */
const channelOf = (seconds: number, upAt: (atS: number) => readonly [number, number, number]): Channel => {
  const atS = Float64Array.from({ length: 20 * seconds }, (_, i) => i / 20);
  const columns = [0, 1, 2].map((axis) =>
    atS.map((at) => 9.8 * upAt(at)[axis]! + (axis === 0 ? 2 * Math.sin(3 * at) : 0)),
  );
  return { name: 'acceleration', atS, columns, gaps: [{ fromS: 10, toS: 10.05, kind: 'missing' }] };
};

describe('mountSpans', () => {
  it('is one span for a sensor that stays as it is', () => {
    const channel = channelOf(300, () => [0, 0, 1]);
    expect(mountSpans(channel)).toEqual([{ from: 0, to: 6000 }]);
  });

  it('parts a log where the sensor was put back another way round', () => {
    const channel = channelOf(300, (at) => (at < 120 ? [0, 0, 1] : [0, 0.6, 0.8]));
    const spans = mountSpans(channel);
    expect(spans.length).toBe(2);
    expect(Math.abs(spans[0]!.to / 20 - 120)).toBeLessThanOrEqual(5);
    expect(Math.abs(spans[1]!.from / 20 - 120)).toBeLessThanOrEqual(5);
  });

  it('lets a hull heel, and a body turn as it likes', () => {
    expect(mountSpans(channelOf(300, (at) => [0, Math.sin(0.1 * Math.sin(at / 9)), 1])).length).toBe(1);
    expect(mountSpans(channelOf(300, (at) => [0, Math.sin(at / 7), Math.cos(at / 7)])).length).toBe(1);
  });

  it('cuts samples and gaps to a span', () => {
    const span = spanOf(
      channelOf(60, () => [0, 0, 1]),
      { from: 300, to: 400 },
    );
    expect(span.atS.length).toBe(100);
    expect(span.gaps).toEqual([]);
  });

  it.each([1, 11])('keeps the strokes of outing %i, whose sensor was turned half-way', (seed) => {
    const { f1, warnings } = drawnScore(drawnOuting(seed, 'twin', { remounted: true }));
    expect(warnings).toContain('sensor-moved');
    expect(f1).toBeGreaterThan(0.99);
  });
});
