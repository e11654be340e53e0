import { butterworth, zeroPhase } from '../../src/signal/index.js';
import { detectStrokes, scoreStrokes } from '../../src/strokes/index.js';
import type { Simulator } from './boats.js';
import { baselineStrokes } from './stroke-baseline.js';
import type { StrokeCell, StrokeLog } from './stroke-cells.js';
import { timingBoundS } from './timing-bound.js';

/** One detected stroke, judged. */
export interface Judged {
  readonly confidence: number;
  readonly real: boolean;
}

/** A cell on one simulator, over its seeds. */
export interface StrokeOutcome {
  readonly cell: StrokeCell;
  readonly simulator: Simulator;
  /** Means over the seeds; null where no strokes are made. */
  readonly f1: number | null;
  readonly sensitivity: number | null;
  readonly predictivity: number | null;
  readonly biasS: number | null;
  /** Estimate of timing at 30 spm and above, and below, s. */
  readonly spreadFastS: number | null;
  readonly spreadSlowS: number | null;
  readonly worstFalse: number;
  /** F1 of the plain way; null where it is not asked. */
  readonly baselineF1: number | null;
  /** Least possible timing spread in the sensor's own noise, s. */
  readonly boundS: number | null;
  readonly judged: readonly Judged[];
  /** What falls short, in words. */
  readonly failures: readonly string[];
}

const mean = (values: readonly (number | null)[]): number | null => {
  const known = values.filter((value) => value !== null);
  return known.length === 0 ? null : known.reduce((sum, value) => sum + value, 0) / known.length;
};

const SENSOR_NOISE_MPS2 = 0.06;

const boundOf = ({ truth, recording }: StrokeLog): number | null => {
  const channel = recording.channels.acceleration;
  if (!channel || truth.catchMarksS.length < 2) return null;
  const rateHz = (channel.atS.length - 1) / recording.durationS;
  const step = Math.max(1, Math.round(1 / rateHz / truth.stepS));
  const smooth = zeroPhase(truth.surgeMps2, butterworth(2, 2 * 5 * truth.stepS));
  return mean(
    truth.catchMarksS.slice(0, -1).map((mark, i) => {
      const next = Math.min(truth.catchMarksS[i + 1]!, mark + 2);
      const shape: number[] = [];
      for (let k = Math.round(mark / truth.stepS); k < next / truth.stepS && k < smooth.length; k += step)
        shape.push(smooth[k]!);
      return timingBoundS(shape, 1 / (step * truth.stepS), SENSOR_NOISE_MPS2);
    }),
  );
};

/** Estimate of the timing among the strokes of a range of rates: the share of the marks that it holds, scored alone. */
const spreadOf = (found: readonly number[], marks: readonly number[], wanted: (spm: number) => boolean) => {
  const chosen = marks.filter((mark, i) => {
    const next = marks[i + 1];
    return next !== undefined && wanted(60 / (next - mark));
  });
  return chosen.length < 5 ? null : scoreStrokes(found, chosen).dispersionS;
};

/** Run a cell on one simulator. Seeds count from 1. */
export const strokeOutcome = (
  cell: StrokeCell,
  simulator: Simulator,
  seeds: number,
  withBaseline: boolean,
): StrokeOutcome => {
  const runs = Array.from({ length: seeds }, (_, k) => {
    const log = cell.make(simulator, k + 1, true);
    const marks = log.truth.catchMarksS;
    const { strokes } = detectStrokes(log.recording, null, {
      craft: cell.craft,
      placement: 'hull',
      boat: null,
    });
    const found = strokes.map(({ atS }) => atS);
    const score = scoreStrokes(found, marks);
    const plain = withBaseline && cell.rowing ? cell.make(simulator, k + 1, false) : null;
    return {
      score,
      fast: spreadOf(found, marks, (spm) => spm >= 30),
      slow: spreadOf(found, marks, (spm) => spm < 30),
      baseline: plain && scoreStrokes(baselineStrokes(plain.recording, marks), marks).f1,
      bound: boundOf(log),
      judged: strokes.map(({ confidence }, i) => ({ confidence, real: score.matched[i]! })),
      made: marks.length > 0,
    };
  });
  const rowed = runs.filter(({ made }) => made);
  const f1 = mean(rowed.map(({ score }) => score.f1 ?? 0));
  const biasS = mean(rowed.map(({ score }) => score.biasS));
  const worstFalse = Math.max(...runs.map(({ score }) => score.falseCount));
  const failures: string[] = [];
  if (cell.f1Least !== null && !(f1 !== null && f1 >= cell.f1Least))
    failures.push(`F1 ${f1?.toFixed(4) ?? 'unknown'} below ${cell.f1Least}`);
  if (cell.falseMost !== null && worstFalse > cell.falseMost)
    failures.push(`${worstFalse} false strokes in one log, above ${cell.falseMost}`);
  if (biasS !== null && Math.abs(biasS) > 0.05) failures.push(`bias ${biasS.toFixed(3)} s beyond 0.05`);
  const [spreadFastS, spreadSlowS] = [mean(rowed.map((run) => run.fast)), mean(rowed.map((run) => run.slow))];
  const calm = cell.rowing && cell.name.includes('calm');
  if (calm && !(spreadFastS !== null && spreadFastS <= 0.012))
    failures.push(`spread above 30 spm ${spreadFastS?.toFixed(4)} s beyond 0.012`);
  if (calm && !(spreadSlowS !== null && spreadSlowS <= 0.025))
    failures.push(`spread below 30 spm ${spreadSlowS?.toFixed(4)} s beyond 0.025`);
  return {
    cell,
    simulator,
    f1,
    sensitivity: mean(rowed.map(({ score }) => score.sensitivity)),
    predictivity: mean(rowed.map(({ score }) => score.positivePredictivity)),
    biasS,
    spreadFastS,
    spreadSlowS,
    worstFalse,
    baselineF1: mean(rowed.map(({ baseline }) => baseline)),
    boundS: mean(rowed.map(({ bound }) => bound)),
    judged: runs.flatMap(({ judged }) => judged),
    failures,
  };
};

/** How well confidence tells: share of real strokes by confidence, and the Brier score (Brier 1950). */
export interface Reliability {
  readonly bins: readonly {
    readonly from: number;
    readonly to: number;
    readonly count: number;
    readonly real: number;
  }[];
  readonly brier: number;
  /** Share of false strokes among those above 0.9. */
  readonly falseAbove: number;
}

const BIN_BOUNDS = [0, 0.3, 0.5, 0.7, 0.8, 0.9, 0.95, 0.99, 1];

export const reliabilityOf = (judged: readonly Judged[]): Reliability => {
  const bins = BIN_BOUNDS.slice(0, -1).map((from, i) => {
    const to = BIN_BOUNDS[i + 1]!;
    const own = judged.filter(({ confidence }) => confidence >= from && (confidence < to || to === 1));
    return { from, to, count: own.length, real: own.filter(({ real }) => real).length };
  });
  const sure = judged.filter(({ confidence }) => confidence > 0.9);
  return {
    bins,
    brier:
      judged.reduce((sum, { confidence, real }) => sum + (confidence - (real ? 1 : 0)) ** 2, 0) /
      judged.length,
    falseAbove: sure.filter(({ real }) => !real).length / Math.max(1, sure.length),
  };
};
