/** Value of an evenly sampled signal between its samples; its ends hold outside. */
export const valueAt = (signal: Float64Array, stepS: number, atS: number): number => {
  const position = atS / stepS;
  if (position <= 0) return signal[0]!;
  const i = Math.floor(position);
  if (i >= signal.length - 1) return signal[signal.length - 1]!;
  const share = position - i;
  return signal[i]! * (1 - share) + signal[i + 1]! * share;
};
