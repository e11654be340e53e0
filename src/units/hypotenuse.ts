/**
 * Length of the hypotenuse, as `Math.hypot` of two values gives it to the last bit where both are finite: scaled by
 * the larger, so that no square overflows. Written out, since `Math.hypot` makes room for any number of values at
 * every call, and this one is called for every sample.
 */
export const hypotenuse = (a: number, b: number): number => {
  const first = Math.abs(a);
  const second = Math.abs(b);
  const larger = Math.max(first, second);
  if (larger === 0) return 0;
  const x = first / larger;
  const y = second / larger;
  return Math.sqrt(x * x + y * y) * larger;
};
