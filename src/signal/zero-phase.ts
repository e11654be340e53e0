import type { Filter } from './butterworth.js';

/** One pass in place, direct form II transposed, started as if the first value had always stood. */
const pass = (values: Float64Array, { b, a }: Filter, backward: boolean): void => {
  const order = a.length - 1;
  const count = values.length;
  let [top, bottom] = [0, 0];
  for (let i = 0; i <= order; i++) {
    top += b[i]!;
    bottom += a[i]!;
  }
  const gain = top / bottom;
  const first = values[backward ? count - 1 : 0]!;
  const state = new Float64Array(order + 1);
  for (let i = order - 1; i >= 0; i--) state[i] = state[i + 1]! + first * (b[i + 1]! - a[i + 1]! * gain);
  for (let k = 0; k < count; k++) {
    const at = backward ? count - 1 - k : k;
    const x = values[at]!;
    const y = b[0]! * x + state[0]!;
    for (let i = 0; i < order; i++) state[i] = state[i + 1]! + b[i + 1]! * x - a[i + 1]! * y;
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
  return long.slice(reach, reach + count);
};
