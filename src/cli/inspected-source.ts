import type { InspectResult } from '../contract/inspect.js';
import { quickLookResultOf } from '../outing/inspection.js';
import type { LogFault } from '../recording/index.js';
import { joinSource } from './join-log.js';
import type { LogOptions } from './log-options.js';
import type { LogSource } from './log-source.js';

/** What the logs of a source hold and can carry. What finds strokes is loaded where a quick look is not enough. */
export const inspectedSource = async (
  source: LogSource,
  options: LogOptions,
): Promise<InspectResult | LogFault> => {
  const joined = await joinSource(source, options);
  if ('fault' in joined) return joined;
  const quick = quickLookResultOf(joined);
  if (quick !== null) return quick;
  const { inspectedWhole } = await import('../outing/inspected.js');
  return inspectedWhole(joined);
};
