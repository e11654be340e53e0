/** Hann window of so many points, periodic: half-overlapped ones add up to 1 (Harris 1978, Proc. IEEE 66:51). */
export const hann = (points: number): Float64Array =>
  Float64Array.from({ length: points }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / points));
