import type { Recording, Warning } from '../recording/index.js';
import type { ClockFit } from './join-logs.js';
import { momentOf } from './moment.js';

/** Where a log's clock lies on the clock of the main log; null where that cannot be known. */
export interface PlacedClock {
  readonly clock: ClockFit | null;
  readonly warnings: readonly Warning[];
}

const overlapS = (main: Recording, log: Recording, offsetS: number): number =>
  Math.min(main.durationS, offsetS + log.durationS) - Math.max(0, offsetS);

/**
 * Put a log's clock on the clock of the main log: as told, else by the absolute clocks of both.
 * @param told first sample of the log as a person writes the moment; null where nobody told
 */
export const placeClock = (main: Recording, log: Recording, told: string | null): PlacedClock => {
  const warning = (code: string, message: string): Warning => ({
    code,
    file: log.provenance.file,
    where: null,
    message,
  });
  const offsetS =
    told !== null
      ? momentOf(main, told)
      : main.startUnixS !== null && log.startUnixS !== null
        ? log.startUnixS - main.startUnixS
        : null;
  if (offsetS === null)
    return {
      clock: null,
      warnings: [
        warning(
          'no-common-clock',
          `The log has no clock in common with ${main.provenance.file}, so it is left out; give the moment of its first sample with --imu-start.`,
        ),
      ],
    };
  if (overlapS(main, log, offsetS) <= 0)
    return {
      clock: null,
      warnings: [
        warning(
          'logs-apart',
          `By their clocks the log and ${main.provenance.file} have no time in common, so it is left out; give the moment of its first sample with --imu-start.`,
        ),
      ],
    };
  return { clock: { offsetS, driftPpm: 0 }, warnings: [] };
};
