import { placeAfter, type Step } from '../geodesy/index.js';
import { hypotenuse } from '../units/hypotenuse.js';
import { lastAtMost } from '../units/last-at-most.js';
import { type PathSteps, pathStepsOf } from './path-steps.js';
import { placeOfKnot } from './section.js';
import type { Smoothed } from './smoothed.js';
import type { Interval, Place } from './track.js';

/** A section's place in the joined track. */
export interface PathSection {
  readonly smoothed: Smoothed;
  /** Index of its first knot in the joined arrays. */
  readonly offset: number;
  readonly steps: PathSteps;
}

/** A moment within the track: between two neighbouring knots of one section. */
export interface Moment {
  readonly part: PathSection;
  /** Knot of the section at or before the moment. */
  readonly knot: number;
  /** 0 at that knot, up to 1 at the next. */
  readonly share: number;
  /** Length of the step, s; 0 for a section of one knot. */
  readonly stepS: number;
}

/** The moment of a knot. */
export const momentOfKnot = (part: PathSection, knot: number): Moment => {
  const { atS, count } = part.smoothed.section;
  if (count === 1) return { part, knot: 0, share: 0, stepS: 0 };
  const first = Math.min(knot, count - 2);
  return { part, knot: first, share: knot - first, stepS: atS[first + 1]! - atS[first]! };
};

/** Sections joined in time, with the length of the path; one value a knot. */
export interface Path {
  readonly parts: readonly PathSection[];
  readonly atS: Float64Array;
  readonly speedMps: Float64Array;
  readonly alongM: Float64Array;
  readonly stationary: readonly Interval[];
}

/** Cubic through two values with given slopes (Hermite). */
const hermite = (y0: number, y1: number, slope0: number, slope1: number, step: number, u: number): number =>
  y0 * (1 + 2 * u) * (1 - u) ** 2 +
  y1 * u * u * (3 - 2 * u) +
  step * u * (1 - u) * (slope0 * (1 - u) - slope1 * u);

/** Join smoothed sections into one path. */
export const pathOf = (sections: readonly Smoothed[]): Path => {
  const count = sections.reduce((sum, { section }) => sum + section.count, 0);
  const atS = new Float64Array(count);
  const speedMps = new Float64Array(count);
  const alongM = new Float64Array(count);
  const parts: PathSection[] = [];
  const stationary: Interval[] = [];
  let offset = 0;
  let along = 0;
  for (const smoothed of sections) {
    const steps = pathStepsOf(smoothed);
    const { section } = smoothed;
    let stillFrom: number | null = null;
    for (let k = 0; k < section.count; k++) {
      if (k > 0) along += steps.metres[k - 1]!;
      atS[offset + k] = section.atS[k]!;
      alongM[offset + k] = along;
      speedMps[offset + k] = steps.still[k] ? 0 : Math.max(0, smoothed.speedMps[k]!);
      if (steps.still[k]) stillFrom ??= section.atS[k]!;
      else if (stillFrom !== null) {
        stationary.push({ fromS: stillFrom, toS: section.atS[k]! });
        stillFrom = null;
      }
    }
    parts.push({ smoothed, offset, steps });
    offset += section.count;
  }

  return { parts, atS, speedMps, alongM, stationary };
};

/** The moment of a time; null where no section holds it. */
export const momentAt = ({ parts }: Path, at: number): Moment | null => {
  for (let i = 0; i < parts.length; i++) {
    const part = parts[i]!;
    const times = part.smoothed.section.atS;
    if (at < times[0]! || at > times[times.length - 1]!) continue;
    const knot = Math.max(0, Math.min(lastAtMost(times, at), times.length - 2));
    const stepS = times.length > 1 ? times[knot + 1]! - times[knot]! : 0;
    return { part, knot, share: stepS > 0 ? (at - times[knot]!) / stepS : 0, stepS };
  }
  return null;
};

/** A value at a moment, on a straight line between those of its two knots. */
const between = (moment: Moment, values: Float64Array, offset: number): number => {
  const i = offset + moment.knot;
  return moment.stepS > 0 ? values[i]! + moment.share * (values[i + 1]! - values[i]!) : values[i]!;
};

/** Speed at a moment, m/s. */
export const speedOf = ({ speedMps }: Path, moment: Moment): number =>
  between(moment, speedMps, moment.part.offset);

/** Unit vector of travel at a moment. */
export const courseOf = (moment: Moment): Step => {
  const { courseEast, courseNorth } = moment.part.smoothed;
  const east = between(moment, courseEast, 0);
  const north = between(moment, courseNorth, 0);
  const length = hypotenuse(east, north) || 1;
  return { eastM: east / length, northM: north / length };
};

/** Length of the path up to a moment, m. */
export const alongOf = ({ alongM, speedMps }: Path, moment: Moment): number => {
  const i = moment.part.offset + moment.knot;
  const from = alongM[i]!;
  const to = i + 1 < alongM.length ? alongM[i + 1]! : from;
  if (moment.stepS === 0 || to === from) return from;
  // Slopes above three times the chord would make the cubic fall somewhere (Fritsch & Carlson 1980).
  const limit = (3 * (to - from)) / moment.stepS;
  const slope0 = Math.min(speedMps[i]!, limit);
  const slope1 = Math.min(speedMps[i + 1]!, limit);
  return hermite(from, to, slope0, slope1, moment.stepS, moment.share);
};

/** Where the boat is at a moment. */
export const placeOf = ({ part: { smoothed }, knot, share, stepS }: Moment): Place => {
  const { section, eastM, northM, courseEast, courseNorth, speedMps } = smoothed;
  const next = stepS > 0 ? knot + 1 : knot;
  const [speed0, speed1] = [speedMps[knot]!, speedMps[next]!];
  const east = hermite(
    eastM[knot]!,
    eastM[next]!,
    courseEast[knot]! * speed0,
    courseEast[next]! * speed1,
    stepS,
    share,
  );
  const north = hermite(
    northM[knot]!,
    northM[next]!,
    courseNorth[knot]! * speed0,
    courseNorth[next]! * speed1,
    stepS,
    share,
  );
  return placeAfter(placeOfKnot(section, knot), {
    eastM: east - section.eastM[knot]!,
    northM: north - section.northM[knot]!,
  });
};
