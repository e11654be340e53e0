import type { WarningRow } from '../contract/envelope.js';
import { impossibleFigures } from '../contract/figure-limit.js';
import { type LogFault, logFault } from '../recording/index.js';

/** A result of a command. */
interface Result {
  readonly schema: string;
  readonly warnings: readonly WarningRow[];
}

/**
 * A result without the figures that no craft can reach; a fault where none is left of it. Schemas are loaded only
 * where there is such a figure, for they take as long to load as a short log takes to read.
 * @param file the log that it is of; null where it is of several
 * @throws Error (ours) where a figure is no number
 */
export const possibleAnswer = async <Answer extends Result>(
  file: string | null,
  answer: Answer,
): Promise<Answer | LogFault> => {
  const figures = impossibleFigures(answer);
  if (figures.length === 0) return answer;
  const { SCHEMAS } = await import('../contract/schemas.js');
  const { possibleResult } = await import('../contract/possible-result.js');
  const name = answer.schema.split('/')[1]!;
  return (
    possibleResult(file, answer, figures, SCHEMAS[name]!) ??
    logFault(
      file ?? '',
      'result-impossible',
      `what comes of this log cannot be (${figures[0]!.why}), so nothing is said of it; look at its track`,
    )
  );
};
