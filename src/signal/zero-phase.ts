import type { Filter } from './butterworth.js';

/** One pass in place, direct form II transposed, started as if the first value had always stood. */
const pass = (values: Float64Array, { b, a }: Filter, backward: boolean): void => {
  const order = a.length - 1;
  const count = values.length;
  let top = 0;
  let bottom = 0;
  for (let i = 0; i <= order; i++) {
    top += b[i]!;
    bottom += a[i]!;
  }
  const gain = top / bottom;
  const first = values[backward ? count - 1 : 0]!;
  const state = new Float64Array(order + 1);
  for (let i = order - 1; i >= 0; i--) state[i] = state[i + 1]! + first * (b[i + 1]! - a[i + 1]! * gain);
  if (order === 2) {
    passOfTwo(values, b, a, state, backward);
    return;
  }
  for (let k = 0; k < count; k++) {
    const at = backward ? count - 1 - k : k;
    const x = values[at]!;
    const y = b[0]! * x + state[0]!;
    for (let i = 0; i < order; i++) state[i] = state[i + 1]! + b[i + 1]! * x - a[i + 1]! * y;
    values[at] = y;
  }
};

/** The same for two poles, the usual case, without inner loops. */
const passOfTwo = (
  values: Float64Array,
  b: Float64Array,
  a: Float64Array,
  state: Float64Array,
  backward: boolean,
): void => {
  const count = values.length;
  const b0 = b[0]!;
  const b1 = b[1]!;
  const b2 = b[2]!;
  const a1 = a[1]!;
  const a2 = a[2]!;
  let first = state[0]!;
  let second = state[1]!;
  const step = backward ? -1 : 1;
  for (let k = 0, at = backward ? count - 1 : 0; k < count; k++, at += step) {
    const x = values[at]!;
    const y = b0 * x + first;
    first = second + b1 * x - a1 * y;
    second = b2 * x - a2 * y;
    values[at] = y;
  }
};

/**
 * A signal filtered forward and backward: no phase shift, the amplitude response squared. The ends are
 * extended by the signal turned about its end points.
 * @param values evenly sampled signal
 * @param filter see `butterworth`
 * @param pad samples of extension at each end; long filters need about one over their cut-off share
 */
export const zeroPhase = (values: Float64Array, filter: Filter, pad = 3 * filter.a.length): Float64Array => {
  const count = values.length;
  const reach = Math.min(pad, count - 1);
  if (reach < 1) return values.slice();
  const long = new Float64Array(count + 2 * reach);
  for (let i = 0; i < reach; i++) {
    long[i] = 2 * values[0]! - values[reach - i]!;
    long[reach + count + i] = 2 * values[count - 1]! - values[count - 2 - i]!;
  }
  long.set(values, reach);
  pass(long, filter, false);
  pass(long, filter, true);
  return long.subarray(reach, reach + count);
};
