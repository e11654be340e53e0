import type { Simulator } from './boats.js';
import { type DrawnSensor, drawnOuting, drawnScore } from './drawn-outings.js';
import { STROKE_CELLS } from './stroke-cells.js';
import { reliabilityOf, type StrokeOutcome, strokeOutcome } from './stroke-trial.js';

const SIMULATORS: readonly Simulator[] = ['twin', 'forces'];

const ratio = (value: number | null): string => (value === null ? '-' : value.toFixed(4));
const ms = (valueS: number | null): string => (valueS === null ? '-' : (1000 * valueS).toFixed(1));

const row = (outcome: StrokeOutcome): string[] => [
  outcome.cell.name,
  outcome.simulator,
  ratio(outcome.f1),
  outcome.cell.f1Least === null ? '-' : String(outcome.cell.f1Least),
  ratio(outcome.sensitivity),
  ratio(outcome.predictivity),
  String(outcome.worstFalse),
  ms(outcome.biasS),
  ms(outcome.spreadFastS),
  ms(outcome.spreadSlowS),
  ms(outcome.boundS),
  ratio(outcome.baselineF1),
];

/** Outings drawn at random, on both simulators. */
const DRAWN = 40;

const drawnLines = (): string[] => {
  const row = (name: string, simulator: Simulator, sensor: DrawnSensor): string => {
    const scores = Array.from({ length: DRAWN }, (_, k) => drawnScore(drawnOuting(k + 1, simulator, sensor)));
    const f1s = scores.map(({ f1 }) => f1).sort((p, q) => p - q);
    const mean = f1s.reduce((sum, f1) => sum + f1, 0) / DRAWN;
    const share = scores.reduce((sum, { surelyFalse }) => sum + surelyFalse, 0) / DRAWN;
    return `  ${name}, ${simulator}: F1 mean ${ratio(mean)}, median ${ratio(f1s[DRAWN / 2]!)}, tenth ${ratio(f1s[DRAWN / 10]!)}, worst ${ratio(f1s[0]!)}; false above confidence 0.9: ${(100 * share).toFixed(2)} %`;
  };
  return [
    `outings drawn at random (${DRAWN} a row; crews, rates of sampling, waves and noise well beyond the situations above; nothing is asked of them)`,
    row('any', 'twin', {}),
    row('any', 'forces', {}),
    row('with rates of rotation', 'twin', { gyro: true }),
    row('with rates of rotation', 'forces', { gyro: true }),
    row('sensor turned half-way', 'twin', { remounted: true }),
  ];
};

const HEAD = [
  'situation',
  'simulator',
  'F1',
  'asked',
  'Se',
  '+P',
  'most false',
  'bias ms',
  'spread >=30 spm',
  'spread <30',
  'bound',
  'plain peaks F1',
];

/**
 * The whole table of stroke detection: every situation on both simulators, beside plain peak finding and the
 * Cramér-Rao bound, then how far confidence can be trusted.
 * @returns text, and whether all that is asked was reached
 */
export const strokeReport = (seeds: number): { readonly text: string; readonly reached: boolean } => {
  const outcomes = STROKE_CELLS.flatMap((cell) =>
    SIMULATORS.map((simulator) => strokeOutcome(cell, simulator, seeds, true)),
  );
  const rows = [HEAD, ...outcomes.map(row)];
  const widths = HEAD.map((_, i) => Math.max(...rows.map((cells) => cells[i]!.length)));
  const lines = rows.map((cells) =>
    `  ${cells.map((text, i) => text.padEnd(widths[i]!)).join('  ')}`.trimEnd(),
  );
  const failures = outcomes.flatMap((outcome) =>
    outcome.failures.map(
      (failure) => `    FALLS SHORT: ${outcome.cell.name}, ${outcome.simulator}: ${failure}`,
    ),
  );
  const compared = outcomes.filter(({ baselineF1 }) => baselineF1 !== null);
  const errors = (of: (outcome: StrokeOutcome) => number) =>
    compared.reduce((sum, outcome) => sum + 1 - of(outcome), 0);
  const [own, plain] = [errors(({ f1 }) => f1!), errors(({ baselineF1 }) => baselineF1!)];
  if (own > plain / 10)
    failures.push(
      `    FALLS SHORT: errors ${own.toFixed(4)} above a tenth of the plain way's ${plain.toFixed(4)}`,
    );
  const { bins, brier, falseAbove } = reliabilityOf(outcomes.flatMap(({ judged }) => judged));
  if (falseAbove > 1 / 200)
    failures.push(`    FALLS SHORT: ${falseAbove.toFixed(4)} false above confidence 0.9`);
  const text = [
    `strokes (${seeds} seeds a situation and simulator; any mount; chop is the surge's rms, m/s²)`,
    ...lines,
    `  errors (1 - F1) summed over the rowing situations: ${own.toFixed(4)}, plain peaks ${plain.toFixed(4)}`,
    '',
    `confidence of strokes: Brier score ${brier.toFixed(5)}; false above 0.9: ${(100 * falseAbove).toFixed(3)} %`,
    ...bins
      .filter(({ count }) => count > 0)
      .map(
        ({ from, to, count, real }) =>
          `  ${from.toFixed(2)} to ${to.toFixed(2)}: ${count} strokes, ${((100 * real) / count).toFixed(1)} % real`,
      ),
    '',
    ...drawnLines(),
    ...failures,
    '',
  ].join('\n');
  return { text, reached: failures.length === 0 };
};
