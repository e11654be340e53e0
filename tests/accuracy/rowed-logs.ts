import type { ScriptStep } from '../../src/contract/scenario.js';
import { makeRecording, type Recording } from '../../src/recording/index.js';
import { simulate } from '../../src/simulate/index.js';
import type { Simulated } from '../../src/simulate/simulated.js';
import type { Truth } from '../../src/simulate/truth.js';
import type { Craft } from '../../src/units/craft.js';
import { speedAtRate } from '../simulator/craft-shape.js';
import { simulateTwin } from '../simulator/twin.js';
import { logCadence, USUAL_WATCH, type WatchAsk } from '../simulator/watch.js';
import type { Simulator } from './boats.js';

/** One line of a script that both simulators row. */
export type Line =
  | { readonly restS: number; readonly glide?: boolean; readonly hold?: boolean }
  | {
      readonly rowS: number;
      readonly rateSpm: number;
      /** Force on the blade against the usual. */
      readonly strength?: number;
      /** Rate of the opening of a standing start, spm. */
      readonly startSpm?: number;
      readonly label?: string;
    };

/** What is aboard. */
export interface AboardAsk {
  readonly hz: number;
  /** Doppler speed is logged. */
  readonly speed: boolean;
  /** What the watch shows as cadence; null for none. */
  readonly watch?: Partial<WatchAsk> | null;
  readonly imu?: boolean;
  /** Stream, m/s, and where it flows to, degrees; boats head 40 degrees. */
  readonly stream?: { readonly mps: number; readonly toDeg: number };
}

const HEADING_DEG = 40;

const byForces = (seed: number, craft: Craft, lines: readonly Line[], aboard: AboardAsk): Simulated =>
  simulate({
    craft,
    seed,
    path: { kind: 'straight', heading_deg: HEADING_DEG },
    ...(aboard.stream ? { stream: { mps: aboard.stream.mps, to_deg: aboard.stream.toDeg } } : {}),
    script: lines.map((line): ScriptStep => {
      if ('restS' in line)
        return {
          do: 'rest',
          time_s: line.restS,
          blades: line.glide ? 'clear' : line.hold ? 'holding' : 'flat',
        };
      const named = {
        ...(line.label === undefined ? {} : { label: line.label }),
        ...(line.strength === undefined ? {} : { strength: line.strength }),
      };
      return line.startSpm === undefined
        ? { do: 'row', rate_spm: line.rateSpm, time_s: line.rowS, ...named }
        : { do: 'start', rate_spm: line.rateSpm, high_spm: line.startSpm, time_s: line.rowS, ...named };
    }),
    sensors: {
      gnss: { hz: aboard.hz, speed: aboard.speed },
      ...(aboard.imu
        ? { imu: { hz: 50, clock: 'utc' as const, mount: { yaw_deg: (seed * 37) % 360 } } }
        : {}),
    },
  });

const byMotion = (seed: number, craft: Craft, lines: readonly Line[], aboard: AboardAsk): Simulated =>
  simulateTwin({
    craft,
    seed,
    imu: aboard.imu ? { mount: 'random', rateHz: 50 } : null,
    receiver: {
      rateHz: aboard.hz,
      ...(aboard.speed ? {} : { dopplerSdMps: null }),
    },
    ...(aboard.stream ? { waters: { streamMps: aboard.stream.mps, streamToDeg: aboard.stream.toDeg } } : {}),
    script: lines.map((line) =>
      'restS' in line
        ? { restS: line.restS, glide: line.glide === true, holdWater: line.hold === true }
        : {
            rowS: line.rowS,
            rateSpm: line.rateSpm,
            ...(line.strength === undefined
              ? {}
              : { speedMps: speedAtRate(craft, line.rateSpm) * line.strength ** (1 / 3) }),
            ...(line.startSpm === undefined ? {} : { startSpm: line.startSpm }),
            ...(line.label === undefined ? {} : { label: line.label }),
          },
    ),
  });

/** A simulated outing of either simulator, with a watch's cadence where one is asked for. */
export const rowedLog = (
  simulator: Simulator,
  seed: number,
  craft: Craft,
  lines: readonly Line[],
  aboard: AboardAsk,
): Simulated => {
  const simulated = (simulator === 'twin' ? byMotion : byForces)(seed, craft, lines, aboard);
  const { truth, track } = simulated;
  if (!aboard.watch || track === null) return simulated;
  const endS = (truth.alongM.length - 1) * truth.stepS;
  const cadence = logCadence(truth.catchMarksS, endS, { ...USUAL_WATCH, ...aboard.watch });
  const { position, speed } = track.channels;
  const draft = (channel: typeof position) => ({ atS: channel!.atS, columns: channel!.columns });
  const watched: Recording = makeRecording({
    provenance: track.provenance,
    originUnixS: track.startUnixS,
    channels: {
      position: draft(position),
      ...(speed ? { speed: draft(speed) } : {}),
      cadence,
    },
  });
  return { ...simulated, track: watched };
};

/** A stretch's first stroke begins up to so long before the script says so, s: the stroke before fitted in no more. */
const EARLY_S = 4;

/** The first catch at the rate of a stretch, told from the rate of the one before by the strokes' own intervals. */
const firstCatch = (marks: readonly number[], atS: number, beforeSpm: number, afterSpm: number): number =>
  marks.find((mark, i) => {
    const rate = 60 / (marks[i + 1]! - mark);
    return mark > atS - EARLY_S && Math.abs(Math.log(rate / afterSpm)) < Math.abs(Math.log(rate / beforeSpm));
  })!;

/** The true begin and end of the stretches of a label: the first catch, and the end of the last stroke. */
export const trueEdges = (truth: Truth, label: string): readonly { fromS: number; toS: number }[] =>
  truth.stretches.flatMap((stretch, i, all) => {
    if (stretch.label !== label) return [];
    const [before, after] = [all[i - 1]?.rateSpm ?? null, all[i + 1]?.rateSpm ?? null];
    const { catchMarksS } = truth;
    const own = stretch.rateSpm!;
    const fromS = before === null ? stretch.fromS : firstCatch(catchMarksS, stretch.fromS, before, own);
    if (after !== null) return [{ fromS, toS: firstCatch(catchMarksS, stretch.toS, own, after) }];
    const marks = catchMarksS.filter((atS) => atS >= fromS && atS < stretch.toS);
    const lastS = marks.at(-1)! + (marks.at(-1)! - marks.at(-2)!);
    return [{ fromS, toS: Math.min(stretch.toS, lastS) }];
  });

/** The truth's path, read at any time. */
export const trueAlong =
  ({ alongM, stepS }: Truth) =>
  (atS: number): number => {
    const i = Math.min(alongM.length - 2, Math.max(0, Math.floor(atS / stepS)));
    return alongM[i]! + (alongM[i + 1]! - alongM[i]!) * (atS / stepS - i);
  };
