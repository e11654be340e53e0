import type { DrawnMoment, DrawnStep } from '../contract/drawn.js';
import { type Place, stepBetween } from '../geodesy/index.js';
import { type Interval, lengthBetween } from '../motion/index.js';
import { heartRateWithin } from './heart-rate.js';
import type { Outing } from './outing.js';
import { stretchOf, strokesWithin } from './stretch.js';
import { waterDistanceM } from './water-distance.js';

/** How finely an outing is drawn. */
export const MOMENT_SETTINGS = Object.freeze({
  /** Seconds that one moment stands for where there are no strokes; 2 to 5: about a stroke. */
  betweenS: 4,
  /** A rest between strokes shorter than this has no moment of its own, s; 0.5 to 2. */
  leastS: 1,
  /** A table of an outing has at most so many steps; 20 to 40: a page. */
  mostSteps: 30,
  /** Lengths of a step, s: round ones. */
  stepsS: [60, 120, 300, 600, 900, 1800, 3600],
});

/** Times that are one but for their last digits, s. */
const ROUNDING_S = 1e-6;

/** A stretch of time cut into equal ones of about the same length. */
const cut = ({ fromS, toS }: Interval): Interval[] => {
  const lengthS = toS - fromS;
  if (lengthS < MOMENT_SETTINGS.leastS) return [];
  const count = Math.max(1, Math.round(lengthS / MOMENT_SETTINGS.betweenS));
  return Array.from({ length: count }, (_, i) => ({
    fromS: fromS + (i * lengthS) / count,
    toS: fromS + ((i + 1) * lengthS) / count,
  }));
};

/** Strokes that have a rate, and the rests between them in equal shares, in order. */
const sharesOf = (
  outing: Outing,
  within: Interval,
  strokesFromS: number,
): (Interval & { readonly rateSpm: number | null })[] => {
  const shares: (Interval & { readonly rateSpm: number | null })[] = [];
  let freeS = within.fromS;
  const rest = (untilS: number) => {
    for (const share of cut({ fromS: freeS, toS: untilS })) shares.push({ ...share, rateSpm: null });
  };
  for (const { atS, rateSpm } of strokesWithin(outing, { fromS: strokesFromS, toS: within.toS })) {
    if (rateSpm === null) continue;
    const fromS = Math.max(atS, freeS);
    const toS = atS + 60 / rateSpm;
    if (toS <= fromS) continue;
    rest(fromS);
    freeS = toS;
    // A share of a stroke has a speed of its own, of the drive or of the glide: it would stand out for nothing.
    if (toS <= within.toS + ROUNDING_S) shares.push({ fromS, toS: Math.min(toS, within.toS), rateSpm });
  }
  rest(within.toS);
  return shares;
};

const wayFrom = (origin: Place, place: Place): Pick<DrawnMoment, 'east_m' | 'north_m'> => {
  const { eastM, northM } = stepBetween(origin, place);
  return { east_m: eastM, north_m: northM };
};

/**
 * What a picture draws of a stretch of an outing: speed and rate of every stroke, and the speed every few seconds
 * between strokes. Speed is a mean over its stroke or seconds: through the water where the stream is known, else over
 * ground, m/s; null where the track does not tell it.
 * @param places whether to say where the boat was
 * @param strokesFromS strokes count from here: a first stroke's catch mark may lie just before the movement it makes
 */
export const momentsOf = (
  outing: Outing,
  within: Interval,
  places = false,
  strokesFromS = within.fromS,
): readonly DrawnMoment[] => {
  const { track, stream, recording } = outing;
  const startM = track?.alongAt(within.fromS) ?? null;
  const origin = track?.placeAt(track.fromS) ?? null;
  const heart = recording.channels.heart_rate !== undefined;
  return sharesOf(outing, within, strokesFromS).map(({ fromS, toS, rateSpm }): DrawnMoment => {
    const atS = (fromS + toS) / 2;
    const shown = track !== null && !track.outages.some((gap) => gap.fromS < toS && gap.toS > fromS);
    const lengthM = shown ? lengthBetween(track, fromS, toS) : null;
    const waterM = shown && stream !== null ? waterDistanceM(track, { fromS, toS }, stream) : null;
    const along = shown ? track.alongAt(atS) : null;
    const place = places && shown ? track.placeAt(atS) : null;
    return {
      at_s: atS,
      along_m: along === null || startM === null ? null : along - startM,
      speed_mps: lengthM === null ? null : (waterM ?? lengthM) / (toS - fromS),
      rate_spm: rateSpm,
      heart_rate_bpm: heart ? (heartRateWithin(recording, [{ fromS, toS }])?.meanBpm ?? null) : null,
      ...(place === null || origin === null ? {} : wayFrom(origin, place)),
    };
  });
};

/** An outing in equal steps of round length, each with its figures. */
export const stepsOf = (outing: Outing): readonly DrawnStep[] => {
  const { durationS } = outing.recording;
  const { stepsS, mostSteps } = MOMENT_SETTINGS;
  const stepS = stepsS.find((each) => durationS / each <= mostSteps) ?? Math.ceil(durationS / mostSteps);
  return Array.from({ length: Math.ceil(durationS / stepS) }, (_, i) => {
    const fromS = i * stepS;
    const toS = Math.min(durationS, fromS + stepS);
    const { distance, strokes, rateSpm, speedMps, heartRate } = stretchOf(outing, { fromS, toS });
    return {
      start_at_s: fromS,
      end_at_s: toS,
      distance_m: distance?.value ?? null,
      stroke_count: strokes?.length ?? null,
      rate_spm: rateSpm,
      speed_mps: speedMps,
      heart_rate_mean_bpm: heartRate?.meanBpm ?? null,
    };
  });
};
