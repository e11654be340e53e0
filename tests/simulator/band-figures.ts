/** Root mean square. */
export const rmsOf = (values: ArrayLike<number>): number => {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]! * values[i]!;
  return Math.sqrt(sum / values.length);
};

/** Complex amplitude of a signal at a frequency over a stretch, by direct sum with a Hann window. */
const partAt = (values: ArrayLike<number>, from: number, to: number, rateHz: number, hz: number) => {
  let [re, im, weight] = [0, 0, 0];
  for (let i = from; i < to; i++) {
    const w = Math.sin((Math.PI * (i - from + 0.5)) / (to - from)) ** 2;
    const angle = (2 * Math.PI * hz * i) / rateHz;
    re += w * values[i]! * Math.cos(angle);
    im -= w * values[i]! * Math.sin(angle);
    weight += w;
  }
  return { re: re / weight, im: im / weight };
};

/** Share of a signal's power between two frequencies, over windows of 40 s. */
export const shareWithin = (
  values: ArrayLike<number>,
  rateHz: number,
  lowHz: number,
  highHz: number,
): number => {
  const size = Math.round(40 * rateHz);
  let [inside, all] = [0, 0];
  for (let from = 0; from + size <= values.length; from += size)
    for (let k = 1; k < 40 * 3; k++) {
      const { re, im } = partAt(values, from, from + size, rateHz, k / 40);
      const power = re * re + im * im;
      all += power;
      if (k / 40 >= lowHz - 1 / 40 && k / 40 <= highHz + 1 / 40) inside += power;
    }
  return inside / all;
};

/** sd / mean of the envelope of a narrow-banded signal about `hz`, looked at over three cycles at a time. */
export const spreadOfEnvelope = (values: ArrayLike<number>, rateHz: number, hz: number): number => {
  const size = Math.round((3 / hz) * rateHz);
  const sizes: number[] = [];
  for (let from = 0; from + size <= values.length; from += size) {
    const { re, im } = partAt(values, from, from + size, rateHz, hz);
    sizes.push(Math.hypot(re, im));
  }
  const mean = sizes.reduce((sum, value) => sum + value, 0) / sizes.length;
  return Math.sqrt(sizes.reduce((sum, value) => sum + (value - mean) ** 2, 0) / sizes.length) / mean;
};
