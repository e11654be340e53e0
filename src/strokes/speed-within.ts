/**
 * Hull speed within a stroke, m/s, sample by sample from the first sample at or after its mark to the last at or
 * before its end: the surge integrated, its drift taken out so that the mean is the track's and the change from
 * end to end is what the neighbouring strokes' means show.
 * @param surge m/s², forward positive
 * @param from mark, in samples
 * @param to next mark, in samples
 * @param meanMps mean speed of the stroke, from the track
 * @param changeMps see {@link speedChange}
 */
export const speedWithin = (
  surge: Float64Array,
  from: number,
  to: number,
  rateHz: number,
  meanMps: number,
  changeMps: number,
): Float64Array => {
  const first = Math.ceil(from);
  const last = Math.floor(to);
  const speed = new Float64Array(last - first + 1);
  for (let i = 1; i < speed.length; i++)
    speed[i] = speed[i - 1]! + (0.5 * (surge[first + i - 1]! + surge[first + i]!)) / rateHz;
  const drift = changeMps - speed[speed.length - 1]!;
  let sum = 0;
  for (let i = 0; i < speed.length; i++) {
    speed[i] = speed[i]! + (drift * i) / Math.max(1, speed.length - 1);
    sum += speed[i]!;
  }
  const shift = meanMps - sum / speed.length;
  for (let i = 0; i < speed.length; i++) speed[i] = speed[i]! + shift;
  return speed;
};

/**
 * Change of speed over a stroke, m/s, as the mean speeds of its neighbours show it; 0 where it has none.
 * @param index of the stroke
 * @param marksS catch marks, s
 * @param endsS next catch mark of each; null for the last before a stop
 * @param speedsMps mean speed of each; null where it is not known
 */
export const speedChange = (
  index: number,
  marksS: readonly number[],
  endsS: readonly (number | null)[],
  speedsMps: readonly (number | null)[],
): number => {
  const mean = speedsMps[index] ?? null;
  if (mean === null) return 0;
  const before = index > 0 && endsS[index - 1] === marksS[index] ? (speedsMps[index - 1] ?? mean) : null;
  const after = endsS[index] === marksS[index + 1] ? (speedsMps[index + 1] ?? null) : null;
  if (before !== null && after !== null) return (after - before) / 2;
  if (after !== null) return after - mean;
  return before === null ? 0 : mean - before;
};
