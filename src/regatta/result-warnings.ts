import type { RegattaRow } from '../contract/regatta.js';
import type { WarningCode } from '../contract/severity.js';
import type { Warning } from '../recording/index.js';
import { formatClock } from '../units/clock-time.js';
import { fastestRun, type GivenStart } from './starts.js';
import { TIMING_SETTINGS } from './time-crew.js';
import { type CrewCase, elapsedAt, finishPassage, fullSdS, type TimedCrew } from './timed-crew.js';

/** A crew's own start this far from the one given is worth a word, s. */
const START_APART_S = 30;

/** Times by hand beside those of the logs. */
export const HAND_TIME_SETTINGS = Object.freeze({
  /** sd of a time taken by hand, s; 0.3 to 1: a watch is pressed within 0.2 to 0.3 s at either end (common practice),
   * and a starter's word is not the first movement. */
  sdS: 0.5,
  /** Farther apart than so many sd of both is no chance; 2.5 to 4. */
  mostSds: 3,
});

const warning = (code: WarningCode, crew: CrewCase, message: string): Warning => ({
  code,
  file: crew.file,
  where: null,
  message,
});

const tenths = (seconds: number): string => seconds.toFixed(1);

const ofOutcome = (crew: TimedCrew): Warning[] => {
  const { entry, log, run, start, outcome } = crew;
  if (log === null && crew.file === null)
    return [
      warning('no-log', crew, `"${entry.crew}" has no log in the entries, so nothing is known of its race`),
    ];
  if (log === null) return [];
  if (outcome === null && log.end !== null && log.end.speedMps > TIMING_SETTINGS.cutOffMps)
    return [
      warning(
        'finish-not-logged',
        crew,
        `the log of "${entry.crew}" ends ${log.end.alongM.toFixed(0)} m along the course at ${tenths(log.end.speedMps)} m/s, so its finish is not known: give official_s beside it`,
      ),
    ];
  if (outcome === null)
    return [
      warning(
        'log-ends-before-start',
        crew,
        `the log of "${entry.crew}" ends before the start: check start_time and the log`,
      ),
    ];
  if (outcome === 'finished' && elapsedAt(start, finishPassage(run)) === null)
    return [
      warning(
        'start-not-seen',
        crew,
        `"${entry.crew}" finished, and its log does not show it cross the start line: give start_time in the entries, or make the line wider`,
      ),
    ];
  if (outcome === 'not_finished')
    return [
      warning(
        'no-finish',
        crew,
        `"${entry.crew}" did not cross the finish line between its ends after the start by its log`,
      ),
    ];
  return [];
};

const ofStart = (crew: TimedCrew, given: GivenStart | null): Warning[] => {
  const { entry, log, run } = crew;
  if (log === null) return [];
  if (given !== null && log.startUnixS === null)
    return [
      warning(
        'no-clock',
        crew,
        `the log of "${entry.crew}" has no clock, so its time counts from its own start`,
      ),
    ];
  const ownS = run?.start?.atS ?? null;
  if (given !== null && ownS !== null) {
    const apartS = log.startUnixS! + ownS - given.unixS;
    if (Math.abs(apartS) > START_APART_S)
      return [
        warning(
          'start-apart',
          crew,
          `"${entry.crew}" started ${tenths(Math.abs(apartS))} s ${apartS > 0 ? 'after' : 'before'} the moment that its time counts from: check start_time, the interval and the order`,
        ),
      ];
  }
  const complete = log.runs.filter(({ finished, start }) => finished && start !== null);
  if (given === null && complete.length > 1 && fastestRun(log) === run)
    return [
      warning(
        'several-runs',
        crew,
        `"${entry.crew}" went down the course ${complete.length} times: the fastest is taken; give start_time to choose another`,
      ),
    ];
  return [];
};

/** A time by hand that its log cannot have taken, with or without what was put on it. */
const ofHandTime = (row: RegattaRow, { file }: TimedCrew): Warning[] => {
  const { official_s: handS, duration_s: ownS, duration_sd_s: sdS, result_s: resultS } = row;
  if (handS === null || ownS === null || sdS === null) return [];
  const nearest = [ownS, resultS ?? ownS].reduce((a, b) =>
    Math.abs(b - handS) < Math.abs(a - handS) ? b : a,
  );
  const apartS = handS - nearest;
  if (Math.abs(apartS) <= HAND_TIME_SETTINGS.mostSds * Math.hypot(sdS, HAND_TIME_SETTINGS.sdS)) return [];
  return [
    {
      code: 'hand-time-apart',
      file,
      where: null,
      message: `the time by hand of "${row.crew}", ${formatClock(handS, 1)}, is ${tenths(Math.abs(apartS))} s ${apartS > 0 ? 'longer' : 'shorter'} than that of its log, ${formatClock(nearest, 1)} ±${tenths(sdS)}: check official_s, the start and the lines of the course`,
    },
  ];
};

const ofMargin = (crews: readonly TimedCrew[], rows: readonly RegattaRow[]): Warning[] =>
  rows.flatMap((row, i) => {
    if (row.separable !== false) return [];
    const sd = [crews[i - 1]!, crews[i]!].map((crew) => {
      const elapsed = elapsedAt(crew.start, finishPassage(crew.run));
      return elapsed === null ? 0 : fullSdS({ ...elapsed, sharedSdS: 0 });
    });
    return [
      {
        code: 'not-separable',
        file: null,
        where: row.event,
        message: `"${rows[i - 1]!.crew}" and "${row.crew}" are ${row.margin_ahead_s!.toFixed(2)} s ± ${Math.hypot(...sd).toFixed(2)} s apart: these logs cannot say who was ahead`,
      },
    ];
  });

const bowAssumed = (crews: readonly TimedCrew[]): Warning => ({
  code: 'bow-offset-assumed',
  file: null,
  where: crews[0]!.entry.event,
  message: `no bow_offset_m for ${crews.map(({ entry }) => `"${entry.crew}"`).join(', ')}: half the hull's length is assumed, which widens the ±; measure antenna to bow ball`,
});

/** Everything about one event that a reader of its results has to know. */
export const eventWarnings = (
  crews: readonly TimedCrew[],
  rows: readonly RegattaRow[],
  starts: ReadonlyMap<CrewCase, GivenStart | null>,
): Warning[] => {
  const byEntry = new Map([...starts].map(([{ entry }, given]) => [entry, given]));
  const givenTo = (crew: TimedCrew): GivenStart | null => byEntry.get(crew.entry) ?? null;
  const assumed = crews.filter(({ log, run }) => log !== null && run !== null && !log.bowOffsetKnown);
  return [
    ...crews.flatMap(ofOutcome),
    ...crews.flatMap((crew) => ofStart(crew, givenTo(crew))),
    ...rows.flatMap((row, i) => ofHandTime(row, crews[i]!)),
    ...ofMargin(crews, rows),
    ...(assumed.length === 0 ? [] : [bowAssumed(assumed)]),
  ];
};
