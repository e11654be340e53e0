import type { Readable } from 'node:stream';
import type { InspectResult } from '../../contract/inspect.js';
import type { LogFault } from '../../recording/index.js';
import type { LogOptions } from '../log-options.js';
import { logSource } from '../log-source.js';

/** What one log holds and can carry. The log is read while what understands it is made ready. */
export const inspectJob = async (
  file: string,
  options: LogOptions,
  stdin: Readable,
): Promise<InspectResult | LogFault> => {
  const reading = logSource(file, options, stdin);
  const { inspectedSource } = await import('../inspected-source.js');
  const source = await reading;
  return 'fault' in source ? source : inspectedSource(source, options);
};
