import type { WarningCode } from '../contract/severity.js';
import type { Recording, Warning } from '../recording/index.js';
import { isoTime } from '../units/instant.js';
import { type Alignment, alignClocks, isFitting } from './align-clocks.js';
import type { ClockFit } from './join-logs.js';
import { momentOf } from './moment.js';

/** Where a log's clock lies on the clock of the main log; null where that cannot be known. */
export interface PlacedClock {
  readonly clock: ClockFit | null;
  readonly warnings: readonly Warning[];
}

/** Clocks that differ by less are taken to agree, s; 0.2 to 0.5: a receiver's own lag is as much. */
const AGREE_S = 0.4;

const overlapS = (main: Recording, log: Recording, offsetS: number): number =>
  Math.min(main.durationS, offsetS + log.durationS) - Math.max(0, offsetS);

const LAG = 'a constant lag of the receiver cannot be seen';

const byMovement = (main: Recording, log: Recording, warning: Warn): PlacedClock => {
  const found = alignClocks(main, log);
  if (found.kind === 'refused')
    return {
      clock: null,
      warnings: [
        warning(
          'no-common-clock',
          `The log has no clock in common with ${main.provenance.file} and cannot be laid on it by its movement (${found.why}), so it is left out; give the moment of its first sample with --imu-start.`,
        ),
      ],
    };
  const { clock, offsetSdS, driftSdPpm } = found;
  return {
    clock,
    warnings: [
      warning(
        'clock-aligned',
        `The log has no clock in common with ${main.provenance.file}; by how both moved, its first sample lies at ${(Number(clock.offsetS.toFixed(2)) + 0).toFixed(2)} s ± ${Math.max(0.01, offsetSdS).toFixed(2)} s and its clock ${driftWords(clock.driftPpm, driftSdPpm)} (${LAG}).`,
      ),
    ],
  };
};

/** How a clock runs; what rounds to nothing is no drift. */
const driftWords = (ppm: number, sdPpm: number): string =>
  Math.abs(ppm) < 0.5
    ? 'runs true'
    : `runs ${Math.abs(ppm).toFixed(0)} ± ${Math.max(1, sdPpm).toFixed(0)} ppm ${ppm < 0 ? 'slow' : 'fast'}`;

/** Do two absolute clocks agree with how both logs moved? */
const disagreement = (main: Recording, offsetS: number, found: Alignment, warning: Warn): Warning[] => {
  if (found.kind === 'refused') return [];
  const offS = found.clock.offsetS - offsetS;
  if (Math.abs(offS) < Math.max(AGREE_S, 4 * found.offsetSdS)) return [];
  return [
    warning(
      'clocks-disagree',
      `By its movement the log lies ${Math.abs(offS).toFixed(2)} s ${offS > 0 ? 'later' : 'earlier'} than its clock says against ${main.provenance.file}, so strokes stand at the wrong place of the track; give --imu-start ${isoTime(main.startUnixS! + found.clock.offsetS)} to mend it.`,
    ),
  ];
};

type Warn = (code: WarningCode, message: string) => Warning;

/**
 * Put a log's clock on the clock of the main log: as given, else by the absolute clocks of both, checked by how
 * both moved, else by their movement alone.
 * @param given first sample of the log as a person writes the moment; null where it is not given
 */
export const placeClock = (main: Recording, log: Recording, given: string | null): PlacedClock => {
  const warning: Warn = (code, message) => ({ code, file: log.provenance.file, where: null, message });
  const absolute = main.startUnixS !== null && log.startUnixS !== null;
  if (given === null && !absolute) return byMovement(main, log, warning);
  const offsetS = given !== null ? momentOf(main, given, null) : log.startUnixS! - main.startUnixS!;
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
  const warnings =
    given !== null || isFitting(main, log, offsetS)
      ? []
      : disagreement(main, offsetS, alignClocks(main, log), warning);
  return { clock: { offsetS, driftPpm: 0 }, warnings };
};
