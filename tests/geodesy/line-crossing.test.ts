import { describe, expect, it } from 'vitest';
import { destination, waterLine } from '../../src/geodesy/index.js';

const A = { latDeg: 48, lonDeg: 9 };

describe('a line across the water', () => {
  it('tells which side a place is on, and how far', () => {
    const line = waterLine(A, destination(A, 90, 100));
    expect(line?.lengthM).toBeCloseTo(100, 6);
    const north = line!.offsetOf(destination(destination(A, 90, 30), 0, 12));
    expect(north.acrossM).toBeCloseTo(-12, 3);
    expect(north.alongM).toBeCloseTo(30, 3);
    expect(line!.offsetOf(destination(A, 180, 7)).acrossM).toBeCloseTo(7, 3);
  });

  it('is none between a place and itself', () => {
    expect(waterLine(A, A)).toBeNull();
  });
});
