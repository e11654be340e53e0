import { median, robustScale } from '../signal/index.js';
import type { Effort } from './effort.js';

/** When a change of rate within unbroken rowing is the border of a piece. */
export const STEP_SETTINGS = Object.freeze({
  /** A clear step: rate times at least this; 1.2 to 1.5: light rowing at 18 against work at 24. */
  clearRate: 1.3,
  /** … and speed times at least this; 1.03 to 1.1: rate to the power 1/3 gives 1.09. */
  clearSpeed: 1.05,
  /** … each side lasting at least this, s; 15 to 30: shorter is a start, a turn or a burst within a piece. */
  clearS: 20,
  /** A small step, as in a ladder: rate times at least this; 1.06 to 1.12: 18 to 20 is 1.11. */
  smallRate: 1.08,
  /** … speed times at least this; 1.01 to 1.03: 1.08 to the power 1/3 is 1.026. */
  smallSpeed: 1.015,
  /** … each side lasting at least this, s; 60 to 120: longer than the sprint that ends a race. */
  smallS: 60,
  /** From rest, a high first part up to this long is the start of a race, not a piece of its own, s; 30 to 60. */
  raceStartS: 45,
  /** Without strokes, a step of speed alone: times at least this; 1.2 to 1.4: a stream of 0.6 m/s makes 1.3. */
  speedAlone: 1.3,
  /** A candidate border has to stand this many sd above the scatter of the strokes; 4 to 6. */
  significance: 5,
  /** Fewest strokes between two candidate borders; 4 to 8. */
  fewest: 5,
});

/** A step of rate that is known to be there: how many times the rate, and how long each side lasts at least, s. */
export interface SoughtStep {
  readonly rate: number;
  readonly shortestS: number;
}

/** Efforts from `from` up to, not including, `to`. */
interface Run {
  readonly from: number;
  readonly to: number;
}

/** The best border of a run by least squares, and how many sd it stands out; null where the run is too short. */
const bestBorder = (sums: Float64Array, { from, to }: Run, scatter: number) => {
  const { fewest } = STEP_SETTINGS;
  const total = sums[to]! - sums[from]!;
  let best: { at: number; height: number } | null = null;
  for (let at = from + fewest; at <= to - fewest; at++) {
    const [left, right] = [at - from, to - at];
    const before = sums[at]! - sums[from]!;
    const gap = Math.abs(before / left - (total - before) / right);
    const height = (gap * Math.sqrt((left * right) / (left + right))) / scatter;
    if (best === null || height > best.height) best = { at, height };
  }
  return best;
};

/** Candidate borders: halved again and again where the mean steps (binary segmentation, Scott & Knott 1974). */
const candidates = (values: readonly number[]): Run[] => {
  const sums = new Float64Array(values.length + 1);
  values.forEach((value, i) => {
    sums[i + 1] = sums[i]! + value;
  });
  const steps = values.slice(1).map((value, i) => value - values[i]!);
  const scatter = Math.max(steps.length === 0 ? 0 : robustScale(steps) / Math.SQRT2, 0.005);
  const split = (run: Run): Run[] => {
    const border = bestBorder(sums, run, scatter);
    if (border === null || border.height < STEP_SETTINGS.significance) return [run];
    return [...split({ from: run.from, to: border.at }), ...split({ from: border.at, to: run.to })];
  };
  return split({ from: 0, to: values.length });
};

interface Level {
  readonly run: Run;
  readonly lengthS: number;
  readonly rate: number | null;
  readonly speed: number | null;
}

const levelOf = (efforts: readonly Effort[], run: Run): Level => {
  const part = efforts.slice(run.from, run.to);
  const known = (values: (number | null)[]) => {
    const numbers = values.filter((value) => value !== null);
    return numbers.length === 0 ? null : median(numbers);
  };
  return {
    run,
    lengthS: part.at(-1)!.toS - part[0]!.fromS,
    rate: known(part.map(({ rateSpm }) => rateSpm)),
    speed: known(part.map(({ speedMps }) => speedMps)),
  };
};

/** How clearly two neighbours differ: 0 where the border between them is none. */
const stepBetween = (a: Level, b: Level, sought: SoughtStep | null): number => {
  const set = STEP_SETTINGS;
  const shorterS = Math.min(a.lengthS, b.lengthS);
  if (a.rate === null || b.rate === null) {
    if (a.speed === null || b.speed === null || shorterS < set.clearS) return 0;
    const ratio = Math.max(a.speed, b.speed) / Math.max(Math.min(a.speed, b.speed), 0.1);
    return ratio >= set.speedAlone ? ratio : 0;
  }
  const [low, high] = a.rate < b.rate ? [a, b] : [b, a];
  const rate = high.rate! / low.rate!;
  const speed = low.speed === null || high.speed === null ? Number.POSITIVE_INFINITY : high.speed / low.speed;
  const clear = rate >= set.clearRate && speed >= set.clearSpeed && shorterS >= set.clearS;
  const small = rate >= set.smallRate && speed >= set.smallSpeed && shorterS >= set.smallS;
  const asked = sought !== null && rate >= sought.rate && shorterS >= sought.shortestS;
  return clear || small || asked ? rate : 0;
};

const closeness = (a: Level, b: Level): number =>
  a.rate !== null && b.rate !== null
    ? Math.abs(Math.log(a.rate / b.rate))
    : Math.abs(Math.log(Math.max(a.speed ?? 1, 0.1) / Math.max(b.speed ?? 1, 0.1)));

/**
 * Where rate and speed step together within unbroken rowing: indices of the efforts that begin a new level,
 * the first (0) included.
 * @param standing true where the rowing begins at rest, so that its first strokes are a start
 * @param sought a step that is looked for in the rate alone; null where nobody knows of any
 */
export const rateSteps = (
  efforts: readonly Effort[],
  standing: boolean,
  sought: SoughtStep | null = null,
): readonly number[] => {
  const values = efforts.map(({ rateSpm, speedMps }) => Math.log(Math.max(rateSpm ?? speedMps ?? 1, 0.1)));
  let levels = candidates(values).map((run) => levelOf(efforts, run));
  for (;;) {
    const weak = levels
      .slice(1)
      .map((level, i) => ({ i, before: levels[i]!, level }))
      .filter(
        ({ i, before, level }) =>
          stepBetween(before, level, sought) === 0 ||
          (i === 0 &&
            standing &&
            before.lengthS < STEP_SETTINGS.raceStartS &&
            (before.rate ?? 0) > (level.rate ?? 0)),
      )
      .sort((a, b) => closeness(a.before, a.level) - closeness(b.before, b.level))[0];
    if (weak === undefined) return levels.map(({ run }) => run.from);
    levels = [
      ...levels.slice(0, weak.i),
      levelOf(efforts, { from: weak.before.run.from, to: weak.level.run.to }),
      ...levels.slice(weak.i + 2),
    ];
  }
};
