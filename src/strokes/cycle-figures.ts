import { hann, median } from '../signal/index.js';
import { ROWING_SETTINGS } from './rowing-settings.js';

/** What a few cycles in a row have in common: strokes are made by the same crew, waves are not. */
export interface CycleFigures {
  /** Cycles they are taken from. */
  readonly count: number;
  /** Share of the power beyond the strongest harmonic that keeps its phase from cycle to cycle; 0…1. */
  readonly lockedShare: number;
  /** The same of each such harmonic by itself, on average: weak ones count as much as strong ones. */
  readonly lockedHarmonics: number;
  /** Usual change from one interval to the next: median of |ln ratio|. */
  readonly intervalChange: number;
  /** Power of the heave that goes with the cycle / that of the surge; null where the upright is not known. */
  readonly heaveShare: number | null;
}

const POINTS = ROWING_SETTINGS.points;
const HANN = hann(POINTS);
const COSINE = Float64Array.from({ length: POINTS }, (_, k) => Math.cos((2 * Math.PI * k) / POINTS));
const SINE = Float64Array.from({ length: POINTS }, (_, k) => Math.sin((2 * Math.PI * k) / POINTS));

/** Harmonics of cycles in a row, cycle after cycle: real and imaginary parts. */
interface Harmonics {
  readonly count: number;
  readonly most: number;
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/**
 * Harmonics of each cycle, through a Hann window two cycles long about its middle: what is slower than the cycle
 * leaks little into it.
 * @param places marks in samples of the signal, one more than cycles
 */
const harmonicsOf = (values: Float64Array, places: readonly number[], most: number): Harmonics => {
  const count = places.length - 1;
  const re = new Float64Array(count * most);
  const im = new Float64Array(count * most);
  const look = new Float64Array(POINTS);
  const last = values.length - 2;
  for (let cycle = 0; cycle < count; cycle++) {
    const length = places[cycle + 1]! - places[cycle]!;
    const from = places[cycle]! - length / 2;
    for (let k = 0; k < POINTS; k++) {
      const at = from + (2 * length * k) / POINTS;
      const low = Math.max(0, Math.min(last, Math.floor(at)));
      const share = Math.max(0, Math.min(1, at - low));
      look[k] = HANN[k]! * (values[low]! + share * (values[low + 1]! - values[low]!));
    }
    for (let h = 0; h < most; h++) {
      let [real, imaginary] = [0, 0];
      // two cycles long: the harmonic is the window's own of twice the number
      const step = 2 * (h + 1);
      for (let k = 0, turn = 0; k < POINTS; k++, turn = (turn + step) % POINTS) {
        real += look[k]! * COSINE[turn]!;
        imaginary -= look[k]! * SINE[turn]!;
      }
      re[cycle * most + h] = real / POINTS;
      im[cycle * most + h] = imaginary / POINTS;
    }
  }
  return { count, most, re, im };
};

/** Power of each harmonic, and how much of it keeps its phase. */
interface Power {
  readonly all: Float64Array;
  readonly locked: Float64Array;
}

/**
 * Power that keeps its phase from cycle to cycle: the mean product of different cycles, neighbours left out, for
 * their looks overlap and a narrow band of waves stays with itself for a while. Without bias: 0 on average where
 * cycles have nothing in common.
 */
const powerOf = ({ count, most, re, im }: Harmonics): Power => {
  const all = new Float64Array(most);
  const locked = new Float64Array(most);
  for (let h = 0; h < most; h++) {
    let [real, imaginary, own, near] = [0, 0, 0, 0];
    for (let at = h; at < count * most; at += most) {
      real += re[at]!;
      imaginary += im[at]!;
      own += re[at]! * re[at]! + im[at]! * im[at]!;
      if (at >= most) near += re[at]! * re[at - most]! + im[at]! * im[at - most]!;
    }
    all[h] = own / count;
    locked[h] = (real * real + imaginary * imaginary - own - 2 * near) / ((count - 1) * (count - 2));
  }
  return { all, locked };
};

const sumOf = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0);

/**
 * What cycles in a row have in common.
 * @param band surge, low-passed at 5 Hz, m/s²
 * @param heave the same upwards; null where the upright is not known
 * @param places marks that bound the cycles, in samples, in order
 * @param rateHz rate of both signals
 * @returns null where there are too few cycles to tell
 */
export const cycleFigures = (
  band: Float64Array,
  heave: Float64Array | null,
  places: readonly number[],
  rateHz: number,
): CycleFigures | null => {
  const { leastCycles, bandHz, leastHarmonics, mostHarmonics } = ROWING_SETTINGS;
  const lengths = places.slice(1).map((place, i) => place - places[i]!);
  if (lengths.length < leastCycles) return null;
  const wanted = Math.floor((bandHz * median(lengths)) / rateHz);
  const most = Math.max(leastHarmonics, Math.min(mostHarmonics, wanted));
  const harmonics = harmonicsOf(band, places, most);
  const { all, locked } = powerOf(harmonics);
  const strongest = locked.indexOf(Math.max(...locked));
  let [lockedBeyond, allBeyond, shares] = [0, 0, 0];
  for (let h = 0; h < most; h++) {
    if (h === strongest || all[h] === 0) continue;
    lockedBeyond += locked[h]!;
    allBeyond += all[h]!;
    shares += locked[h]! / all[h]!;
  }
  const changes = lengths.slice(1).map((length, i) => Math.abs(Math.log(length / lengths[i]!)));
  const surgeLocked = sumOf(locked);
  return {
    count: lengths.length,
    lockedShare: allBeyond > 0 ? Math.max(0, lockedBeyond / allBeyond) : 0,
    lockedHarmonics: Math.max(0, shares / (most - 1)),
    intervalChange: median(changes),
    heaveShare:
      heave &&
      Math.max(0, sumOf(powerOf(harmonicsOf(heave, places, most)).locked)) /
        (surgeLocked > 0 ? surgeLocked : sumOf(all)),
  };
};
