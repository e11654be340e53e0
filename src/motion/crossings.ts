import { type Step, waterLine } from '../geodesy/index.js';
import { lastAtMost } from '../units/last-at-most.js';
import { bisected } from './bisected.js';
import { STATE, STATE_COUNT } from './motion-model.js';
import { courseOf, type Moment, momentOfKnot, type Path, type PathSection, placeOf } from './path.js';
import type { Crossing, CrossingAsk } from './track.js';

/** What the time of a crossing depends on: the knot beside it, and the direction that the line is crossed in. */
interface Footing {
  readonly part: PathSection;
  readonly knot: number;
  /** Unit vector square to the line, to its right. */
  readonly right: Step;
  /** Signed speed square to the line, m/s. */
  readonly acrossMps: number;
  /** sd of the bow offset as it acts square to the line, m, with its sign. */
  readonly bowSdM: number;
}

/** Crossings of one track, and what their errors share. */
export interface CrossingFinder {
  readonly crossings: (ask: CrossingAsk) => readonly Crossing[];
  readonly durationSdS: (first: Crossing, second: Crossing) => number;
}

const weightsOf = (footing: Footing): Float64Array => {
  const weights = new Float64Array(STATE_COUNT);
  weights[STATE.east] = footing.right.eastM;
  weights[STATE.north] = footing.right.northM;
  return weights;
};

/** A finder for a path. Crossings within a still stretch are noise, and none. */
export const crossingFinder = (path: Path): CrossingFinder => {
  const footings = new WeakMap<Crossing, Footing>();

  const covariance = (first: Footing, second: Footing): number => {
    const [early, late] = first.knot <= second.knot ? [first, second] : [second, first];
    const position =
      first.part === second.part
        ? first.part.smoothed.covariance().between(early.knot, weightsOf(early), late.knot, weightsOf(late))
        : 0;
    return (position + first.bowSdM * second.bowSdM) / (first.acrossMps * second.acrossMps);
  };

  const crossings: CrossingFinder['crossings'] = (ask) => {
    const line = waterLine(ask.from, ask.to);
    if (line === null) return [];
    const bow = (moment: Moment) => {
      const { eastM: east, northM: north } = courseOf(moment);
      const offset = line.offsetOf(placeOf(moment));
      return {
        acrossM: offset.acrossM + ask.bowOffsetM * (east * line.right.eastM + north * line.right.northM),
        alongM: offset.alongM + ask.bowOffsetM * (east * line.along.eastM + north * line.along.northM),
      };
    };
    const marginShare = (ask.marginM ?? 0) / line.lengthM;
    /** The crossing within the step that begins at a knot. */
    const within = (part: PathSection, knot: number, beforeM: number, afterM: number): Crossing | null => {
      const { section, courseEast, courseNorth } = part.smoothed;
      const stepS = section.atS[knot + 1]! - section.atS[knot]!;
      const { before: low } = bisected(
        0,
        1,
        (share) => bow({ part, knot, share, stepS }).acrossM < 0 === beforeM < 0,
      );
      const alongLine = bow({ part, knot, share: low, stepS }).alongM / line.lengthM;
      if (alongLine < -marginShare || alongLine > 1 + marginShare) return null;
      const near = low < 0.5 ? knot : knot + 1;
      const facing = courseEast[near]! * line.right.eastM + courseNorth[near]! * line.right.northM;
      const footing: Footing = {
        part,
        knot: near,
        right: line.right,
        acrossMps: (afterM - beforeM) / stepS,
        bowSdM: ask.bowOffsetSdM * facing,
      };
      const crossing: Crossing = {
        atS: section.atS[knot]! + low * stepS,
        sdS: Math.sqrt(Math.max(0, covariance(footing, footing))),
        direction: footing.acrossMps > 0 ? -1 : 1,
        alongLine,
      };
      footings.set(crossing, footing);
      return crossing;
    };

    const found: Crossing[] = [];
    const fromS = ask.within?.fromS ?? Number.NEGATIVE_INFINITY;
    const toS = ask.within?.toS ?? Number.POSITIVE_INFINITY;
    for (const part of path.parts) {
      const { section } = part.smoothed;
      const first = Math.max(0, lastAtMost(section.atS, fromS));
      let before = bow(momentOfKnot(part, first)).acrossM;
      for (let k = first; k + 1 < section.count && section.atS[k]! <= toS; k++) {
        const after = bow(momentOfKnot(part, k + 1)).acrossM;
        if (!part.steps.still[k] && before < 0 !== after < 0) {
          const crossing = within(part, k, before, after);
          if (crossing !== null && crossing.atS >= fromS && crossing.atS <= toS) found.push(crossing);
        }
        before = after;
      }
    }
    return found;
  };

  return {
    crossings,
    durationSdS: (first, second) => {
      const [a, b] = [footings.get(first), footings.get(second)];
      if (a === undefined || b === undefined)
        throw new Error('a crossing of another track: ask the track that found it');
      return Math.sqrt(Math.max(0, covariance(a, a) + covariance(b, b) - 2 * covariance(a, b)));
    },
  };
};
