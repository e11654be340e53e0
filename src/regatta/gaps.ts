import type { GapRow } from '../contract/regatta.js';
import { closest } from '../units/closest.js';
import { UserError } from '../units/user-error.js';
import { elapsedAt, type TimedCrew } from './timed-crew.js';

const gapsTo = (crew: TimedCrew, other: TimedCrew): GapRow => {
  const marks = (crew.run?.marks ?? []).map((passage, i) => {
    const own = elapsedAt(crew.start, passage);
    const theirs = elapsedAt(other.start, other.run?.marks[i] ?? null);
    const known = own !== null && theirs !== null;
    return {
      along_m: passage?.alongM ?? other.run?.marks[i]?.alongM ?? 0,
      gap_s: known ? own.valueS - theirs.valueS : null,
      gap_sd_s: known ? Math.hypot(own.ownSdS, theirs.ownSdS) : null,
    };
  });
  const theirs = new Map((other.run?.metres ?? []).map(({ alongM, atS }) => [alongM, atS]));
  const startsKnown = crew.start !== null && other.start !== null;
  const metres = (startsKnown ? (crew.run?.metres ?? []) : []).flatMap(({ alongM, atS }) => {
    const otherAtS = theirs.get(alongM);
    if (otherAtS === undefined) return [];
    return [{ along_m: alongM, gap_s: atS - crew.start!.atS - (otherAtS - other.start!.atS) }];
  });
  return { event: crew.entry.event, crew: crew.entry.crew, against: other.entry.crew, marks, metres };
};

/**
 * How the other crews of an event stood to its first one, at each line and at each metre; nothing where that one has no
 * run.
 * @param crews in the order of the results
 */
export const gapsToWinner = ([winner, ...others]: readonly TimedCrew[]): GapRow[] =>
  winner === undefined || winner.run === null ? [] : others.map((crew) => gapsTo(crew, winner));

/**
 * How every other crew of its events stood to one crew, at each line and at each metre.
 * @param events the crews of each event
 * @throws UserError where no event has that crew
 */
export const gapsAgainst = (events: readonly (readonly TimedCrew[])[], crew: string): GapRow[] => {
  const found = events.flatMap((crews) => {
    const other = crews.find(({ entry }) => entry.crew.toLowerCase() === crew.toLowerCase());
    return other === undefined ? [] : [{ crews, other }];
  });
  if (found.length === 0) {
    const names = events.flatMap((crews) => crews.map(({ entry }) => entry.crew));
    const near = closest(crew, names);
    throw new UserError(
      `--against: no crew is called "${crew}"${near === null ? '' : `; did you mean "${near}"`}`,
    );
  }
  return found.flatMap(({ crews, other }) =>
    crews.filter((candidate) => candidate !== other).map((candidate) => gapsTo(candidate, other)),
  );
};
