import type { Recording } from '../recording/index.js';
import { parseClock } from '../units/clock-time.js';
import { parseIsoTime } from '../units/instant.js';
import { LogMisfit, UserError } from '../units/user-error.js';

/**
 * A moment as a person writes it, on a log's clock: the time since its first sample (`12:30`, `750s`,
 * `1:02:03`), or an instant (`2026-05-01T17:30:00Z`) where the log has an absolute clock.
 * @returns seconds from the log's 0 s; not checked against its length
 * @throws UserError where it is neither; LogMisfit for an instant in a log without a clock
 */
export const momentOf = (log: Pick<Recording, 'provenance' | 'startUnixS'>, text: string): number => {
  const sinceStart = parseClock(text);
  if (sinceStart !== null) return sinceStart;
  const instant = parseIsoTime(text);
  if (instant === null)
    throw new UserError(
      `"${text.trim()}" is not a moment: write the time since the log's first sample such as 12:30 or 750s, or an instant such as 2026-05-01T17:30:00Z`,
    );
  if (log.startUnixS === null)
    throw new LogMisfit(
      `${log.provenance.file} has no absolute clock, so ${text.trim()} has no place in it: write the time since its first sample, such as 12:30`,
    );
  return instant - log.startUnixS;
};
