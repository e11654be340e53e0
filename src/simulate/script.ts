import type { Scenario, ScriptStep } from '../contract/scenario.js';
import type { CraftModel } from './craft-model.js';
import type { Random } from './random.js';
import type { Mover } from './ride.js';
import { driveShare, type StrokeShape } from './stroke-shape.js';

/** What kind of stroke the crew takes. */
export type TrueStrokeKind = 'rowing' | 'straightening' | 'backing' | 'single';

/** One stroke as the crew means to take it. */
export interface PlannedStroke {
  readonly kind: TrueStrokeKind;
  /** Catch to next catch, pause included, s. */
  readonly periodS: number;
  readonly driveS: number;
  /** Pause at hands away, s. */
  readonly holdS: number;
  /** Share of the usual travel. */
  readonly slide: number;
  /** Rate that sets the force, spm. */
  readonly rateSpm: number;
  /** Force / the crew's usual force at this rate. */
  readonly force: number;
}

/** A rest as the crew means to take it. */
export interface PlannedRest {
  readonly kind: 'rest';
  readonly periodS: number;
  readonly blades: 'flat' | 'holding' | 'clear';
  /** Tied up: it lies still over ground. */
  readonly moored: boolean;
}

/** A stretch in which others move the boat. */
export interface PlannedMove {
  readonly kind: 'moved';
  readonly periodS: number;
  readonly by: Mover;
  readonly speedMps: number;
}

/** What comes next, with the stretch of the script that it belongs to. */
export interface Planned {
  readonly action: PlannedStroke | PlannedRest | PlannedMove;
  /** Number of the stretch, from 0. */
  readonly stretch: number;
  readonly label: string;
  /** Rate asked for, spm; null at rest. */
  readonly askedSpm: number | null;
}

/** How crews vary and how they start; common practice. */
export const SCRIPT_SETTINGS = Object.freeze({
  /** Stroke-to-stroke sd of the rate, %; 1 to 2 in trained crews. */
  rateSdPct: 1.2,
  /** Stroke-to-stroke sd of the force, %. */
  forceSdPct: 3,
  /** How much of one stroke's deviation stays in the next, 0 to 1. */
  memory: 0.6,
  /** Opening strokes of a standing start: share of the slide, and rate / high rate. */
  openingSlides: [0.6, 0.5, 0.7, 0.9],
  openingRates: [0.72, 0.95, 1, 1],
  /** Strokes of a high start before it settles, and its rate / settled rate. */
  highStrokes: 15,
  highFactor: 1.18,
  /** Strokes over which it settles. */
  settleStrokes: 4,
  /** Pause at hands away, s. */
  holdS: 1,
  /** Straightening: rate, spm, share of the slide, and share of the usual force, forward and back. */
  straightenSpm: 18,
  straightenSlide: 0.35,
  straightenForce: 0.3,
  backForce: 0.2,
  /** Single strokes: rate that the stroke itself has, spm, before the wait. */
  singleSpm: 22,
  /** How the drive shortens with the slide: drive = this + (1 - this) · slide. */
  shortSlideDrive: 0.55,
  /** Speed at which others move a boat, m/s. */
  movedMps: { tow: 2.5, hands: 1.2, trailer: 11 },
});

const flat = (steps: readonly ScriptStep[]): Exclude<ScriptStep, { do: 'repeat' }>[] =>
  steps.flatMap((step) =>
    step.do === 'repeat'
      ? Array.from({ length: step.times }, () => flat(step.script)).flat()
      : [step as Exclude<ScriptStep, { do: 'repeat' }>],
  );

interface Extent {
  readonly time_s?: number | undefined;
  readonly distance_m?: number | undefined;
  readonly strokes?: number | undefined;
}

const share = (extent: Extent, sinceS: number, sinceM: number, strokes: number): number => {
  if (extent.time_s !== undefined) return sinceS / extent.time_s;
  if (extent.distance_m !== undefined) return sinceM / extent.distance_m;
  return strokes / (extent.strokes ?? 1);
};

const between = (from: number, to: number | undefined, place: number): number =>
  to === undefined ? from : from + (to - from) * Math.min(1, place);

/** A wandering factor about 1 with the given sd, each value keeping some of the last. */
const wander = (random: Random, sdPct: number): (() => number) => {
  const { memory } = SCRIPT_SETTINGS;
  let state = random.normal();
  return () => {
    state = memory * state + Math.sqrt(1 - memory * memory) * random.normal();
    return Math.max(0.5, 1 + (state * sdPct) / 100);
  };
};

/**
 * The script as strokes and rests, one asked for at a time.
 * @returns next(atS, alongM): what the crew does from this time and distance on; null when the script is over
 */
export const scriptReader = (
  scenario: Scenario,
  model: CraftModel,
  shape: StrokeShape,
  random: Random,
): ((atS: number, alongM: number) => Planned | null) => {
  const settings = SCRIPT_SETTINGS;
  const steps = flat(scenario.script);
  const rateWander = wander(random, scenario.crew?.rate_sd_pct ?? settings.rateSdPct);
  const forceWander = wander(random, scenario.crew?.force_sd_pct ?? settings.forceSdPct);
  let [at, count, fromS, fromM] = [0, 0, 0, 0];
  let fresh = true;

  const stroke = (
    rateSpm: number,
    force: number,
    slide: number,
    kind: TrueStrokeKind = 'rowing',
    holdS = 0,
  ): PlannedStroke => {
    const rowedSpm = rateSpm * rateWander();
    const cycleS = 60 / rowedSpm;
    const short = settings.shortSlideDrive + (1 - settings.shortSlideDrive) * slide;
    return {
      kind,
      periodS: cycleS + holdS,
      driveS: cycleS * driveShare(shape, rowedSpm) * short,
      holdS,
      slide,
      rateSpm: rowedSpm,
      force: force * forceWander(),
    };
  };

  const opening = (step: Extract<ScriptStep, { do: 'start' }>, force: number): PlannedStroke => {
    const high = step.high_spm ?? step.rate_spm * settings.highFactor;
    const highStrokes = step.high_strokes ?? settings.highStrokes;
    const slide = settings.openingSlides[count] ?? 1;
    if (count < highStrokes) return stroke(high * (settings.openingRates[count] ?? 1), force, slide);
    const settled = Math.min(1, (count - highStrokes + 1) / settings.settleStrokes);
    return stroke(high + (step.rate_spm - high) * settled, force, slide);
  };

  const strokeOf = (
    step: Exclude<ScriptStep, { do: 'repeat' | 'rest' | 'moved' }>,
    atS: number,
    alongM: number,
  ): PlannedStroke | null => {
    switch (step.do) {
      case 'row': {
        const place = share(step, atS - fromS, alongM - fromM, count);
        if (place >= 1) return null;
        const slide = step.slide ?? 1;
        const force = between(step.strength ?? 1, step.to_strength ?? step.strength, place) * slide ** 0.7;
        return stroke(between(step.rate_spm, step.to_rate_spm, place), force, slide);
      }
      case 'start': {
        const place = share(step, atS - fromS, alongM - fromM, count);
        if (place >= 1) return null;
        return opening(step, between(step.strength ?? 1, step.to_strength ?? step.strength, place));
      }
      case 'pause': {
        if (count >= step.strokes) return null;
        const held = (count + 1) % (step.every ?? 1) === 0 ? (step.hold_s ?? settings.holdS) : 0;
        return stroke(step.rate_spm, 1, 1, 'rowing', held);
      }
      case 'straighten': {
        if (count >= step.strokes) return null;
        const spm = model.family === 'rowing' ? settings.straightenSpm : model.referenceSpm * 0.6;
        return step.back === true
          ? stroke(spm, -settings.backForce, settings.straightenSlide, 'backing')
          : stroke(spm, settings.straightenForce, settings.straightenSlide, 'straightening');
      }
      case 'single': {
        if (count >= step.strokes) return null;
        const spm = model.family === 'rowing' ? settings.singleSpm : model.referenceSpm;
        const planned = stroke(spm, 1, 1, 'single');
        return { ...planned, periodS: Math.max(planned.periodS, step.every_s) };
      }
    }
  };

  return (atS, alongM) => {
    while (at < steps.length) {
      const step = steps[at]!;
      if (fresh) [count, fromS, fromM, fresh] = [0, atS, alongM, false];
      const label = step.label ?? step.do;
      const named = { stretch: at, label };
      if (step.do === 'rest') {
        if (count === 0) {
          count = 1;
          return {
            ...named,
            askedSpm: null,
            action: {
              kind: 'rest',
              periodS: step.time_s,
              blades: step.blades ?? 'flat',
              moored: step.moored ?? false,
            },
          };
        }
      } else if (step.do === 'moved') {
        if (count === 0) {
          count = 1;
          const speedMps = step.speed_mps ?? SCRIPT_SETTINGS.movedMps[step.by];
          const action = { kind: 'moved', periodS: step.time_s, by: step.by, speedMps } as const;
          return { ...named, label: step.label ?? step.by, askedSpm: null, action };
        }
      } else {
        const planned = strokeOf(step, atS, alongM);
        if (planned !== null) {
          count++;
          return { ...named, askedSpm: 'rate_spm' in step ? step.rate_spm : null, action: planned };
        }
      }
      at++;
      fresh = true;
    }
    return null;
  };
};
