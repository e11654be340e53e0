import type { Recording } from '../recording/index.js';
import { formatClock, parseClock } from '../units/clock-time.js';
import { isoTime, parseIsoTime } from '../units/instant.js';
import { nextTimeOfDay, parseTimeOfDay } from '../units/time-of-day.js';
import { LogMisfit, UserError } from '../units/user-error.js';

/** A watch that was started while the time of day was already read off may lag so much, s. */
const EARLY_S = 60;

/**
 * A moment as a person writes it, on a log's clock: a time of day (`18:05`, `18:05:30`) where the log has an
 * absolute clock, the time since its first sample (`+12:30`, `750s`, `12min`; without an absolute clock `12:30`
 * too), or an instant (`2026-05-01T17:30:00Z`).
 * @param zone IANA zone in which times of day are meant; null where clock times count from the first sample
 * @returns seconds from the log's 0 s; not checked against its length
 * @throws UserError where it is none of these; LogMisfit for an instant in a log without a clock
 */
export const momentOf = (
  log: Pick<Recording, 'provenance' | 'startUnixS' | 'durationS'>,
  text: string,
  zone: string | null,
): number => {
  const ofDayS = zone === null || log.startUnixS === null ? null : parseTimeOfDay(text);
  if (ofDayS !== null) {
    const atS = nextTimeOfDay(log.startUnixS! - EARLY_S, ofDayS, zone!) - log.startUnixS!;
    if (atS <= log.durationS) return Math.max(0, atS);
    throw new LogMisfit(
      `nothing is logged at ${text.trim()} (time of day, ${zone}): the log begins at ${isoTime(log.startUnixS!)} and lasts ${formatClock(log.durationS, 0)}; for the time since its first sample write +${text.trim()}, for another zone add --tz`,
    );
  }
  const sinceStart = parseClock(text.trim().replace(/^\+/, ''));
  if (sinceStart !== null) return sinceStart;
  const instant = parseIsoTime(text);
  if (instant === null)
    throw new UserError(
      `"${text.trim()}" is not a moment: write a time of day such as 18:05, the time since the log's first sample such as +12:30 or 750s, or an instant such as 2026-05-01T17:30:00Z`,
    );
  if (log.startUnixS === null)
    throw new LogMisfit(
      `the log has no absolute clock, so ${text.trim()} has no place in it: write the time since its first sample, such as +12:30`,
    );
  return instant - log.startUnixS;
};
