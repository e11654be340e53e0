import type { LogSummary } from '../season/index.js';
import { batched } from './batch.js';
import { keptSummary, type SeasonOptions } from './jobs/season-job.js';
import type { Session } from './session.js';

/** What a season needs of each of its logs: what is kept of them is looked up here, the others are worked on. */
export const seasonSummaries = (
  session: Session,
  files: readonly string[],
  options: SeasonOptions & Readonly<Record<string, unknown>> & { readonly jobs: number | null },
): Promise<LogSummary[]> =>
  batched<LogSummary>(
    session,
    'season',
    files,
    options,
    options.kept === null ? null : ({ file }) => keptSummary(file, options),
  );
