import { isoTime } from '../units/instant.js';
import type { CrewLog, Run } from './crew-log.js';
import { fastestRun, type GivenStart } from './starts.js';
import { type CrewCase, finishPassage, type Outcome, type TimedCrew, type TimedStart } from './timed-crew.js';

export const TIMING_SETTINGS = Object.freeze({
  /** No crew is faster over a course, m/s: 1:15 for 500 m and a strong stream. */
  fastestMps: 8.5,
  /** A log that ends on the course at more than this was cut off, m/s. */
  cutOffMps: 1.5,
  /** A crew may cross the start this long before the moment given, s. */
  earlyS: 5,
});

const runFrom = (log: CrewLog, gunS: number, lengthM: number): Run | null => {
  const after = (run: Run): boolean => {
    const passed = run.marks.filter((passage) => passage !== null);
    if (passed.length === 0) return run.start !== null && run.start.atS > gunS - TIMING_SETTINGS.earlyS;
    return passed.every(({ atS }) => atS > gunS);
  };
  const possible = (run: Run): boolean =>
    finishPassage(run)!.atS - gunS >= lengthM / TIMING_SETTINGS.fastestMps;
  return (
    log.runs.find((run) => run.finished && after(run) && possible(run)) ??
    log.runs.findLast((run) => !run.finished && after(run)) ??
    null
  );
};

const ownRun = (log: CrewLog): Run | null =>
  fastestRun(log) ?? log.runs.find(({ finished }) => finished) ?? log.runs[log.runs.length - 1] ?? null;

const outcomeOf = (crew: CrewCase, run: Run | null, start: TimedStart | null): Outcome | null => {
  if (crew.entry.excluded) return 'excluded';
  if (crew.log === null) return null;
  if (run?.finished) return 'finished';
  if (crew.log.end !== null && crew.log.end.speedMps > TIMING_SETTINGS.cutOffMps) return null;
  if (start !== null && start.atS > crew.log.extent.toS) return null;
  return run === null ? 'not_started' : 'not_finished';
};

const refuseLateStart = ({ entry }: CrewCase, log: CrewLog, gunS: number): void => {
  const done = log.runs.findLast(
    (run) => run.finished && run.start !== null && finishPassage(run)!.atS <= gunS,
  );
  if (done === undefined || log.startUnixS === null || gunS < log.extent.toS) return;
  throw entry.errorAt(
    'start_time',
    `the start of "${entry.crew}" at ${isoTime(log.startUnixS + gunS)} is after its finish at ${isoTime(log.startUnixS + finishPassage(done)!.atS)} by its log: correct the time or its offset from UTC`,
  );
};

/**
 * Choose the run of a crew that counts, and its start.
 * @param given a start that is not the crew's own; null where its own counts
 * @throws UserError where the entries' start is after the finish
 */
export const timeCrew = (crew: CrewCase, given: GivenStart | null, lengthM: number): TimedCrew => {
  const { log } = crew;
  if (log === null) return { ...crew, run: null, start: null, outcome: outcomeOf(crew, null, null) };
  if (given === null || log.startUnixS === null) {
    const run = ownRun(log);
    const start = run?.start ? { atS: run.start.atS, sharedSdS: 0, by: run.start.by } : null;
    return { ...crew, run, start, outcome: outcomeOf(crew, run, start) };
  }
  const gunS = given.unixS - log.startUnixS;
  const run = runFrom(log, gunS, lengthM);
  if (given.by === 'given' && run === null) refuseLateStart(crew, log, gunS);
  const start = { atS: gunS, sharedSdS: given.sdS, by: given.by };
  return { ...crew, run, start, outcome: outcomeOf(crew, run, start) };
};
