import type { StartSource } from '../contract/regatta.js';
import type { CrewLog, Passage, Run } from './crew-log.js';
import type { Entry } from './entries.js';

/** One line of the entry list with what its log gave. */
export interface CrewCase {
  readonly entry: Entry;
  /** Its log as the command found it; null where the list names none. */
  readonly file: string | null;
  /** Null where there is no log, or one that tells nothing; the reason is among the warnings. */
  readonly log: CrewLog | null;
}

/** The moment from which a crew's time counts. */
export interface TimedStart {
  /** On the log's clock, s. */
  readonly atS: number;
  /** sd of it that other crews of the event share, s. */
  readonly sharedSdS: number;
  readonly by: StartSource;
}

/** What became of a crew. */
export type Outcome = 'finished' | 'not_finished' | 'not_started' | 'excluded';

/** A crew with the run that counts. */
export interface TimedCrew extends CrewCase {
  readonly run: Run | null;
  readonly start: TimedStart | null;
  /** Null where the log does not tell. */
  readonly outcome: Outcome | null;
}

/** A length of time with the sd that is its own and the one that it shares with the event. */
export interface Elapsed {
  readonly valueS: number;
  readonly ownSdS: number;
  readonly sharedSdS: number;
}

/** Time from a crew's start to a passage. */
export const elapsedAt = (start: TimedStart | null, passage: Passage | null): Elapsed | null => {
  if (start === null || passage === null) return null;
  const own = start.by === 'line' || start.by === 'first_movement';
  return {
    valueS: passage.atS - start.atS,
    ownSdS: own ? (passage.sinceStartSdS ?? passage.sdS) : passage.sdS,
    sharedSdS: start.sharedSdS,
  };
};

/** sd of a length of time taken for itself, s. */
export const fullSdS = ({ ownSdS, sharedSdS }: Elapsed): number => Math.hypot(ownSdS, sharedSdS);

/** The passage of the finish. */
export const finishPassage = (run: Run | null): Passage | null => run?.marks[run.marks.length - 1] ?? null;
