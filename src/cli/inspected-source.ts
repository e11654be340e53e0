import type { InspectResult } from '../contract/inspect.js';
import { inspected } from '../outing/inspection.js';
import type { LogFault } from '../recording/index.js';
import type { LogOptions } from './log-options.js';
import type { LogSource } from './log-source.js';
import { joinSource } from './open-log.js';

/** What the logs of a source hold and can carry. */
export const inspectedSource = async (
  source: LogSource,
  options: LogOptions,
): Promise<InspectResult | LogFault> => {
  const joined = await joinSource(source, options);
  return 'fault' in joined ? joined : inspected(joined);
};
