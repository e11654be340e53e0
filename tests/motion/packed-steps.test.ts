import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  type MotionModel,
  STATE_COUNT as N,
  NOISE,
  NOISE_SIZE,
  STEP,
  STEP_SIZE,
} from '../../src/motion/motion-model.js';
import { covarianceOverStep, informationOverStep, PACKED, ROWS } from '../../src/motion/packed-steps.js';

type Matrix = readonly (readonly number[])[];

const made = (entry: (i: number, j: number) => number): Matrix =>
  Array.from({ length: N }, (_, i) => Array.from({ length: N }, (__, j) => entry(i, j)));
const times = (a: Matrix, b: Matrix): Matrix =>
  made((i, j) => a[i]!.reduce((sum, value, k) => sum + value * b[k]![j]!, 0));
const transposed = (a: Matrix): Matrix => made((i, j) => a[j]![i]!);

/** The matrix of a step as motion-model.ts tells its entries. */
const stepMatrix = (s: Float64Array): Matrix => {
  const [cos, sin, vs] = [s[STEP.cos]!, s[STEP.sin]!, s[STEP.speedSurge]!];
  return [
    [1, 0, s[STEP.eastAlong]!, s[STEP.eastAcross]!, s[STEP.eastSurge]!, 0, 0, 0],
    [0, 1, s[STEP.northAlong]!, s[STEP.northAcross]!, s[STEP.northSurge]!, 0, 0, 0],
    [0, 0, cos, sin, cos * vs, 0, 0, 0],
    [0, 0, -sin, cos, -sin * vs, 0, 0, 0],
    [0, 0, 0, 0, s[STEP.surgeKept]!, 0, 0, 0],
    [0, 0, 0, 0, 0, s[STEP.errorKept]!, 0, 0],
    [0, 0, 0, 0, 0, 0, s[STEP.errorKept]!, 0],
    [0, 0, 0, 0, 0, 0, 0, s[STEP.speedErrorKept]!],
  ];
};

/** Its noise: along the course (p, v, a), across it (p, v), and of the wandering errors of position and speed. */
const noiseMatrix = (q: Float64Array, east: number, north: number): Matrix => {
  const along = [east, north, 1, 0, 1, 0, 0, 0];
  const kinds = ['p', 'p', 'v', 'w', 'a', 'e', 'e', 'd'];
  const alongOf: Readonly<Record<string, number>> = {
    pp: q[NOISE.pp]!,
    pv: q[NOISE.pv]!,
    pa: q[NOISE.pa]!,
    vv: q[NOISE.vv]!,
    va: q[NOISE.va]!,
    aa: q[NOISE.aa]!,
  };
  // Right of the course is east where it leads north.
  const across = [north, -east, 0, 1, 0, 0, 0, 0];
  const acrossOf: Readonly<Record<string, number>> = {
    pp: q[NOISE.acrossPp]!,
    pw: q[NOISE.acrossPv]!,
    ww: q[NOISE.acrossVv]!,
  };
  const both = (of: Readonly<Record<string, number>>, i: number, j: number): number =>
    of[`${kinds[i]}${kinds[j]}`] ?? of[`${kinds[j]}${kinds[i]}`] ?? 0;
  return made(
    (i, j) =>
      along[i]! * along[j]! * both(alongOf, i, j) +
      across[i]! * across[j]! * both(acrossOf, i, j) +
      (i === j && i >= 5 ? q[i === 7 ? NOISE.speedError : NOISE.error]! : 0),
  );
};

const packed = (a: Matrix): Float64Array => {
  const values = new Float64Array(PACKED);
  for (let i = 0; i < N; i++) for (let j = i; j < N; j++) values[ROWS[i]! + j] = a[i]![j]!;
  return values;
};

const numbers = (count: number) =>
  fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: count, maxLength: count });
const drawn = fc.record({
  root: numbers(N * N),
  step: numbers(STEP_SIZE),
  noise: numbers(NOISE_SIZE),
  turn: numbers(1),
});

const near = (found: Float64Array, wanted: Float64Array): void => {
  const size = Math.max(1, ...wanted.map(Math.abs));
  for (const [i, value] of found.entries()) expect(Math.abs(value - wanted[i]!)).toBeLessThan(1e-12 * size);
};

it('takes a covariance over a step as the product of the whole matrices does', () => {
  fc.assert(
    fc.property(drawn, ({ root, step, noise, turn }) => {
      const half = made((i, j) => root[i * N + j]!);
      const p = times(half, transposed(half));
      const [steps, densities] = [Float64Array.from(step), Float64Array.from(noise)];
      const [east, north] = [Math.sin(turn[0]!), Math.cos(turn[0]!)];
      const course = { east: Float64Array.of(east), north: Float64Array.of(north) };
      const found = packed(p);
      covarianceOverStep(found, { steps, noise: densities, course } as unknown as MotionModel, 0);
      const f = stepMatrix(steps);
      const moved = times(times(f, p), transposed(f));
      const q = noiseMatrix(densities, east, north);
      near(found, packed(made((i, j) => moved[i]![j]! + q[i]![j]!)));
    }),
  );
});

it('takes what samples tell back over a step as the product of the whole matrices does', () => {
  fc.assert(
    fc.property(drawn, ({ root, step }) => {
      const half = made((i, j) => root[i * N + j]!);
      const m = times(half, transposed(half));
      const steps = Float64Array.from(step);
      const found = packed(m);
      informationOverStep(found, steps, 0);
      const f = stepMatrix(steps);
      near(found, packed(times(times(transposed(f), m), f)));
    }),
  );
});
