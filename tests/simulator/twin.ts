import { makeRecording } from '../../src/recording/index.js';
import type { Simulated } from '../../src/simulate/simulated.js';
import type { TrueStretch, Truth } from '../../src/simulate/truth.js';
import { type Craft, craftFamily } from '../../src/units/craft.js';
import { catchMarks } from './catch-marks.js';
import { type ChopAsk, makeChop } from './chop.js';
import { craftShape } from './craft-shape.js';
import { rowHull, STEP_S, type Waters } from './hull.js';
import { type ImuAsk, logImu, type Mount } from './imu.js';
import { placesOf } from './place.js';
import { makeRandom } from './random.js';
import { type ReceiverAsk, receive } from './receiver.js';
import { isRow, type LaidScript, layScript, type Step, USUAL_VARIATION, type Variation } from './script.js';
import { logCadence, USUAL_WATCH, type WatchAsk } from './watch.js';

/** What is to be simulated; what is left out takes its usual value. */
export interface TwinAsk {
  readonly seed: number;
  readonly craft?: Craft;
  readonly script: readonly Step[];
  readonly variation?: Partial<Variation>;
  readonly waters?: Partial<Waters>;
  readonly chop?: Partial<ChopAsk>;
  /** Null for no track. */
  readonly receiver?: Partial<ReceiverAsk> | null;
  /** A cadence in the track; none unless asked. */
  readonly watch?: Partial<WatchAsk>;
  /** Null for no IMU log. `random` draws any mount. */
  readonly imu?: (Partial<Omit<ImuAsk, 'mount'>> & { readonly mount?: Mount | 'random' }) | null;
  /** False leaves the IMU log without an absolute clock. */
  readonly imuClock?: boolean;
  readonly origin?: { readonly latDeg: number; readonly lonDeg: number };
  readonly startUnixS?: number;
}

/** A simulated outing, with what only this simulator tells. */
export interface Twin extends Simulated {
  /** Catches of strokes that backed the boat down, s; not among the truth's catch marks. */
  readonly backMarksS: readonly number[];
  /** True place of the antenna on the truth's grid. */
  readonly latDeg: Float64Array;
  readonly lonDeg: Float64Array;
}

export const USUAL_WATERS: Waters = { headingDeg: 40, streamMps: 0, streamToDeg: 40, steeringSdDeg: 0.8 };
export const USUAL_CHOP: ChopAsk = { surgeMps2: 0, peakHz: 0.55, toDeg: 200, wash: [], swells: [], seas: [] };
export const USUAL_RECEIVER: ReceiverAsk = {
  rateHz: 10,
  whiteSdM: 0.15,
  wanderSdM: 1.5,
  wanderS: 120,
  dopplerSdMps: 0.05,
  dopplerWanderSdMps: 0,
  dopplerWanderS: 3,
  dopplerLagS: 0,
  speedSmoothS: 0,
  positionSmoothS: 0,
  reflections: [],
  jumpsPerHour: 0,
  wholeSeconds: false,
  outages: [],
  skipped: 0,
  position: true,
};
export const USUAL_IMU: ImuAsk = {
  rateHz: 100,
  mount: { yawDeg: 0, pitchDeg: 0, rollDeg: 0 },
  remount: null,
  noiseSdMps2: 0.06,
  biasSdMps2: 0.08,
  warmingSdMps2: 0.05,
  quantumMps2: 0.0096,
  rangeMps2: 4 * 9.80665,
  jitterSdS: 0.0005,
  lost: 0,
  lostInBursts: 0,
  leverM: 0.2,
  startS: 0,
  driftPpm: 0,
  gyro: false,
  wear: null,
};

const stretchesOf = (script: LaidScript): TrueStretch[] =>
  script.steps.map(({ fromS, toS, step }) => {
    if (!isRow(step))
      return { fromS, toS, kind: 'rest', rateSpm: null, label: step.moored ? 'moored' : 'rest' };
    const rateSpm = typeof step.rateSpm === 'number' ? step.rateSpm : (step.rateSpm[0] + step.rateSpm[1]) / 2;
    return { fromS, toS, kind: 'rowing', rateSpm, label: step.label ?? step.drill ?? 'rowing' };
  });

/** Simulate an outing by prescribed motion: the second opinion beside `thole simulate`, for tests only. */
export const simulateTwin = (ask: TwinAsk): Twin => {
  const random = makeRandom(ask.seed);
  const craft = ask.craft ?? '2x';
  const origin = ask.origin ?? { latDeg: 47.2, lonDeg: 8.6 };
  const startUnixS = ask.startUnixS ?? 1_780_300_800;
  const script = layScript(ask.script, craft, { ...USUAL_VARIATION, ...ask.variation }, random);
  const hull = rowHull(script, craft, { ...USUAL_WATERS, ...ask.waters }, random);
  const { forwardS, backS } = catchMarks(script, hull.surgeMps2, STEP_S);
  const places = placesOf(origin, hull.eastM, hull.northM);
  const provenance = { format: 'csv', device: null, sport: null };

  const track =
    ask.receiver === null
      ? null
      : makeRecording({
          provenance: { ...provenance, file: 'twin.csv' },
          originUnixS: startUnixS,
          channels: {
            ...receive({ ...USUAL_RECEIVER, ...ask.receiver }, hull, places, script.endS, random),
            ...(ask.watch
              ? { cadence: logCadence(forwardS, script.endS, { ...USUAL_WATCH, ...ask.watch }) }
              : {}),
          },
        });

  const asked = ask.imu ?? {};
  const any = () => 360 * random.uniform();
  const mount =
    asked.mount === 'random'
      ? { yawDeg: any(), pitchDeg: any(), rollDeg: any() }
      : (asked.mount ?? USUAL_IMU.mount);
  const imuAsk: ImuAsk = { ...USUAL_IMU, ...asked, mount };
  const shape = craftShape(craft);
  const trim = {
    pitchDeg: shape.pitchDeg,
    rollDeg: shape.rollDeg,
    alternates: craftFamily(craft) === 'kayak',
  };
  const imu =
    ask.imu === null
      ? null
      : makeRecording({
          provenance: { ...provenance, file: 'twin.imu.csv' },
          originUnixS: ask.imuClock === false ? null : startUnixS + imuAsk.startS,
          channels: logImu(
            imuAsk,
            hull,
            makeChop({ ...USUAL_CHOP, ...ask.chop }, hull, script.steps, script.endS, random),
            trim,
            script.endS,
            random,
          ),
        });

  const truth: Truth = {
    catchMarksS: forwardS,
    stepS: STEP_S,
    alongM: hull.alongM,
    eastM: hull.eastM,
    northM: hull.northM,
    speedMps: hull.groundMps,
    waterSpeedMps: hull.waterMps,
    surgeMps2: hull.surgeMps2,
    origin,
    stretches: stretchesOf(script),
    imuStartS: imuAsk.startS,
    imuDriftPpm: imuAsk.driftPpm,
  };
  return { track, imu, truth, backMarksS: backS, latDeg: places.latDeg, lonDeg: places.lonDeg };
};
