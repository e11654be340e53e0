import type { Readable } from 'node:stream';
import type { Plan } from '../../contract/plan.js';
import type { WorkoutResult } from '../../contract/workout.js';
import type { LogFault } from '../../recording/index.js';
import { workoutResultOf } from '../../workout/index.js';
import type { LogOptions } from '../log-options.js';
import { openLog } from '../open-log.js';

/** What `thole workout` is asked of each log. */
export interface WorkoutOptions extends LogOptions {
  readonly plan: Plan;
  /** Whether pictures are drawn of it; not unless given. */
  readonly drawn?: boolean;
}

/** What was asked beside what was rowed in one log. */
export const workoutJob = async (
  file: string,
  options: WorkoutOptions,
  stdin: Readable,
): Promise<WorkoutResult | LogFault> => {
  const outing = await openLog(file, options, stdin);
  return 'fault' in outing ? outing : workoutResultOf(outing, options.plan, options.drawn);
};
