import { measure, tableOf } from './frame.js';
import { TRIALS } from './trials.js';

/** Prints every trial, or those whose name holds the words given; fails where one falls short. */
const wanted = process.argv.slice(2).join(' ');
for (const trial of TRIALS.filter(({ name }) => name.includes(wanted))) {
  const outcomes = measure(trial);
  process.stdout.write(`${tableOf(trial, outcomes)}\n`);
  if (outcomes.some(({ failures }) => failures.length > 0)) process.exitCode = 1;
}
