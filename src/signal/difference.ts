/** One signal less another, sample by sample. @param less as long as `values` */
export const difference = (values: Float64Array, less: Float64Array): Float64Array => {
  const made = new Float64Array(values.length);
  for (let i = 0; i < made.length; i++) made[i] = values[i]! - less[i]!;
  return made;
};
