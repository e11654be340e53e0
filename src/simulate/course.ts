import type { Scenario } from '../contract/scenario.js';

const RADIANS = Math.PI / 180;

/** How the boat is steered; common practice for long thin hulls. */
export const COURSE_SETTINGS = Object.freeze({
  /** The cox aims at the point of the path this far ahead, m. */
  lookAheadM: 25,
  /** Fastest change of heading, degrees per second; 3 to 8 with hands and rudder. */
  turnDps: 5,
  /** How fast a wrong heading is put right, s. */
  settleS: 2,
  /** Below this speed through the water nobody steers, m/s. */
  steerageMps: 0.4,
  /** Legs made of an out-and-back path, more than any outing rows. */
  legs: 400,
  /** Length of a straight that never ends, m. */
  endlessM: 300_000,
  /** Step of the polyline that stands for a bend, degrees. */
  bendStepDeg: 2,
});

type Point = readonly [eastM: number, northM: number];

const onward = (from: Point, bearing: number, metres: number): Point => [
  from[0] + metres * Math.sin(bearing),
  from[1] + metres * Math.cos(bearing),
];

/** The path as a row of points, m east and north of the origin. */
export const pathPoints = (path: Scenario['path']): readonly Point[] => {
  const { legs, endlessM, bendStepDeg } = COURSE_SETTINGS;
  const origin: Point = [0, 0];
  if (path === undefined) return [origin, [0, endlessM]];
  switch (path.kind) {
    case 'straight':
    case 'moored':
      return [origin, onward(origin, path.heading_deg * RADIANS, endlessM)];
    case 'out_and_back': {
      const far = onward(origin, path.heading_deg * RADIANS, path.leg_m);
      return Array.from({ length: legs + 1 }, (_, i) => (i % 2 === 0 ? origin : far));
    }
    case 'bend': {
      const points: Point[] = [origin];
      let at = path.lead_m > 0 ? onward(origin, path.heading_deg * RADIANS, path.lead_m) : origin;
      if (path.lead_m > 0) points.push(at);
      const steps = Math.max(1, Math.ceil(Math.abs(path.turn_deg) / bendStepDeg));
      const stepRad = (path.turn_deg * RADIANS) / steps;
      const chordM = 2 * path.radius_m * Math.sin(Math.abs(stepRad) / 2);
      let bearing = path.heading_deg * RADIANS + stepRad / 2;
      for (let i = 0; i < steps; i++) {
        at = onward(at, bearing, chordM);
        points.push(at);
        bearing += stepRad;
      }
      points.push(onward(at, (path.heading_deg + path.turn_deg) * RADIANS, endlessM));
      return points;
    }
    case 'points': {
      const last = path.points[path.points.length - 1]!;
      const before = path.points[path.points.length - 2]!;
      const bearing = Math.atan2(last[0] - before[0], last[1] - before[1]);
      return [...path.points, onward(last, bearing, endlessM)];
    }
  }
};

/** Steers along the path. */
export interface Steering {
  /** Heading at the start, radians from true north. */
  readonly first: number;
  /** Heading after `stepS` seconds from a place, speed through the water and heading. */
  readonly next: (eastM: number, northM: number, waterMps: number, heading: number, stepS: number) => number;
}

/** An angle within -π to π. */
const within = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));

/**
 * Steering along a row of points by aiming at the path ahead, with the stream allowed for.
 * @param stream the water's own velocity, m/s east and north
 */
export const steering = (points: readonly Point[], stream: Point): Steering => {
  const { lookAheadM, turnDps, settleS, steerageMps } = COURSE_SETTINGS;
  let leg = 0;
  const legOf = (index: number) => {
    const [from, to] = [points[index]!, points[index + 1]!];
    const [east, north] = [to[0] - from[0], to[1] - from[1]];
    const lengthM = Math.max(1e-6, Math.hypot(east, north));
    return { from, lengthM, east: east / lengthM, north: north / lengthM };
  };
  let current = legOf(0);
  const aim = (eastM: number, northM: number): Point => {
    let along = (eastM - current.from[0]) * current.east + (northM - current.from[1]) * current.north;
    while (along >= current.lengthM && leg < points.length - 2) {
      leg++;
      current = legOf(leg);
      along = (eastM - current.from[0]) * current.east + (northM - current.from[1]) * current.north;
    }
    let [index, ahead] = [leg, current];
    let target = Math.max(0, along) + lookAheadM;
    // Look round gentle bends, never round a turning point: there the boat goes to its end first.
    while (target > ahead.lengthM && index < points.length - 2) {
      const following = legOf(index + 1);
      if (following.east * ahead.east + following.north * ahead.north < 0.5) break;
      target -= ahead.lengthM;
      index++;
      ahead = following;
    }
    return [ahead.from[0] + target * ahead.east, ahead.from[1] + target * ahead.north];
  };
  const next = (eastM: number, northM: number, waterMps: number, heading: number, stepS: number): number => {
    if (waterMps < steerageMps) return heading;
    const [aimEast, aimNorth] = aim(eastM, northM);
    const course = Math.atan2(aimEast - eastM, aimNorth - northM);
    const across = stream[0] * Math.cos(course) - stream[1] * Math.sin(course);
    const crab = Math.asin(Math.max(-0.8, Math.min(0.8, across / waterMps)));
    const wrong = within(course - crab - heading);
    const most = turnDps * RADIANS * stepS;
    return heading + Math.max(-most, Math.min(most, (wrong * stepS) / settleS));
  };
  return { first: Math.atan2(current.east, current.north), next };
};
