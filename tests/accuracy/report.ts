import { measure, tableOf } from './frame.js';
import { strokeReport } from './stroke-report.js';
import { TRIALS } from './trials.js';

/** Seeds of each situation of the table of strokes. */
const STROKE_SEEDS = 20;

/** Prints every trial, or those whose name holds the words given; fails where one falls short. */
const wanted = process.argv.slice(2).join(' ');
for (const trial of TRIALS.filter(({ name }) => name.includes(wanted))) {
  const outcomes = measure(trial);
  process.stdout.write(`${tableOf(trial, outcomes)}\n`);
  if (outcomes.some(({ failures }) => failures.length > 0)) process.exitCode = 1;
}
if (wanted === '' || 'strokes'.includes(wanted)) {
  const { text, reached } = strokeReport(STROKE_SEEDS);
  process.stdout.write(`${text}\n`);
  if (!reached) process.exitCode = 1;
}
