/** A signal with its sign turned. */
export const negated = (values: Float64Array): Float64Array => {
  const made = new Float64Array(values.length);
  for (let i = 0; i < made.length; i++) made[i] = -values[i]!;
  return made;
};
