import type { Scenario } from '../../src/contract/scenario.js';
import { simulate } from '../../src/simulate/index.js';
import { detectStrokes, scoreStrokes } from '../../src/strokes/index.js';
import { makeRandom, type Random } from '../simulator/random.js';
import { isRow, type Step } from '../simulator/script.js';
import { simulateTwin } from '../simulator/twin.js';
import type { Simulator } from './boats.js';
import type { StrokeLog } from './stroke-cells.js';

const GRAVITY_MPS2 = 9.80665;
const CREWS = ['1x', '2x', '2-', '4-', '4x', '8+', '4+', '2x'] as const;
const RATES_HZ = [25, 26, 50, 52, 100, 104, 200];
const CHOPS_MPS2 = [0, 0, 0.15, 0.3, 0.5, 0.8, 1.1];
const NOISES_MPS2 = [0.02, 0.06, 0.15, 0.3];
const LOST_SHARES = [0, 0, 0.02, 0.05];
const RANGES_G = [2, 4, 16];
/** A later mount, for outings whose sensor is put back another way round. */
const REMOUNTED_AT_S = 200;

/** An outing drawn at random: crew, script, water and sensor. */
export interface DrawnOuting extends StrokeLog {
  readonly craft: (typeof CREWS)[number];
  readonly chopMps2: number;
}

/** What the sensor of a drawn outing does beside. */
export interface DrawnSensor {
  /** Put back another way round after 200 s; the twin only. */
  readonly remounted?: boolean;
  /** Logs rates of rotation. */
  readonly gyro?: boolean;
}

type Between = (from: number, to: number) => number;

const among = <T>(random: Random, all: readonly T[]): T => all[Math.floor(random.uniform() * all.length)]!;

const drawScript = (random: Random, between: Between): Step[] => {
  const steps: Step[] = [{ restS: between(10, 60) }];
  const count = 3 + Math.floor(between(0, 5));
  for (let i = 0; i < count; i++) {
    const kind = random.uniform();
    const rateSpm = between(16, 40);
    if (kind < 0.45) steps.push({ rowS: between(30, 240), rateSpm });
    else if (kind < 0.6) steps.push({ rowS: between(40, 90), rateSpm: between(30, 38), startSpm: 44 });
    else if (kind < 0.7) steps.push({ rowS: between(30, 60), rateSpm: between(16, 22), drill: 'pause' });
    else if (kind < 0.8) steps.push({ rowS: between(60, 180), rateSpm: [between(18, 24), between(26, 36)] });
    else if (kind < 0.9) steps.push({ rowS: between(30, 90), rateSpm, drill: 'half' });
    else steps.push({ rowS: between(30, 90), rateSpm: between(18, 26) });
    if (random.uniform() < 0.6) steps.push({ restS: between(8, 90) });
  }
  return [...steps, { restS: 15 }];
};

const forceStep = (step: Step): Scenario['script'][number] => {
  if (!isRow(step)) return { do: 'rest', time_s: step.restS };
  const [from, to] = typeof step.rateSpm === 'number' ? [step.rateSpm, null] : step.rateSpm;
  if (step.drill === 'pause') return { do: 'pause', rate_spm: from, strokes: Math.round(step.rowS / 4) };
  if (step.startSpm !== undefined)
    return { do: 'start', rate_spm: from, high_spm: step.startSpm, high_strokes: 10, time_s: step.rowS };
  return {
    do: 'row',
    rate_spm: from,
    time_s: step.rowS,
    ...(to === null ? {} : { to_rate_spm: to }),
    ...(step.drill === 'half' ? { slide: 0.5 } : {}),
  };
};

/**
 * Draw an outing, well beyond the situations that the detector was tuned on: any crew, any rate of sampling, any
 * waves (0.3 to 1.1 Hz, from any side), noise to 0.3 m/s², samples lost, readings clipped.
 */
export const drawnOuting = (
  seed: number,
  simulator: Simulator,
  { remounted = false, gyro = false }: DrawnSensor = {},
): DrawnOuting => {
  const random = makeRandom(9000 + seed);
  const between: Between = (from, to) => from + (to - from) * random.uniform();
  const craft = among(random, CREWS);
  const hz = among(random, RATES_HZ);
  const chopMps2 = among(random, CHOPS_MPS2);
  const peakHz = between(0.3, 1.1);
  const noiseMps2 = among(random, NOISES_MPS2);
  const lost = among(random, LOST_SHARES);
  const headingDeg = between(0, 360);
  const fromDeg = between(0, 360);
  const script = drawScript(random, between);
  const any = () => between(0, 360);
  const mount = () => ({ yawDeg: any(), pitchDeg: any(), rollDeg: any() });
  const rangeMps2 = among(random, RANGES_G) * GRAVITY_MPS2;
  if (simulator === 'twin') {
    const { imu, truth } = simulateTwin({
      seed,
      craft,
      script,
      chop: { surgeMps2: chopMps2, peakHz, toDeg: fromDeg },
      waters: { headingDeg },
      receiver: null,
      imu: {
        rateHz: hz,
        lost,
        noiseSdMps2: noiseMps2,
        mount: 'random',
        rangeMps2,
        gyro,
        remount: remounted ? { atS: REMOUNTED_AT_S, mount: mount() } : null,
      },
    });
    return { recording: imu!, truth, craft, chopMps2 };
  }
  const allWays = random.uniform() < 0.5;
  const { yawDeg, pitchDeg, rollDeg } = mount();
  const { imu, truth } = simulate({
    craft,
    seed,
    script: script.map(forceStep),
    path: { kind: 'straight', heading_deg: headingDeg },
    ...(chopMps2 > 0
      ? {
          chop: {
            surge_mps2: chopMps2,
            hz: peakHz,
            from_deg: fromDeg,
            ...(allWays
              ? { heave_mps2: 1.4 * chopMps2, pitch_deg: 2 * chopMps2, roll_deg: 2 * chopMps2 }
              : {}),
          },
        }
      : {}),
    sensors: {
      imu: {
        hz,
        mount: { yaw_deg: yawDeg, pitch_deg: pitchDeg, roll_deg: rollDeg },
        noise_mps2: noiseMps2,
        rotation: gyro,
        lost_pct: 100 * lost,
      },
    },
  });
  return { recording: imu!, truth, craft, chopMps2 };
};

/** How the strokes of a drawn outing were found. */
export interface DrawnScore {
  readonly f1: number;
  /** Share of the strokes above confidence 0.9 that are none, even within half a second. */
  readonly surelyFalse: number;
  readonly warnings: readonly string[];
}

/** A stroke farther off than this is another one, s. */
const ANOTHER_S = 0.45;

/** Find the strokes of a drawn outing and score them. */
export const drawnScore = ({ recording, truth, craft }: DrawnOuting): DrawnScore => {
  const { strokes, warnings } = detectStrokes(recording, null, { craft, placement: 'hull', boat: null });
  const found = strokes.map(({ atS }) => atS);
  const near = scoreStrokes(found, truth.catchMarksS, ANOTHER_S).matched;
  const sure = strokes.filter(({ confidence }) => confidence > 0.9).length;
  const wrong = strokes.filter(({ confidence }, i) => confidence > 0.9 && !near[i]).length;
  return {
    f1: scoreStrokes(found, truth.catchMarksS).f1 ?? 0,
    surelyFalse: wrong / Math.max(1, sure),
    warnings: warnings.map(({ code }) => code),
  };
};
