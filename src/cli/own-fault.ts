import { type LogFault, logFault } from '../recording/index.js';

/** Where in the program an error was thrown: the innermost line of its stack. */
const placeOf = (error: Error): string | null => /\n\s+at ([^\n]+)/.exec(error.stack ?? '')?.[1] ?? null;

/** What the program itself failed at with one log: the log's fault as far as the others are concerned. */
export const ownFault = (file: string, error: unknown): LogFault => {
  const thrown = error instanceof Error ? error : new Error(String(error));
  return logFault(
    file,
    'own-fault',
    `thole itself failed on this log (${thrown.message}${placeOf(thrown) === null ? '' : `, in ${placeOf(thrown)}`}); please report this line and, if you can, the log`,
  );
};
