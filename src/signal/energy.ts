/** Sum of the squares of samples `from` up to, not including, `to`. */
export const energyOf = (values: Float64Array, from = 0, to = values.length): number => {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i]! * values[i]!;
  return sum;
};

/** Mean of the squares of at least one sample. */
export const meanSquare = (values: Float64Array): number => energyOf(values) / values.length;
