/**
 * A length of time as minutes and seconds, or hours, minutes and seconds; rounded once, so that 119.96 s to
 * tenths is 2:00.0 and never 1:60.0.
 * @param seconds length of time, s
 * @param decimals digits after the second
 * @example formatClock(119.96, 1) // '2:00.0'
 */
export const formatClock = (seconds: number, decimals: number): string => {
  const scale = 10 ** decimals;
  const ticks = Math.round(Math.abs(seconds) * scale);
  const sign = seconds < 0 && ticks > 0 ? '-' : '';
  const whole = Math.floor(ticks / scale);
  const fraction = decimals > 0 ? `.${String(ticks % scale).padStart(decimals, '0')}` : '';
  const two = (value: number) => String(value).padStart(2, '0');
  const hours = Math.floor(whole / 3600);
  const minutes = Math.floor((whole % 3600) / 60);
  const head = hours > 0 ? `${hours}:${two(minutes)}` : `${minutes}`;
  return `${sign}${head}:${two(whole % 60)}${fraction}`;
};

/**
 * Read a length of time: `1:50.4`, `1:02:03`, `110`, `110s`, `20min`, `1h`.
 * @returns seconds, or null where the text is none of these
 */
export const parseClock = (text: string): number | null => {
  const trimmed = text.trim();
  const plain = /^(\d+(?:\.\d+)?)\s*(s|min|h)?$/.exec(trimmed);
  if (plain) return Number(plain[1]) * (plain[2] === 'h' ? 3600 : plain[2] === 'min' ? 60 : 1);
  const clock = /^(?:(\d+):)?(\d{1,3}):(\d{2}(?:\.\d+)?)$/.exec(trimmed);
  if (!clock) return null;
  const [hours, minutes, seconds] = [Number(clock[1] ?? 0), Number(clock[2]), Number(clock[3])];
  if (seconds >= 60 || (clock[1] !== undefined && minutes >= 60)) return null;
  return hours * 3600 + minutes * 60 + seconds;
};
