import { hypotenuse } from '../units/hypotenuse.js';
import { MOTION_SETTINGS } from './settings.js';
import type { Smoothed } from './smoothed.js';

/** How far a boat went in each step of a section (knot k to k + 1); one value a knot, the last unused. */
export interface PathSteps {
  readonly metres: Float64Array;
  /** Unit vector along which a step is measured, so that its length is that part of the way between its ends. */
  readonly east: Float64Array;
  readonly north: Float64Array;
  /** 1 where the boat lay still. */
  readonly still: Uint8Array;
}

/** A run of knots, both ends included. */
interface Run {
  readonly from: number;
  readonly to: number;
}

/** sd of the way between two fixes so far apart in time that stand still, each axis, m. */
const errorSd = ({ model }: Smoothed, apartS: number): number => {
  const { sdM, correlationS } = model.wander;
  return Math.sqrt(
    2 * sdM ** 2 * (1 - Math.exp(-apartS / correlationS)) +
      MOTION_SETTINGS.calmWhiteShare * model.whiteSdM ** 2,
  );
};

const meanFix = ({ section }: Smoothed, { from, to }: Run) => {
  let [east, north, count] = [0, 0, 0];
  for (let k = from; k <= to; k++) {
    if (!section.hasFix[k]) continue;
    east += section.eastM[k]!;
    north += section.northM[k]!;
    count++;
  }
  return count === 0 ? null : { east: east / count, north: north / count };
};

/**
 * Whether a slow boat lay still: from the first to the last quarter of the run, and to its farthest point, it
 * went no farther than the wandering error alone makes. A boat that drifts farther than that is moving.
 */
const layStill = (smoothed: Smoothed, { from, to }: Run): boolean => {
  const { atS } = smoothed.section;
  const lengthS = atS[to]! - atS[from]!;
  if (lengthS < MOTION_SETTINGS.leastStillS) return false;
  const quarter = Math.floor((to - from) / 4);
  const begin = meanFix(smoothed, { from, to: from + quarter });
  const end = meanFix(smoothed, { from: to - quarter, to });
  const all = meanFix(smoothed, { from, to });
  if (!begin || !end || !all) return false;
  const movedM = hypotenuse(end.east - begin.east, end.north - begin.north);
  if (movedM > MOTION_SETTINGS.stillSds * errorSd(smoothed, 0.75 * lengthS)) return false;
  const limitM =
    MOTION_SETTINGS.stillExtentSds * hypotenuse(smoothed.model.wander.sdM, smoothed.model.whiteSdM);
  for (let k = from; k <= to; k++)
    if (hypotenuse(smoothed.eastM[k]! - all.east, smoothed.northM[k]! - all.north) > limitM) return false;
  return true;
};

/** The part of a slow run in which the boat has stopped running out, and has not begun to move off. */
const stoppedPart = ({ section, speedMps }: Smoothed, run: Run): Run => {
  let { from, to } = run;
  if (from > 0) while (from < to && speedMps[from]! > MOTION_SETTINGS.stillMps) from++;
  if (to < section.count - 1) while (to > from && speedMps[to]! > MOTION_SETTINGS.stillMps) to--;
  return { from, to };
};

/** The way of every step. */
export const pathStepsOf = (smoothed: Smoothed): PathSteps => {
  const { section, slow, eastM, northM } = smoothed;
  const metres = new Float64Array(section.count);
  const east = smoothed.courseEast.slice();
  const north = smoothed.courseNorth.slice();
  const still = new Uint8Array(section.count);

  /** A drifting boat is measured by chords, each long enough to stand out of the error, shared out by time. */
  const drift = ({ from, to }: Run) => {
    let begin = from;
    while (begin < to) {
      let end = begin + 1;
      let reached = false;
      while (end < to && !reached) {
        const chordM = hypotenuse(eastM[end]! - eastM[begin]!, northM[end]! - northM[begin]!);
        const errorM = errorSd(smoothed, section.atS[end]! - section.atS[begin]!);
        reached = chordM > Math.max(MOTION_SETTINGS.leastChordM, MOTION_SETTINGS.stillSds * errorM);
        if (!reached) end++;
      }
      const [wayEast, wayNorth] = [eastM[end]! - eastM[begin]!, northM[end]! - northM[begin]!];
      const chordM = hypotenuse(wayEast, wayNorth);
      const spanS = section.atS[end]! - section.atS[begin]!;
      for (let k = begin; k < end; k++) {
        east[k] = chordM > 0 ? wayEast / chordM : 0;
        north[k] = chordM > 0 ? wayNorth / chordM : 0;
        metres[k] = (chordM * (section.atS[k + 1]! - section.atS[k]!)) / spanS;
      }
      begin = end;
    }
  };

  /** Running out or moving off: along the course that the boat has at the moving end. */
  const along = ({ from, to }: Run, courseKnot: number) => {
    east.fill(smoothed.courseEast[courseKnot]!, from, to);
    north.fill(smoothed.courseNorth[courseKnot]!, from, to);
  };

  const drifting = new Uint8Array(section.count);
  for (let from = 0; from < section.count; from++) {
    if (!slow[from]) continue;
    let to = from;
    while (to + 1 < section.count && slow[to + 1]) to++;
    const stopped = stoppedPart(smoothed, { from, to });
    if (layStill(smoothed, stopped)) {
      along({ from, to: stopped.from }, Math.max(0, from - 1));
      along({ from: stopped.to, to }, Math.min(section.count - 1, to + 1));
      still.fill(1, stopped.from, stopped.to);
      east.fill(0, stopped.from, stopped.to);
      north.fill(0, stopped.from, stopped.to);
    } else {
      drift({ from, to });
      drifting.fill(1, from, to);
    }
    from = to;
  }
  // What goes back (the smoother's swing before a start) is paid off by what comes next, so that the way never
  // falls and keeps its length.
  let owedM = 0;
  for (let k = 0; k + 1 < section.count; k++) {
    if (drifting[k] || still[k]) {
      owedM = 0;
      continue;
    }
    const stepM = east[k]! * (eastM[k + 1]! - eastM[k]!) + north[k]! * (northM[k + 1]! - northM[k]!) - owedM;
    metres[k] = Math.max(0, stepM);
    owedM = Math.max(0, -stepM);
  }
  return { metres, east, north, still };
};
