import { butterworth, zeroPhase } from '../signal/index.js';

/** What is slower than a frequency, Hz, without phase shift; the ends are extended by one period of it. */
export const lowPass = (values: Float64Array, hz: number, gridHz: number): Float64Array =>
  zeroPhase(values, butterworth(2, hz / (gridHz / 2)), Math.round(gridHz / hz));
