import type { Readable } from 'node:stream';
import type { InspectResult } from '../../contract/inspect.js';
import type { LogFault } from '../../recording/index.js';
import { inspectedSource } from '../inspected-source.js';
import type { LogOptions } from '../log-options.js';
import { logSource } from '../log-source.js';

/** What one log holds and can carry. */
export const inspectJob = async (
  file: string,
  options: LogOptions,
  stdin: Readable,
): Promise<InspectResult | LogFault> => {
  const source = await logSource(file, options, stdin);
  return 'fault' in source ? source : inspectedSource(source, options);
};
