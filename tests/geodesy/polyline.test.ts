import { describe, expect, it } from 'vitest';
import { destination, polylineThrough } from '../../src/geodesy/index.js';

const A = { latDeg: 48, lonDeg: 9 };
const B = destination(A, 0, 1000);
const C = destination(B, 90, 500);

describe('a polyline', () => {
  const line = polylineThrough([A, A, B, C])!;

  it('measures along its legs', () => {
    expect(line.lengthM).toBeCloseTo(1500, 6);
    expect(line.vertices.length).toBe(3);
  });

  it('finds the foot of a place on either leg', () => {
    const first = line.footOf(destination(destination(A, 0, 400), 90, 20))!;
    expect(first.alongM).toBeCloseTo(400, 2);
    expect(first.offsetM).toBeCloseTo(20, 2);
    const second = line.footOf(destination(destination(B, 90, 300), 180, 15))!;
    expect(second).toMatchObject({ leg: 1 });
    expect(second.alongM).toBeCloseTo(1300, 2);
  });

  it('looks only where it is told, so a bend does not catch the boat on the wrong reach', () => {
    const inBend = destination(destination(B, 180, 20), 90, 15);
    expect(line.footOf(inBend)!.leg).toBe(0);
    const later = line.footOf(inBend, { fromM: 1100, toM: 1500 })!;
    expect(later.leg).toBe(1);
    expect(later.alongM).toBeCloseTo(1100, 2);
    expect(line.footOf(inBend, { fromM: 1600, toM: 1700 })).toBeNull();
  });

  it('is none through a single place', () => {
    expect(polylineThrough([A, A])).toBeNull();
  });
});
