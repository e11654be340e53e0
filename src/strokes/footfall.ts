import { ROWING_SETTINGS } from './rowing-settings.js';

/** What steps show: a hull, or a body, that is walked with goes up and down at an even pace, more than along. */
export interface Footfall {
  /** Likeness of the heave at the rate of steps to itself two to four steps later; 1 at most. */
  readonly steadiness: number;
  /** Power of the heave at the rate of steps / that of the surge there. */
  readonly heaveOverSurge: number;
}

/** What a signal shows about the rate of steps: its bend over half a step to either side, every so many samples. */
const atStepRate = (values: Float64Array, from: number, to: number, rateHz: number): Float64Array => {
  const { halfStepS, stepLooksHz } = ROWING_SETTINGS;
  const reach = Math.round(halfStepS * rateHz);
  const every = Math.max(1, Math.round(rateHz / stepLooksHz));
  const first = Math.max(reach, Math.floor(from));
  const last = Math.min(values.length - 1 - reach, Math.ceil(to));
  const made = new Float64Array(Math.max(0, Math.floor((last - first) / every) + 1));
  for (let k = 0, i = first; k < made.length; k++, i += every)
    made[k] = values[i]! - (values[i - reach]! + values[i + reach]!) / 2;
  return made;
};

/** Correlation of a signal with itself so many samples later. */
const likeness = (values: Float64Array, lag: number): number => {
  let [both, one, other] = [0, 0, 0];
  for (let i = 0; i + lag < values.length; i++) {
    const [here, there] = [values[i]!, values[i + lag]!];
    both += here * there;
    one += here * here;
    other += there * there;
  }
  return one > 0 && other > 0 ? both / Math.sqrt(one * other) : 0;
};

/**
 * What a stretch shows of steps. People walk at 1.6 to 2.2 steps a second (common practice).
 * @param heave upwards, m/s²
 * @param surge along the hull with the waves left in, m/s²
 * @param from first sample
 * @param to last sample
 * @returns null where the stretch is too short to tell, or goes up and down too little to be walked with
 */
export const footfallIn = (
  heave: Float64Array,
  surge: Float64Array,
  from: number,
  to: number,
  rateHz: number,
): Footfall | null => {
  const { stepMarginS, stepLagsS, stepLooksHz, stepBounds } = ROWING_SETTINGS;
  const [first, last] = [from - stepMarginS * rateHz, to + stepMarginS * rateHz];
  const up = atStepRate(heave, first, last, rateHz);
  const along = atStepRate(surge, first, last, rateHz);
  const looksHz = rateHz / Math.max(1, Math.round(rateHz / stepLooksHz));
  const [least, most] = [Math.round(stepLagsS[0] * looksHz), Math.round(stepLagsS[1] * looksHz)];
  if (up.length < 2 * most) return null;
  let [heavePower, surgePower] = [0, 0];
  for (let i = 0; i < up.length; i++) {
    heavePower += up[i]! * up[i]!;
    surgePower += along[i]! * along[i]!;
  }
  const heaveOverSurge = surgePower > 0 ? heavePower / surgePower : 0;
  if (heaveOverSurge < stepBounds[0]) return null;
  let steadiness = -1;
  for (let lag = least; lag <= most; lag++) steadiness = Math.max(steadiness, likeness(up, lag));
  return { steadiness, heaveOverSurge };
};
