import { parseInputFile } from '../../contract/input-file.js';
import { plan as planFile } from '../../contract/plan.js';
import type { WorkoutResult } from '../../contract/workout.js';
import { inputText } from '../../host/input-text.js';
import { workoutView } from '../../report/workout.js';
import { UserError } from '../../units/user-error.js';
import { mergedWorkout, planResultOf } from '../../workout/index.js';
import { batched } from '../batch.js';
import { command } from '../command.js';
import { switchFlag } from '../flag.js';
import { BATCH, ON_LOGS } from '../shared-flags.js';

export const workout = command({
  name: 'workout',
  summary: 'what was asked against what was rowed',
  operands: ['<PLAN>', '[FILE...]'],
  flags: { show: switchFlag('show the plan, expanded, with its total; no logs'), ...ON_LOGS, ...BATCH },
  about:
    'Reads a plan in JSON (thole schema plan) and finds its steps in the rowing, by length, rate and order, not by the clock: a crew may start late or rest long. A stroke within 1 spm of the rate asked for is at the rate. With --strict the exit status is 1 where it was not rowed as asked.',
  examples: [
    { line: 'thole workout samples/outing/plan.json --show', does: 'show what the plan asks for' },
    {
      line: 'thole workout samples/outing/plan.json samples/outing/outing.gpx',
      does: 'see step by step what was rowed of it',
    },
  ],
  run: async (session, options, [path, ...files]) => {
    const plan = parseInputFile(planFile, await inputText(path!, 'plan'), path!).value;
    if (options.show) {
      if (files.length > 0) throw new UserError('--show shows the plan alone: leave the logs out');
      await session.report(workoutView, planResultOf(plan), options);
      return;
    }
    if (files.length === 0) throw new UserError('name at least one log after the plan, or give --show');
    const [first, ...rest] = await batched<WorkoutResult>(session, 'workout', files, { ...options, plan });
    if (first === undefined) return;
    const result = mergedWorkout(first, rest);
    const { rowed_count, asked_count, extra_count } = result.summary;
    if (options.strict && (rowed_count < asked_count || extra_count > 0)) session.broken();
    await session.report(workoutView, result, options);
  },
});
