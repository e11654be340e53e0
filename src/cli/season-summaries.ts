import type { LogSummary } from '../season/index.js';
import { batch } from './batch.js';
import { keptSummary, type SeasonOptions } from './jobs/season-job.js';
import type { Session } from './session.js';

/** Summaries of logs in their order: what is kept is taken, the rest is made, on several threads. */
export const seasonSummaries = async (
  session: Session,
  files: readonly string[],
  options: SeasonOptions & Readonly<Record<string, unknown>> & { readonly jobs: number | null },
): Promise<LogSummary[]> => {
  const summaries = new Map<string, LogSummary>();
  for (const file of files) {
    const kept = await keptSummary(file, options);
    if (kept !== null) summaries.set(file, kept);
  }
  const missing = files.filter((file) => !summaries.has(file));
  for await (const made of batch<LogSummary>(session, 'season', missing, options))
    summaries.set(made.files[0]!, made);
  return files.flatMap((file) => summaries.get(file) ?? []);
};
