import { placeAfter } from '../geodesy/index.js';
import { placeOfKnot } from './section.js';
import type { Smoothed } from './smoothed.js';
import type { Interval, Place } from './track.js';
import { type Way, wayOf } from './way.js';

/** A section's place in the joined track. */
export interface PathSection {
  readonly smoothed: Smoothed;
  /** Index of its first knot in the joined arrays. */
  readonly offset: number;
  readonly way: Way;
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

/** Sections joined in time, with the length of the path. */
export interface Path {
  readonly parts: readonly PathSection[];
  readonly atS: Float64Array;
  readonly speedMps: Float64Array;
  readonly alongM: Float64Array;
  readonly momentAt: (atS: number) => Moment | null;
  readonly alongAt: (moment: Moment) => number;
  readonly speedAt: (moment: Moment) => number;
  /** Unit vector of travel, east and north. */
  readonly courseAt: (moment: Moment) => readonly [number, number];
  readonly placeAt: (moment: Moment) => Place;
  readonly stationary: readonly Interval[];
}

/** Cubic through two values with given slopes (Hermite). */
const hermite = (y0: number, y1: number, slope0: number, slope1: number, step: number, u: number): number =>
  y0 * (1 + 2 * u) * (1 - u) ** 2 +
  y1 * u * u * (3 - 2 * u) +
  step * u * (1 - u) * (slope0 * (1 - u) - slope1 * u);

/** Greatest index whose value is at most the asked one; values increase. */
export const lastAtMost = (values: Float64Array, asked: number): number => {
  let low = -1;
  let high = values.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (values[middle]! <= asked) low = middle;
    else high = middle - 1;
  }
  return low;
};

const velocity = (smoothed: Smoothed, knot: number): readonly [number, number] => [
  smoothed.courseEast[knot]! * smoothed.speedMps[knot]!,
  smoothed.courseNorth[knot]! * smoothed.speedMps[knot]!,
];

/** Join smoothed sections into one path. */
export const pathOf = (sections: readonly Smoothed[]): Path => {
  const count = sections.reduce((sum, { section }) => sum + section.count, 0);
  const atS = new Float64Array(count);
  const speedMps = new Float64Array(count);
  const alongM = new Float64Array(count);
  const parts: PathSection[] = [];
  const stationary: Interval[] = [];
  let [offset, along] = [0, 0];
  for (const smoothed of sections) {
    const way = wayOf(smoothed);
    const { section } = smoothed;
    let stillFrom: number | null = null;
    for (let k = 0; k < section.count; k++) {
      if (k > 0) along += way.metres[k - 1]!;
      atS[offset + k] = section.atS[k]!;
      alongM[offset + k] = along;
      speedMps[offset + k] = way.still[k] ? 0 : Math.max(0, smoothed.speedMps[k]!);
      if (way.still[k]) stillFrom ??= section.atS[k]!;
      else if (stillFrom !== null) {
        stationary.push({ fromS: stillFrom, toS: section.atS[k]! });
        stillFrom = null;
      }
    }
    parts.push({ smoothed, offset, way });
    offset += section.count;
  }

  const momentAt = (at: number): Moment | null => {
    for (const part of parts) {
      const times = part.smoothed.section.atS;
      if (at < times[0]! || at > times[times.length - 1]!) continue;
      const knot = Math.max(0, Math.min(lastAtMost(times, at), times.length - 2));
      const stepS = times.length > 1 ? times[knot + 1]! - times[knot]! : 0;
      return { part, knot, share: stepS > 0 ? (at - times[knot]!) / stepS : 0, stepS };
    }
    return null;
  };
  const between = ({ knot, share, stepS }: Moment, values: Float64Array, offset: number): number => {
    const i = offset + knot;
    return stepS > 0 ? values[i]! + share * (values[i + 1]! - values[i]!) : values[i]!;
  };
  const courseAt: Path['courseAt'] = (moment) => {
    const { part } = moment;
    const east = between(moment, part.smoothed.courseEast, 0);
    const north = between(moment, part.smoothed.courseNorth, 0);
    const length = Math.hypot(east, north) || 1;
    return [east / length, north / length];
  };
  return {
    parts,
    atS,
    speedMps,
    alongM,
    momentAt,
    stationary,
    courseAt,
    speedAt: (moment) => between(moment, speedMps, moment.part.offset),
    alongAt: (moment) => {
      const i = moment.part.offset + moment.knot;
      const [from, to] = [alongM[i]!, alongM[i + 1] ?? alongM[i]!];
      if (moment.stepS === 0 || to === from) return from;
      // Slopes above three times the chord would make the cubic fall somewhere (Fritsch & Carlson 1980).
      const limit = (3 * (to - from)) / moment.stepS;
      const [slope0, slope1] = [Math.min(speedMps[i]!, limit), Math.min(speedMps[i + 1]!, limit)];
      return hermite(from, to, slope0, slope1, moment.stepS, moment.share);
    },
    placeAt: ({ part, knot, share, stepS }) => {
      const { smoothed } = part;
      const { section, eastM, northM } = smoothed;
      const next = stepS > 0 ? knot + 1 : knot;
      const [east0, north0] = velocity(smoothed, knot);
      const [east1, north1] = velocity(smoothed, next);
      const east = hermite(eastM[knot]!, eastM[next]!, east0, east1, stepS, share);
      const north = hermite(northM[knot]!, northM[next]!, north0, north1, stepS, share);
      return placeAfter(placeOfKnot(section, knot), {
        eastM: east - section.eastM[knot]!,
        northM: north - section.northM[knot]!,
      });
    },
  };
};
