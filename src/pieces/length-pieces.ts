import type { WarningCode } from '../contract/severity.js';
import { lengthBetween } from '../motion/index.js';
import { isCovered, type Outing } from '../outing/index.js';
import type { Warning } from '../recording/index.js';
import { formatClock } from '../units/clock-time.js';
import { type Interruption, interruptedRuns, type Run } from './interrupted.js';
import { isHarder } from './light-rowing.js';
import type { Piece, PieceAsk } from './piece.js';
import { beginOf, endOf, isCutOff } from './piece-ends.js';
import type { Work } from './work.js';

/** How pieces are matched to the length asked for. */
export const LENGTH_SETTINGS = Object.freeze({
  /** Work of less than this share of the length asked for is no attempt at it; 0.4 to 0.7. */
  attemptShare: 0.5,
  /** A boat that passes the mark so long after its last stroke has rowed the distance, s; 3 to 8: its run. */
  runOutS: 5,
  /** A timed piece that ends so long before its time was rowed in full, s; 2 to 5: about a stroke. */
  earlyS: 3,
});

/** A length that pieces are asked to have. */
export type LengthAsk = Extract<PieceAsk, { kind: 'distance' | 'time' }>;

/** Pieces of a length, and those for whose length the track holds no positions. */
export interface LengthPieces {
  readonly pieces: readonly Piece[];
  readonly warnings: readonly Warning[];
}

/** Work in a row without a rest and at one level, as one: a race with its start and its sprint. */
interface Level extends Work {
  readonly works: readonly Work[];
}

const longest = (works: readonly Work[]): Work =>
  works.reduce((best, work) => (work.toS - work.fromS > best.toS - best.fromS ? work : best));

/** Levels: a new one where clearly harder or lighter work begins, and after every rest. */
const levelsOf = (works: readonly Work[]): readonly Level[] => {
  const groups: Work[][] = [];
  for (const work of works) {
    const last = groups.at(-1)?.at(-1);
    const goesOn = last !== undefined && work.follows && last.toS === work.fromS;
    if (goesOn && !isHarder(work, last) && !isHarder(last, work)) groups.at(-1)!.push(work);
    else groups.push([work]);
  }
  return groups.map((group) => {
    const { rateSpm, speedMps } = longest(group);
    return { ...group[0]!, toS: group.at(-1)!.toS, rateSpm, speedMps, works: group };
  });
};

/** Levels without those that only interrupt harder work: short and lighter than what lies on both sides. */
const withoutSlow = (levels: readonly Level[], longestS: number): readonly Level[] =>
  levels.filter((level, i) => {
    const [before, after] = [levels[i - 1], levels[i + 1]];
    return (
      level.toS - level.fromS > longestS ||
      before === undefined ||
      after === undefined ||
      !isHarder(before, level) ||
      !isHarder(after, level)
    );
  });

const reached = (outing: Outing, fromS: number, toS: number, ask: LengthAsk): number =>
  ask.kind === 'time'
    ? (toS - fromS) / ask.seconds
    : (lengthBetween(outing.track, fromS, toS) ?? 0) / ask.metres;

/**
 * Attempts at a length within a run: from the head of each level, on through what interrupts it while the length
 * is not reached.
 */
const attemptsIn = (outing: Outing, run: Run<Level>, ask: LengthAsk): readonly Run<Level>[] => {
  const attempts: Run<Level>[] = [];
  let first = 0;
  while (first < run.works.length) {
    let last = first;
    const whole = () => reached(outing, run.works[first]!.fromS, run.works[last]!.toS, ask) >= 1;
    while (last + 1 < run.works.length && !whole()) last++;
    attempts.push({
      works: run.works.slice(first, last + 1),
      interruptions: run.interruptions.slice(first, last),
    });
    first = last + 1;
  }
  return attempts;
};

const within = (interruptions: readonly Interruption[], toS: number): readonly Interruption[] =>
  interruptions.filter((interruption) => interruption.toS <= toS);

/**
 * One attempt, clocked from the head of its work as a watch would, through what interrupts it.
 * @returns no piece where its length lies where the track holds no positions
 */
const clocked = (
  outing: Outing,
  run: Run<Level>,
  works: readonly Work[],
  ask: LengthAsk,
): { readonly piece: Piece | null; readonly fromS: number } => {
  const [first, final] = [run.works[0]!, run.works.at(-1)!];
  const begin = beginOf(outing, first.works[0]!, works);
  const lastWork = final.works.at(-1)!;
  const { fromS } = begin;
  const end = endOf(outing, lastWork, works);
  const next = works[works.indexOf(lastWork) + 1];
  const exact = { exactM: null, exactS: null, endSdS: null };
  const short: Piece = {
    ...begin,
    ...exact,
    toS: end.atS,
    endSdS: end.sdS,
    outcome: isCutOff(outing, lastWork)
      ? 'log_ended'
      : next?.follows && next.fromS === lastWork.toS
        ? 'eased_off'
        : 'stopped_short',
    interruptions: run.interruptions,
  };
  if (ask.kind === 'time') {
    const toS = fromS + ask.seconds;
    if (toS > Math.min(end.atS + LENGTH_SETTINGS.earlyS, outing.recording.durationS))
      return { piece: short, fromS };
    const interruptions = within(run.interruptions, toS);
    return {
      piece: { ...begin, ...exact, toS, outcome: 'complete', exactS: ask.seconds, interruptions },
      fromS,
    };
  }
  const track = outing.track!;
  const mark = track.timeAfter(fromS, ask.metres);
  const lastS = Math.min(end.atS + LENGTH_SETTINGS.runOutS, track.toS);
  if (mark !== null && mark.atS <= lastS) {
    const interruptions = within(run.interruptions, mark.atS);
    return {
      piece: { ...begin, ...exact, toS: mark.atS, outcome: 'complete', exactM: ask.metres, interruptions },
      fromS,
    };
  }
  return { piece: isCovered(track, { fromS, toS: Math.min(end.atS, lastS) }) ? short : null, fromS };
};

const uncovered = (outing: Outing, atS: number): Warning => ({
  code: 'piece-without-positions',
  file: outing.file,
  where: `at ${atS.toFixed(1)} s`,
  message:
    'The track holds no positions for part of the work that begins here, so no piece can be measured in it.',
});

const nothing = (outing: Outing, code: WarningCode, message: string): LengthPieces => ({
  pieces: [],
  warnings: [{ code, file: outing.file, where: null, message }],
});

/**
 * Every piece of a length: from the head of work, its clock running on through short stops and slow stretches.
 * @param works all work of the outing, in time order
 * @param longestS longest interruption, s
 */
export const lengthPieces = (
  outing: Outing,
  works: readonly Work[],
  ask: LengthAsk,
  longestS: number,
): LengthPieces => {
  const asked = ask.kind === 'time' ? formatClock(ask.seconds, 0) : `${ask.metres} m`;
  if (ask.kind === 'distance' && outing.track === null)
    return nothing(
      outing,
      'no-positions',
      `The log has no positions, so pieces of ${asked} cannot be measured.`,
    );
  const levels = levelsOf(works);
  const tries = interruptedRuns(withoutSlow(levels, longestS), levels, longestS, true)
    .flatMap((run) => attemptsIn(outing, run, ask))
    .filter(
      (run) =>
        reached(outing, run.works[0]!.fromS, run.works.at(-1)!.toS, ask) >= LENGTH_SETTINGS.attemptShare,
    );
  const hard = tries.filter(
    (run) => !tries.some((other) => other !== run && isHarder(other.works[0]!, run.works[0]!)),
  );
  const begun = hard.map((run) => clocked(outing, run, works, ask));
  if (begun.length > 0)
    return {
      pieces: begun.flatMap(({ piece }) => (piece === null ? [] : [piece])),
      warnings: begun.flatMap(({ piece, fromS }) => (piece === null ? [uncovered(outing, fromS)] : [])),
    };
  return nothing(
    outing,
    'no-such-piece',
    `No unbroken work of ${asked}, or of half of it, was found; list what was found without a length, or give --from and --to.`,
  );
};
