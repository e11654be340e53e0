import type { Scenario } from '../contract/scenario.js';
import { pathPoints, steering } from './course.js';
import type { CraftModel } from './craft-model.js';
import { type Grid, growingColumns } from './grid.js';
import { randomFrom } from './random.js';
import type { Ride } from './ride.js';
import {
  type Planned,
  type PlannedMove,
  type PlannedRest,
  type PlannedStroke,
  scriptReader,
} from './script.js';
import { bump, forcePulse, type StrokeShape } from './stroke-shape.js';
import type { TrueStretch, TrueStroke } from './truth.js';

/** Numbers of the boat's motion that no craft changes. */
export const ROWED_SETTINGS = Object.freeze({
  /** Step of the integration, s: 20 steps in the shortest feature, the entry. */
  stepS: 0.01,
  /** Steps between two looks of the cox. */
  steerSteps: 10,
  crewKg: 82,
  /** Speed ~ rate^(1/3) is constant work a stroke. */
  exponent: 1 / 3,
  /** <v²>/<v>² of a rowed cycle, so that the mean speed and not its rms comes out right. */
  squareOverMean: 1.012,
  /** A slow boat is easier to hold: force · (1 + gain · (below - speed / usual)) below this share of it. */
  slowBelow: 0.85,
  slowGain: 1.6,
  /** Resting blades: a share of speed lost per second, and a constant, m/s², by how they lie. */
  restPerS: { flat: 0.08, holding: 0.7, clear: 0 },
  restMps2: { flat: 0.04, holding: 0.15, clear: 0.005 },
  /** Share of the recovery spent on hands away and trunk over before the seat moves. */
  handsAway: 0.1,
  /** Greatest change of speed of a boat that others move, m/s². */
  movedMps2: 0.5,
});

/** The boat's motion, with what was done to make it. */
export interface Rowed {
  readonly grid: Grid;
  readonly strokes: readonly (TrueStroke & { readonly fromRest: boolean })[];
  readonly stretches: readonly TrueStretch[];
  /** When somebody else moved the boat. */
  readonly rides: readonly Ride[];
}

/** One stroke made ready for the inner loop. */
interface Drive {
  readonly plan: PlannedStroke;
  readonly peakForceN: number;
  readonly entryN: number;
  readonly crewDriveMps: number;
  readonly crewBackMps: number;
  readonly recoveryFromS: number;
  readonly recoveryS: number;
  readonly side: number;
}

/**
 * Row the script. Surge by momentum of hull and crew together, the crew moving along the hull:
 * (mh + mc) du/dt = F(t) - k u|u| - mc d²s/dt², u hull speed through the water, s the crew's place on the hull
 * (two-mass model: Brearley & de Mestre 1996, Math. Gazette 80; Cabrera, Ruina & Kleshnev 2006, Human Movement
 * Science 25:192-220), F the blades' pulse over the drive less a short check as they enter. Integrated by the
 * midpoint of drag (semi-implicit) at a fixed step. The ground moves by the stream; the heading by the steering.
 */
export const rowed = (scenario: Scenario, model: CraftModel, shape: StrokeShape): Rowed => {
  const set = ROWED_SETTINGS;
  const { stepS } = set;
  const crewKg = model.crewCount * (scenario.crew?.mass_kg ?? set.crewKg);
  const movingKg = crewKg * shape.movingShare;
  const massKg = crewKg + model.hullKg;
  const dragK = model.dragKgPerM;
  const powerSpeed = (scenario.crew?.power ?? 1) ** (1 / 3);
  const exponent = scenario.crew?.exponent ?? set.exponent;
  const plateau = scenario.crew?.plateau_spm ?? Number.POSITIVE_INFINITY;
  const usualMps = (rateSpm: number) =>
    model.speedMps * powerSpeed * (Math.min(rateSpm, plateau) / model.referenceSpm) ** exponent;

  const driveBump = bump(shape.skewDrive);
  const recoveryBump = bump(-shape.skewRecovery);
  const pulse = forcePulse(shape.skewForce);
  const moored = scenario.path?.kind === 'moored';
  const flow = scenario.stream ?? { mps: 0, to_deg: 0 };
  const flowTo = (flow.to_deg * Math.PI) / 180;
  let [flowEast, flowNorth] = moored ? [0, 0] : [flow.mps * Math.sin(flowTo), flow.mps * Math.cos(flowTo)];
  const cox = steering(pathPoints(scenario.path), [flowEast, flowNorth]);
  const next = scriptReader(scenario, model, shape, randomFrom(scenario.seed, 'crew'));

  const columns = growingColumns(1 << 16);
  const strokes: (TrueStroke & { fromRest: boolean })[] = [];
  const stretches: TrueStretch[] = [];
  const rides: Ride[] = [];
  let [index, water, east, north, along] = [0, 0, 0, 0, 0];
  let heading = cox.first;
  let side = 1;
  let rested = true;
  let from = 0;

  const ready = (plan: PlannedStroke): Drive => {
    const usual = usualMps(plan.rateSpm);
    const entryN = plan.force > 0 ? massKg * shape.entryMps2 * Math.min(1, water / model.speedMps) ** 2 : 0;
    // A half sine of the entry takes 2/π of its peak for its length.
    const entryNs = entryN * shape.entryS * (2 / Math.PI);
    const cycleS = plan.periodS - plan.holdS;
    const lightS = plan.kind === 'single' ? 60 / plan.rateSpm : cycleS;
    const slow = 1 + set.slowGain * Math.max(0, set.slowBelow - Math.max(0, water) / usual);
    const impulseNs = dragK * usual * usual * set.squareOverMean * lightS * plan.force * slow + entryNs;
    const usedS = Math.min(lightS, cycleS);
    const recoveryFromS = plan.driveS + plan.holdS + set.handsAway * (usedS - plan.driveS);
    const recoveryS = plan.driveS + plan.holdS + (usedS - plan.driveS) - recoveryFromS;
    const travelM = shape.travelM * plan.slide;
    side = shape.alternates ? -side : 1;
    return {
      plan,
      peakForceN: impulseNs / (plan.driveS * pulse.area),
      entryN,
      crewDriveMps: travelM / (plan.driveS * driveBump.area),
      crewBackMps: -travelM / (recoveryS * recoveryBump.area),
      recoveryFromS,
      recoveryS,
      side,
    };
  };

  const write = (surge: number, crewShare: number, crewMps2: number, lean: number): void => {
    const to = columns.room(index);
    const groundEast = water * Math.sin(heading) + flowEast;
    const groundNorth = water * Math.cos(heading) + flowNorth;
    const ground = Math.sqrt(groundEast * groundEast + groundNorth * groundNorth);
    to.alongM[index] = along;
    to.eastM[index] = east;
    to.northM[index] = north;
    to.speedMps[index] = ground;
    to.waterSpeedMps[index] = water;
    to.surgeMps2[index] = surge;
    to.headingRad[index] = heading;
    to.crewShare[index] = crewShare;
    to.crewMps2[index] = crewMps2;
    to.lean[index] = lean;
    east += groundEast * stepS;
    north += groundNorth * stepS;
    along += ground * stepS;
    index++;
    if (index % set.steerSteps === 0) heading = cox.next(east, north, water, heading, set.steerSteps * stepS);
  };

  const row = (drive: Drive): void => {
    const { plan } = drive;
    const travelM = shape.travelM * plan.slide;
    let crewM = -travelM / 2;
    let crewMps = 0;
    while (index * stepS < from + plan.periodS) {
      const t = index * stepS - from;
      let [force, crewMps2] = [0, 0];
      if (t < plan.driveS) {
        const x = t / plan.driveS;
        force = drive.peakForceN * pulse.at(x);
        crewMps2 = (drive.crewDriveMps * driveBump.slope(x)) / plan.driveS;
        crewMps = drive.crewDriveMps * driveBump.at(x);
        if (t < shape.entryS) force -= drive.entryN * Math.sin((Math.PI * t) / shape.entryS);
      } else if (t >= drive.recoveryFromS && t < drive.recoveryFromS + drive.recoveryS) {
        const y = (t - drive.recoveryFromS) / drive.recoveryS;
        crewMps2 = (drive.crewBackMps * recoveryBump.slope(y)) / drive.recoveryS;
        crewMps = drive.crewBackMps * recoveryBump.at(y);
      } else crewMps = 0;
      crewM += crewMps * stepS;
      const surge = (force - movingKg * crewMps2 - dragK * water * Math.abs(water)) / massKg;
      write(
        surge,
        shape.travelM === 0 ? 0 : crewM / shape.travelM,
        crewMps2,
        drive.side * Math.sin((2 * Math.PI * t) / plan.periodS),
      );
      water += surge * stepS;
    }
  };

  const lie = ({ periodS, blades, moored: tied }: PlannedRest): void => {
    const stream = [flowEast, flowNorth] as const;
    if (tied) [water, flowEast, flowNorth] = [0, 0, 0];
    while (index * stepS < from + periodS) {
      const drag = (dragK / massKg) * Math.abs(water) + set.restPerS[blades];
      const loss = Math.abs(water) * drag + set.restMps2[blades];
      const slower = Math.max(0, Math.abs(water) - loss * stepS) * Math.sign(water);
      const surge = (slower - water) / stepS;
      write(surge, -0.5, 0, 0);
      water = slower;
    }
    [flowEast, flowNorth] = stream;
  };

  const move = ({ periodS, by, speedMps }: PlannedMove): void => {
    rides.push({ by, fromS: from, toS: from + periodS });
    while (index * stepS < from + periodS) {
      const leftS = from + periodS - index * stepS;
      const wanted = Math.min(speedMps, set.movedMps2 * leftS);
      const most = set.movedMps2 * stepS;
      const change = Math.max(-most, Math.min(most, wanted - water));
      write(change / stepS, -0.5, 0, 0);
      water += change;
    }
  };

  let open: { planned: Planned; fromS: number } | null = null;
  const close = (toS: number): void => {
    if (open === null) return;
    const { planned, fromS } = open;
    const resting = planned.action.kind === 'rest' || planned.action.kind === 'moved';
    stretches.push({
      fromS,
      toS,
      kind: resting ? 'rest' : 'rowing',
      rateSpm: planned.askedSpm,
      label: planned.label,
    });
  };
  for (let planned = next(from, along); planned !== null; planned = next(from, along)) {
    if (open === null || open.planned.stretch !== planned.stretch) {
      close(from);
      open = { planned, fromS: from };
    }
    const { action } = planned;
    if (action.kind === 'rest') {
      lie(action);
      rested = true;
    } else if (action.kind === 'moved') {
      move(action);
      rested = true;
    } else {
      const fromRest = rested && Math.abs(water) < 0.3;
      strokes.push({
        atS: from,
        driveS: action.driveS,
        periodS: action.periodS,
        kind: action.kind,
        fromRest,
      });
      row(ready(action));
      rested = action.kind === 'single';
    }
    from += action.periodS;
  }
  close(from);
  write(0, -0.5, 0, 0);
  return { grid: { stepS, count: index, ...columns.cut(index) }, strokes, stretches, rides };
};
