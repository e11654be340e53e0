/**
 * Second-order Butterworth low-pass run forward and backward, so that no phase is left; the cut-off is that of
 * the two passes together (Winter's correction, 0.802243 on the warped frequency).
 * @param signal evenly sampled
 * @param cutHz frequency at which the amplitude has fallen to 0.707
 */
export const zeroPhaseLowPass = (signal: Float64Array, stepS: number, cutHz: number): Float64Array => {
  const warped = Math.tan(Math.PI * cutHz * stepS) / 0.802243;
  const k = warped * warped;
  const root = Math.SQRT2 * warped;
  const scale = 1 / (1 + root + k);
  const b = k * scale;
  const a1 = 2 * (k - 1) * scale;
  const a2 = (1 - root + k) * scale;
  const pass = (input: Float64Array): Float64Array => {
    const output = new Float64Array(input.length);
    let [x1, x2, y1, y2] = [input[0]!, input[0]!, input[0]!, input[0]!];
    for (let i = 0; i < input.length; i++) {
      const x = input[i]!;
      const y = b * (x + 2 * x1 + x2) - a1 * y1 - a2 * y2;
      output[i] = y;
      x2 = x1;
      x1 = x;
      y2 = y1;
      y1 = y;
    }
    return output.reverse();
  };
  return signal.length === 0 ? signal : pass(pass(signal));
};
