import type { WarningRow } from '../contract/envelope.js';
import type { OutingRow } from '../contract/outing.js';
import type { RateTrace } from './rate-trace.js';
import type { SteadyRowing } from './steady-rowing.js';

/** A whole piece, as far as a season wants to know it. */
export interface PieceSummary {
  /** Number within the log, from 1. */
  readonly piece: number;
  readonly duration_s: number;
  readonly duration_sd_s: number | null;
  readonly distance_m: number;
  readonly distance_sd_m: number | null;
  readonly rate_spm: number | null;
  readonly start_time: string | null;
}

/** Where the boat was on a whole minute. */
export interface MinutePlace {
  /** Minutes since 1970-01-01T00:00Z. */
  readonly minute: number;
  readonly latDeg: number;
  readonly lonDeg: number;
}

/**
 * All that a season needs of one outing: plain data, small enough to keep and to send between processes. No
 * sample is in it, so an archive is read one log at a time.
 */
export interface LogSummary {
  /** The logs that went in, the one that names the outing first. */
  readonly files: readonly string[];
  readonly outing: OutingRow;
  readonly strokeSource: 'imu' | 'speed' | 'cadence' | null;
  readonly positionRateHz: number | null;
  readonly pieces: readonly PieceSummary[];
  /** Seconds of rowing at each whole heart rate, rising. */
  readonly heartRates: readonly { readonly bpm: number; readonly seconds: number }[];
  /** A coarse picture of the way, by which one outing in two logs is known. */
  readonly minutes: readonly MinutePlace[];
  /** What the log calls its sport; null where it says nothing. */
  readonly sport: string | null;
  /** Why it is not of a crew in a boat; null where nothing speaks against one. */
  readonly otherSport: string | null;
  /** Crew and craft as the outing sheet says, not as folders are named. */
  readonly givenCrew: string | null;
  readonly givenCraft: string | null;
  /** Rates step by step, by which one outing in two logs is known where a way does not show it. */
  readonly rates: RateTrace;
  /** Steady rowing by rate band. */
  readonly steady: readonly SteadyRowing[];
  readonly warnings: readonly WarningRow[];
}
