/** One comparison with the truth, in the unit of its quantity. */
export interface Comparison {
  readonly quantity: string;
  readonly error: number;
  /** The sd that the tool states for this value; null where it states none. */
  readonly sd: number | null;
}

/** What a quantity has to reach. A limit left out is measured and not judged. */
export interface Gate {
  readonly quantity: string;
  readonly unit: string;
  readonly medianMost?: number;
  readonly p95Most?: number;
  readonly worstMost?: number;
  /** Of the signed error: a bias, or a share. */
  readonly meanMost?: number;
  /** Share of truths within ±2 sd, %, at least and at most. */
  readonly coveragePct?: readonly [number, number];
  /** Share of truths within ±1 sd, %, at least and at most. */
  readonly oneSdPct?: readonly [number, number];
}

/** A situation that is simulated over many seeds, and what is asked of each quantity in it. */
export interface Trial {
  readonly name: string;
  /** How it was simulated and what the tool was told, in a line. */
  readonly about: string;
  readonly seeds: number;
  /** Seeds count from 1. */
  readonly run: (seed: number) => readonly Comparison[];
  readonly gates: readonly Gate[];
}

/** What was measured of one quantity, against its gate. */
export interface Outcome {
  readonly trial: string;
  readonly gate: Gate;
  readonly count: number;
  readonly mean: number;
  readonly median: number;
  readonly p95: number;
  readonly worst: number;
  readonly meanSd: number | null;
  readonly coveragePct: number | null;
  readonly oneSdPct: number | null;
  /** What was not reached, in words; empty where all was. */
  readonly failures: readonly string[];
}

/** From so many comparisons on coverage is judged as it stands. */
const FULL = 200;

const quantileOf = (sorted: readonly number[], share: number): number => {
  const at = share * (sorted.length - 1);
  const low = Math.floor(at);
  const high = Math.min(low + 1, sorted.length - 1);
  return sorted[low]! + (at - low) * (sorted[high]! - sorted[low]!);
};

const outcomeOf = (trial: Trial, gate: Gate, all: readonly Comparison[]): Outcome => {
  const own = all.filter(({ quantity }) => quantity === gate.quantity);
  if (own.length === 0) throw new Error(`trial ${trial.name} measured nothing called ${gate.quantity}`);
  const sizes = own.map(({ error }) => Math.abs(error)).sort((a, b) => a - b);
  const stated = own.filter(({ sd }) => sd !== null);
  const within = (sds: number): number | null =>
    stated.length === 0
      ? null
      : (100 * stated.filter(({ error, sd }) => Math.abs(error) <= sds * sd!).length) / stated.length;
  const coveragePct = within(2);
  const oneSdPct = within(1);
  const [median, p95, worst] = [quantileOf(sizes, 0.5), quantileOf(sizes, 0.95), sizes.at(-1)!];
  const mean = own.reduce((sum, { error }) => sum + error, 0) / own.length;
  const failures: string[] = [];
  const most = (name: string, value: number, limit: number | undefined) => {
    if (limit !== undefined && !(value <= limit))
      failures.push(`${name} ${value.toPrecision(3)} above ${limit}`);
  };
  most('median', median, gate.medianMost);
  most('95th percentile', p95, gate.p95Most);
  most('worst', worst, gate.worstMost);
  most('mean', mean, gate.meanMost);
  // With fewer comparisons than the full trial the share itself has this sd (binomial), two of them allowed.
  const covers = (sds: number, found: number | null, asked: readonly [number, number], usual: number) => {
    const slackPct = own.length < FULL ? 2 * Math.sqrt((usual * (100 - usual)) / own.length) : 0;
    const [least, greatest] = [asked[0] - slackPct, asked[1] + slackPct];
    if (found === null || found < least || found > greatest)
      failures.push(
        `${found?.toFixed(1) ?? 'no'} % within ${sds} sd, not ${least.toFixed(0)} to ${greatest.toFixed(0)}`,
      );
  };
  if (gate.coveragePct) covers(2, coveragePct, gate.coveragePct, 95);
  if (gate.oneSdPct) covers(1, oneSdPct, gate.oneSdPct, 68);
  return {
    trial: trial.name,
    gate,
    count: own.length,
    mean,
    median,
    p95,
    worst,
    meanSd: stated.length === 0 ? null : stated.reduce((sum, { sd }) => sum + sd!, 0) / stated.length,
    coveragePct,
    oneSdPct,
    failures,
  };
};

/**
 * Run a trial over its seeds, measure every quantity and judge it.
 * @param seeds fewer than the trial's own for a quick look, in which coverage is judged less strictly
 */
export const measure = (trial: Trial, seeds = trial.seeds): readonly Outcome[] => {
  const all: Comparison[] = [];
  for (let seed = 1; seed <= seeds; seed++) all.push(...trial.run(seed));
  return trial.gates.map((gate) => outcomeOf(trial, gate, all));
};

const digits = (value: number): string => (Math.abs(value) >= 100 ? value.toFixed(0) : value.toPrecision(2));

/** What was measured, as a table for people; what falls short stands below its row. */
export const tableOf = (trial: Trial, outcomes: readonly Outcome[]): string => {
  const head = ['quantity', 'n', 'bias', 'median', 'p95', 'worst', 'mean sd', 'in 1 sd', 'in 2 sd', 'asked'];
  const asked = ({ medianMost, p95Most, worstMost, meanMost, coveragePct, oneSdPct }: Gate) =>
    [
      medianMost === undefined ? null : `median ${medianMost}`,
      p95Most === undefined ? null : `p95 ${p95Most}`,
      worstMost === undefined ? null : `worst ${worstMost}`,
      meanMost === undefined ? null : `mean ${meanMost}`,
      coveragePct === undefined ? null : `${coveragePct[0]}-${coveragePct[1]} %`,
      oneSdPct === undefined ? null : `one sd ${oneSdPct[0]}-${oneSdPct[1]} %`,
    ]
      .filter((part) => part !== null)
      .join(', ') || '-';
  const rows = outcomes.map((outcome) => [
    `${outcome.gate.quantity}, ${outcome.gate.unit}`,
    String(outcome.count),
    digits(outcome.mean),
    digits(outcome.median),
    digits(outcome.p95),
    digits(outcome.worst),
    outcome.meanSd === null ? '-' : digits(outcome.meanSd),
    outcome.oneSdPct === null ? '-' : `${outcome.oneSdPct.toFixed(1)} %`,
    outcome.coveragePct === null ? '-' : `${outcome.coveragePct.toFixed(1)} %`,
    asked(outcome.gate),
  ]);
  const widths = head.map((title, i) => Math.max(title.length, ...rows.map((row) => row[i]!.length)));
  const line = (cells: readonly string[]) =>
    `  ${cells.map((cell, i) => cell.padEnd(widths[i]!)).join('  ')}`.trimEnd();
  const body = outcomes.flatMap((outcome, i) => [
    line(rows[i]!),
    ...outcome.failures.map((failure) => `    FALLS SHORT: ${failure}`),
  ]);
  return [`${trial.name} (${trial.seeds} seeds)`, `  ${trial.about}`, line(head), ...body, ''].join('\n');
};
