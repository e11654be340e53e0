import type { Scenario } from '../../src/contract/scenario.js';
import type { Recording } from '../../src/recording/index.js';
import { simulate, type Truth } from '../../src/simulate/index.js';
import type { Craft } from '../../src/units/craft.js';
import type { ChopAsk } from '../simulator/chop.js';
import { makeRandom } from '../simulator/random.js';
import type { Mover } from '../simulator/ride.js';
import type { Step } from '../simulator/script.js';
import { USUAL_SWELL } from '../simulator/swell.js';
import { simulateTwin, type TwinAsk } from '../simulator/twin.js';
import type { Simulator } from './boats.js';

/** A log with marked strokes. */
export interface StrokeLog {
  readonly recording: Recording;
  readonly truth: Truth;
}

/** A situation in which strokes are to be found, by either simulator. */
export interface StrokeCell {
  readonly name: string;
  readonly craft: Craft;
  /** Mean F1 asked on each simulator; null where no strokes are made. */
  readonly f1Least: number | null;
  /** False strokes allowed in one log; null where F1 judges. */
  readonly falseMost: number | null;
  /** True where the cell counts among the rowing cells that are set against the baseline. */
  readonly rowing: boolean;
  /** @param mounted false puts the sensor's x axis along the hull, for the baseline */
  readonly make: (simulator: Simulator, seed: number, mounted: boolean) => StrokeLog;
}

type Sensor = { readonly hz: number; readonly lostShare?: number };

const NOISE_MPS2 = 0.06;
const HEADING_DEG = 40;

/** What is rowed, in words that both simulators know; starts are from rest. */
type Leg =
  | { readonly restS: number }
  | { readonly rowS: number; readonly rateSpm: number; readonly start?: boolean; readonly pause?: boolean };

const ROWED: readonly Leg[] = [
  { restS: 25 },
  { rowS: 60, rateSpm: 18 },
  { restS: 20 },
  { rowS: 60, rateSpm: 28 },
  { restS: 15 },
  { rowS: 60, rateSpm: 36 },
  { rowS: 40, rateSpm: 20, pause: true },
  { restS: 25 },
  { rowS: 40, rateSpm: 40, start: true },
  { restS: 25 },
  { rowS: 60, rateSpm: 16 },
  { restS: 25 },
];

const paddled = (rates: readonly number[]): readonly Leg[] => [
  { restS: 20 },
  ...rates.flatMap((rateSpm): Leg[] => [{ rowS: 50, rateSpm }, { restS: 20 }]),
];

const twinSteps = (legs: readonly Leg[]): Step[] =>
  legs.map((leg) =>
    'restS' in leg
      ? leg
      : {
          rowS: leg.rowS,
          rateSpm: leg.rateSpm,
          ...(leg.pause ? { drill: 'pause' as const } : {}),
          ...(leg.start ? { startSpm: 45 } : {}),
        },
  );

const forceSteps = (legs: readonly Leg[]): Scenario['script'] =>
  legs.map((leg) => {
    if ('restS' in leg) return { do: 'rest', time_s: leg.restS };
    if (leg.pause) return { do: 'pause', rate_spm: leg.rateSpm, strokes: Math.round(leg.rowS / 4) };
    if (leg.start)
      return { do: 'start', rate_spm: leg.rateSpm, high_spm: 45, high_strokes: 10, time_s: leg.rowS };
    return { do: 'row', rate_spm: leg.rateSpm, time_s: leg.rowS };
  });

/** A boat that nobody rows for five minutes: tied up, adrift, or moved by others, in what waves. */
interface Rest {
  readonly by: Mover | 'mooring' | 'drift';
  /** Narrow swell met head on: Hz, and rms of the surge, m/s². */
  readonly swell?: { readonly hz: number; readonly surgeMps2: number };
  /** A sea: significant height, m, and peak frequency, Hz. */
  readonly sea?: { readonly heightM: number; readonly peakHz: number };
  /** Wakes of passing boats, one every so many seconds. */
  readonly wakesEveryS?: number;
}

interface Ask {
  readonly craft: Craft;
  readonly legs: readonly Leg[];
  readonly chopMps2: number;
  readonly sensor: Sensor | null;
  readonly rest?: Rest;
  /** sd of the sensor's noise, m/s²; the usual one unless given. */
  readonly noiseMps2?: number;
}

const REST_S = 300;
const WAKE_S = 25;
const HULL_M = 9;
const DRIFT_MPS = 0.35;

const wakeTimes = ({ wakesEveryS }: Rest): number[] =>
  wakesEveryS === undefined
    ? []
    : Array.from({ length: Math.floor((REST_S - WAKE_S) / wakesEveryS) }, (_, i) => (i + 0.4) * wakesEveryS);

const twinRest = ({ by }: Rest): Step =>
  by === 'mooring' || by === 'drift'
    ? { restS: REST_S, moored: by === 'mooring' }
    : { restS: REST_S, movedBy: by };

const twinWaves = (rest: Rest): Partial<ChopAsk> => {
  const toDeg = HEADING_DEG + 180;
  return {
    swells: rest.swell ? [{ ...USUAL_SWELL, ...rest.swell, toDeg }] : [],
    seas: rest.sea ? [{ ...rest.sea, toDeg, hullM: HULL_M }] : [],
    wash: wakeTimes(rest).map((atS) => ({ atS, lengthS: WAKE_S, surgeMps2: 0.8, hz: 0.7 })),
  };
};

const forceRest = ({ by }: Rest): Scenario['script'][number] =>
  by === 'mooring' || by === 'drift'
    ? { do: 'rest', time_s: REST_S, moored: by === 'mooring' }
    : { do: 'moved', by, time_s: REST_S };

/** Degrees of tilt that turn 1 m/s² of gravity. */
const TILT_DEG = 180 / Math.PI / 9.80665;

/** Waves of `thole simulate`: two fifths of the surge are pitch, as in the other simulator half of it is. */
const forceWaves = (rest: Rest): NonNullable<Scenario['waves']> => {
  const motions = (surgeMps2: number) => ({
    surge_mps2: 0.6 * surgeMps2,
    pitch_deg: 0.4 * surgeMps2 * TILT_DEG,
    heave_mps2: 1.2 * surgeMps2,
    roll_deg: 0.4 * surgeMps2 * TILT_DEG,
    from_deg: HEADING_DEG,
  });
  const { swell, sea } = rest;
  return [
    ...(swell ? [{ kind: 'swell' as const, hz: swell.hz, ...motions(swell.surgeMps2) }] : []),
    ...(sea
      ? [
          {
            kind: 'sea' as const,
            spectrum: 'jonswap' as const,
            height_m: sea.heightM,
            peak_hz: sea.peakHz,
            from_deg: HEADING_DEG,
          },
        ]
      : []),
    ...wakeTimes(rest).map((at_s) => ({
      kind: 'wake' as const,
      hz: 0.7,
      at_s,
      length_s: WAKE_S,
      ...motions(0.6),
    })),
  ];
};

const byTwin = (ask: Ask, seed: number, mounted: boolean): StrokeLog => {
  const made: TwinAsk = {
    seed,
    craft: ask.craft,
    script: ask.rest ? [twinRest(ask.rest)] : twinSteps(ask.legs),
    chop: { surgeMps2: ask.chopMps2, ...(ask.rest ? twinWaves(ask.rest) : {}) },
    waters: { headingDeg: HEADING_DEG, streamMps: ask.rest?.by === 'drift' ? DRIFT_MPS : 0 },
    imu: ask.sensor && {
      rateHz: ask.sensor.hz,
      lost: ask.sensor.lostShare ?? 0,
      noiseSdMps2: ask.noiseMps2 ?? NOISE_MPS2,
      ...(mounted ? { mount: 'random' as const } : { mount: { yawDeg: 0, pitchDeg: 0, rollDeg: 0 } }),
    },
    receiver: ask.sensor ? null : { rateHz: 5, dopplerSdMps: 0.05 },
  };
  const { imu, track, truth } = simulateTwin(made);
  return { recording: (imu ?? track)!, truth };
};

const byForces = (ask: Ask, seed: number, mounted: boolean): StrokeLog => {
  const random = makeRandom(seed);
  const any = () => 360 * random.uniform();
  const mount = mounted ? { yaw_deg: any(), pitch_deg: any(), roll_deg: any() } : {};
  const scenario: Scenario = {
    craft: ask.craft,
    seed,
    script: ask.rest ? [forceRest(ask.rest)] : forceSteps(ask.legs),
    path: { kind: 'straight', heading_deg: HEADING_DEG },
    ...(ask.rest ? { waves: forceWaves(ask.rest) } : {}),
    ...(ask.rest?.by === 'drift' ? { stream: { mps: DRIFT_MPS, to_deg: HEADING_DEG } } : {}),
    // waves that make surge alone: nothing else in the log foretells them
    ...(ask.chopMps2 > 0 ? { chop: { surge_mps2: ask.chopMps2, hz: 0.6, from_deg: HEADING_DEG } } : {}),
    sensors: ask.sensor
      ? {
          imu: {
            hz: ask.sensor.hz,
            mount,
            noise_mps2: ask.noiseMps2 ?? NOISE_MPS2,
            lost_pct: 100 * (ask.sensor.lostShare ?? 0),
          },
        }
      : { gnss: { hz: 5, speed: true, speed_sd_mps: 0.05 } },
  };
  const { imu, track, truth } = simulate(scenario);
  return { recording: (imu ?? track)!, truth };
};

const cell = (
  name: string,
  ask: Ask,
  judged: { readonly f1Least?: number; readonly falseMost?: number },
): StrokeCell => ({
  name,
  craft: ask.craft,
  f1Least: judged.f1Least ?? null,
  falseMost: judged.falseMost ?? null,
  rowing: ask.legs === ROWED && ask.sensor !== null,
  make: (simulator, seed, mounted) => (simulator === 'twin' ? byTwin : byForces)(ask, seed, mounted),
});

const rowing = (chopMps2: number, sensor: Sensor | null): Ask => ({
  craft: '2x',
  legs: ROWED,
  chopMps2,
  sensor,
});

const moored = (chopMps2: number): Ask => ({
  ...rowing(chopMps2, { hz: 50 }),
  legs: [],
  rest: { by: 'mooring' },
});

/** A sensor of middling noise: in it waves are taken for strokes more easily than in a good one. */
const REST_NOISE_MPS2 = 0.2;

const atRest = (rest: Rest, craft: Craft = '2x', noiseMps2 = REST_NOISE_MPS2): Ask => ({
  ...moored(0),
  craft,
  rest,
  noiseMps2,
});

const swellOf = (hz: number, surgeMps2: number): Rest => ({ by: 'mooring', swell: { hz, surgeMps2 } });

const KAYAK = paddled([70, 90, 110, 130]);

/** Every situation of the report, in its order; limits are those that the project asks of itself. */
export const STROKE_CELLS: readonly StrokeCell[] = [
  cell('2x, calm, 100 Hz', rowing(0, { hz: 100 }), { f1Least: 0.998 }),
  cell('2x, calm, 50 Hz', rowing(0, { hz: 50 }), { f1Least: 0.998 }),
  cell('2x, calm, 25 Hz', rowing(0, { hz: 25 }), { f1Least: 0.998 }),
  cell('2x, chop 0.25, 50 Hz', rowing(0.25, { hz: 50 }), { f1Least: 0.998 }),
  cell('2x, chop 0.5, 50 Hz', rowing(0.5, { hz: 50 }), { f1Least: 0.995 }),
  cell('2x, chop 0.8, 50 Hz', rowing(0.8, { hz: 50 }), { f1Least: 0.985 }),
  cell('2x, chop 1.1, 25 Hz', rowing(1.1, { hz: 25 }), { f1Least: 0.97 }),
  cell('2x, chop 2.0, 50 Hz', rowing(2, { hz: 50 }), { f1Least: 0.99 }),
  cell('2x, 2 % lost, 50 Hz', rowing(0, { hz: 50, lostShare: 0.02 }), { f1Least: 0.995 }),
  cell('8+, chop 0.5, 50 Hz', { ...rowing(0.5, { hz: 50 }), craft: '8+' }, { f1Least: 0.995 }),
  cell('1x, chop 0.5, 50 Hz', { ...rowing(0.5, { hz: 50 }), craft: '1x' }, { f1Least: 0.995 }),
  cell('2x, speed 5 Hz', rowing(0, null), { f1Least: 0.98 }),
  cell('K1, calm', { craft: 'K1', legs: KAYAK, chopMps2: 0, sensor: { hz: 50 } }, { f1Least: 0.995 }),
  ...[
    [0.1, 0.995],
    [0.25, 0.995],
    [0.4, 0.995],
    [0.8, 0.99],
    [1, 0.97],
  ].map(([chopMps2, f1Least]) =>
    cell(
      `K1, chop ${chopMps2}`,
      { craft: 'K1', legs: KAYAK, chopMps2: chopMps2!, sensor: { hz: 50 } },
      { f1Least: f1Least! },
    ),
  ),
  cell('OC6, chop 0.1', { craft: 'OC6', legs: paddled([40, 60, 75]), chopMps2: 0.1, sensor: { hz: 50 } }, {}),
  cell(
    'dragon, chop 0.1',
    { craft: 'dragon', legs: paddled([60, 80, 110]), chopMps2: 0.1, sensor: { hz: 50 } },
    {},
  ),
  cell('moored, calm', moored(0), { falseMost: 3 }),
  cell('moored, rocking 0.25', moored(0.25), { falseMost: 3 }),
  cell('moored, rocking 0.8', moored(0.8), { falseMost: 3 }),
  ...[1.1, 0.8].flatMap((hz) =>
    [0.1, 0.3, 0.6, 0.9].map((surgeMps2) =>
      cell(`moored, swell ${hz} Hz ${surgeMps2}`, atRest(swellOf(hz, surgeMps2)), { falseMost: 3 }),
    ),
  ),
  cell('moored, swell 0.5 Hz 0.5, good sensor', atRest(swellOf(0.5, 0.5), '8+', 0.03), { falseMost: 3 }),
  cell('moored, sea', atRest({ by: 'mooring', sea: { heightM: 0.3, peakHz: 0.4 } }), { falseMost: 3 }),
  cell('adrift, swell 0.8 Hz 0.5', atRest({ ...swellOf(0.8, 0.5), by: 'drift' }), { falseMost: 3 }),
  cell('adrift, wakes', atRest({ by: 'drift', wakesEveryS: 45 }, '2x', 0.06), { falseMost: 3 }),
  cell('K1 moored, swell 1.1 Hz 0.3', atRest(swellOf(1.1, 0.3), 'K1'), { falseMost: 3 }),
  cell('K1 moored, swell 0.4 Hz 0.4', atRest(swellOf(0.4, 0.4), 'K1'), { falseMost: 3 }),
  cell('OC6 moored, swell 0.7 Hz 0.4', atRest(swellOf(0.7, 0.4), 'OC6'), { falseMost: 3 }),
  cell('towed', atRest({ by: 'tow' }), { falseMost: 3 }),
  cell('carried', atRest({ by: 'hands' }), { falseMost: 3 }),
  cell('K1 carried', atRest({ by: 'hands' }, 'K1'), { falseMost: 3 }),
  cell('on a trailer', atRest({ by: 'trailer' }, '8+'), { falseMost: 3 }),
];
