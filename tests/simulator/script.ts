import type { Craft } from '../../src/units/craft.js';
import { type StrokeMake, speedAtRate } from './craft-shape.js';
import type { Random } from './random.js';
import type { Mover } from './ride.js';

/** A stretch without strokes. */
export interface RestStep {
  readonly restS: number;
  /** Tied up: over ground the boat lies still. */
  readonly moored?: boolean;
  /** Turned while resting, degrees to the right. */
  readonly turnDeg?: number;
  /** Stopped at once rather than left to run. */
  readonly holdWater?: boolean;
  /** Moved by others, at their usual speed. */
  readonly movedBy?: Mover;
  /** Left to run with the blades clear of the water: drag as the square of speed, so that a big boat glides long. */
  readonly glide?: boolean;
}

/** A stretch of strokes; it starts from rest where the step before was a rest that took the way off the boat. */
export interface RowStep {
  readonly rowS: number;
  /** spm, or from … to. */
  readonly rateSpm: number | readonly [number, number];
  /** Mean speed through the water, m/s; by the craft's own line unless given. */
  readonly speedMps?: number | readonly [number, number];
  /** Bend of the course over the stretch, degrees to the right. */
  readonly turnDeg?: number;
  /**
   * `pause`: held a second after each finish; `light`: half strength; `back`: backing down; `half`: half slide;
   * `single`: one stroke, then still until the next.
   */
  readonly drill?: 'pause' | 'light' | 'back' | 'half' | 'single';
  /** Rate of the start's third stroke where the stretch starts from rest, spm; the asked rate unless given. */
  readonly startSpm?: number;
  readonly label?: string;
}

export type Step = RestStep | RowStep;

/** One stroke as it will be made. */
export interface PlannedStroke extends StrokeMake {
  readonly catchS: number;
  /** Mean speed that the stroke is to have, m/s. */
  readonly speedMps: number;
  /** First of a rowing interval from rest. */
  readonly fromRest: boolean;
}

/** An unbroken run of strokes. */
export interface RowingInterval {
  readonly fromS: number;
  readonly toS: number;
  readonly fromRest: boolean;
  readonly strokes: readonly PlannedStroke[];
}

/** A stretch of the script laid on the clock. */
export interface LaidStep {
  readonly fromS: number;
  readonly toS: number;
  readonly step: Step;
}

export interface LaidScript {
  readonly steps: readonly LaidStep[];
  readonly rowingIntervals: readonly RowingInterval[];
  readonly endS: number;
}

/** How one stroke differs from the next. */
export interface Variation {
  /** Relative sd of the cycle, of the strength, of the dip and of the quickness of the drive. */
  readonly period: number;
  readonly strength: number;
  readonly dip: number;
  readonly quickness: number;
}

export const USUAL_VARIATION: Variation = { period: 0.012, strength: 0.06, dip: 0.09, quickness: 0.03 };

const HOLD_S = 1;
/** A single stroke and its recovery, s; the rest of its cycle the crew sits still. */
const SINGLE_S = 2.4;
/** Strength of a drill's strokes; 1 where not named. */
const LIGHTNESS = { light: 0.5, back: 0.35, half: 0.65, pause: 1, single: 0.8 } as const;
/** A rest this long has taken the way off the boat. */
const LOST_WAY_S = 20;
/** Longer and gentler first strokes of a start: cycle against the asked one, share of the speed reached. */
const START_CYCLES = [1.3, 1.12, 1.02];
const START_LEFT = 0.66;
/** What a hull at speed lacks of the speed of new work in the first stroke of it, and how much of that is left from stroke to stroke. */
const CHANGE_LACK = 0.8;
const CHANGE_LEFT = 0.6;

export const isRow = (step: Step): step is RowStep => 'rowS' in step;

const between = (range: number | readonly [number, number], share: number): number =>
  typeof range === 'number' ? range : range[0] + share * (range[1] - range[0]);

const strokesOf = (
  craft: Craft,
  { fromS, toS, step }: { fromS: number; toS: number; step: RowStep },
  startsFrom: number,
  begun: number | null,
  beforeMps: number | null,
  variation: Variation,
  random: Random,
): { strokes: PlannedStroke[]; nextS: number } => {
  const strokes: PlannedStroke[] = [];
  let atS = startsFrom;
  let count = begun ?? Number.POSITIVE_INFINITY;
  let side = 1;
  while (true) {
    const share = Math.min(1, (atS - fromS) / step.rowS);
    const settled = between(step.rateSpm, share);
    const rate = count < 12 && step.startSpm !== undefined ? step.startSpm : settled;
    const target = step.speedMps === undefined ? speedAtRate(craft, settled) : between(step.speedMps, share);
    const cycle = (60 / rate) * (START_CYCLES[count] ?? 1) * (1 + variation.period * random.normal());
    const holdS =
      step.drill === 'pause' ? HOLD_S : step.drill === 'single' ? Math.max(0, cycle - SINGLE_S) : 0;
    const periodS = Math.max(cycle, holdS + 0.4);
    if (atS + periodS > toS) break;
    const reached = 1 - START_LEFT ** count;
    const way = step.drill === 'back' ? -1 : 1;
    const lack = beforeMps === null ? 0 : CHANGE_LACK * CHANGE_LEFT ** strokes.length;
    const light = (step.drill === undefined ? undefined : LIGHTNESS[step.drill]) ?? 1;
    side = -side;
    strokes.push({
      craft,
      catchS: atS,
      periodS,
      strength: light * (1 + variation.strength * random.normal() + 0.03 * side),
      dip: light * (count === 0 ? 0 : reached ** 0.7) * Math.max(0.3, 1 + variation.dip * random.normal()),
      quickness: (step.drill === 'half' ? 0.8 : 1) * (1 + variation.quickness * random.normal()),
      holdS,
      recovers: true,
      way,
      speedMps:
        way < 0
          ? -0.9
          : (1 - lack) * (light < 1 ? 0.75 : 1) * target * (1 - START_LEFT ** (count + 1)) +
            lack * (beforeMps ?? 0),
      fromRest: count === 0,
    });
    atS += periodS;
    count++;
  }
  return { strokes, nextS: atS };
};

/**
 * Lay a script on the clock: every stroke with its own cycle, strength and speed.
 * @param script what is rowed, in order
 */
export const layScript = (
  script: readonly Step[],
  craft: Craft,
  variation: Variation,
  random: Random,
): LaidScript => {
  const steps: LaidStep[] = [];
  const rowingIntervals: RowingInterval[] = [];
  let atS = 0;
  let open: { fromS: number; fromRest: boolean; strokes: PlannedStroke[]; nextS: number } | null = null;
  let stillS = LOST_WAY_S;
  const close = () => {
    if (open !== null && open.strokes.length > 0) {
      const last = open.strokes.pop()!;
      open.strokes.push({ ...last, recovers: false });
      rowingIntervals.push({
        fromS: open.fromS,
        toS: open.nextS,
        fromRest: open.fromRest,
        strokes: open.strokes,
      });
    }
    open = null;
  };
  for (const step of script) {
    const lengthS = isRow(step) ? step.rowS : step.restS;
    const laid = { fromS: atS, toS: atS + lengthS, step };
    steps.push(laid);
    if (isRow(step)) {
      const fromRest: boolean = open === null && stillS >= LOST_WAY_S;
      open ??= { fromS: atS, fromRest, strokes: [], nextS: atS + 0.3 };
      const done = open.strokes.length;
      const begun: number | null = open.fromRest && done < 40 ? done : null;
      // Backing, and what follows it, changes speed at once.
      const beforeMps = begun !== null ? null : (open.strokes.at(-1)?.speedMps ?? null);
      const made = strokesOf(
        craft,
        { ...laid, step },
        open.nextS,
        begun,
        beforeMps !== null && beforeMps > 0 ? beforeMps : null,
        variation,
        random,
      );
      open.strokes.push(...made.strokes);
      open.nextS = made.nextS;
      stillS = 0;
    } else {
      close();
      stillS = step.holdWater ? LOST_WAY_S : stillS + step.restS;
    }
    atS = laid.toS;
  }
  close();
  return { steps, rowingIntervals, endS: atS };
};
