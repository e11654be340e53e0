import type { WorkoutResult } from '../../contract/workout.js';
import { workoutView } from '../../report/workout.js';
import { UserError } from '../../units/user-error.js';
import { mergedWorkout, planResultOf } from '../../workout/index.js';
import { askedPlan } from '../asked-plan.js';
import { batched } from '../batch.js';
import { command } from '../command.js';
import { switchFlag } from '../flag.js';
import { BATCH, ON_LOGS } from '../shared-flags.js';

export const workout = command({
  name: 'workout',
  summary: 'what was asked against what was done',
  operands: ['<PLAN>', '[FILE...]'],
  flags: { show: switchFlag('show the plan, expanded, with its total; no logs'), ...ON_LOGS, ...BATCH },
  about:
    'PLAN is a text as it stands on a whiteboard, or a file that holds such a text or a plan in JSON (thole schema plan). In a text, steps stand between commas: a length (2:00, 90s, 20min, 500m, 2km), then @ and a rate (28 or 28-30), @ and a split (1:50), and / and the rest after it (r 1:00 is the same); N x before a step, or before a set in brackets, repeats it. A mistake is marked under the text. The command finds its steps in the log by length, rate and order, not by the clock: a crew may start late or rest long. A stroke within 1 spm of the rate asked for is at the rate. With --strict the exit status is 1 where it was not done as asked.',
  examples: [
    { line: 'thole workout samples/outing/plan.json --show', does: 'show what the plan asks for' },
    {
      line: 'thole workout "6 x 2:00 @ 27-29 / 0:40" samples/outing/outing.gpx',
      does: 'write the plan as it stands on the whiteboard',
    },
    {
      line: 'thole workout samples/outing/plan.json samples/outing/outing.gpx',
      does: 'see step by step what was done of it',
    },
  ],
  run: async (session, options, [path, ...files]) => {
    const plan = await askedPlan(path!);
    if (options.show) {
      if (files.length > 0) throw new UserError('--show shows the plan alone: leave the logs out');
      await session.report(workoutView, planResultOf(plan), options);
      return;
    }
    if (files.length === 0) throw new UserError('name at least one log after the plan, or give --show');
    const [first, ...rest] = await batched<WorkoutResult>(session, 'workout', files, {
      ...options,
      plan,
      drawn: options.format === 'html',
    });
    if (first === undefined) return;
    const result = mergedWorkout(first, rest);
    const { rowed_count, asked_count, extra_count } = result.summary;
    if (options.strict && (rowed_count < asked_count || extra_count > 0)) session.broken();
    await session.report(workoutView, result, options);
  },
});
