/** One pulse of surge acceleration within a stroke: a bell with flanks of two widths. */
export interface Pulse {
  /** Time of the peak after the stroke's catch, s. */
  readonly atS: number;
  /** Height, m/s², negative for braking. */
  readonly heightMps2: number;
  /** Widths (sd) of the rising and the falling flank, s. */
  readonly riseS: number;
  readonly fallS: number;
}

/** Widths after which a flank is as good as zero. */
const REACH = 4;

/**
 * Add a pulse to a signal on an even grid.
 * @param atS time of the peak on the signal's clock, s
 */
export const addPulse = (signal: Float64Array, stepS: number, atS: number, pulse: Pulse): void => {
  const from = Math.max(0, Math.ceil((atS - REACH * pulse.riseS) / stepS));
  const to = Math.min(signal.length - 1, Math.floor((atS + REACH * pulse.fallS) / stepS));
  for (let i = from; i <= to; i++) {
    const off = i * stepS - atS;
    const scaled = off / (off < 0 ? pulse.riseS : pulse.fallS);
    signal[i] = signal[i]! + pulse.heightMps2 * Math.exp(-0.5 * scaled * scaled);
  }
};
