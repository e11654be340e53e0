import type { WarningCode } from '../contract/severity.js';
import type { Interval } from '../motion/track.js';
import type { Outing } from '../outing/index.js';
import type { Warning } from '../recording/index.js';
import { formatClock } from '../units/clock-time.js';
import { LogMisfit } from '../units/user-error.js';
import { INTERRUPTION_SETTINGS, interruptedRuns, type Run } from './interrupted.js';
import { interruptionWarnings } from './interruption-warnings.js';
import { lengthPieces } from './length-pieces.js';
import { splitLightRowing } from './light-rowing.js';
import type { Piece, PieceAsk } from './piece.js';
import { beginOf, endOf, isCutOff } from './piece-ends.js';
import { dropoutWarnings } from './stroke-dropout.js';
import { type Work, workOf } from './work.js';

/** The pieces of an outing and what has to be said of them. */
export interface Found {
  readonly pieces: readonly Piece[];
  readonly warnings: readonly Warning[];
}

const nothing = (outing: Outing, code: WarningCode, message: string): Found => ({
  pieces: [],
  warnings: [{ code, file: outing.file, where: null, message }],
});

/** The piece that work is, with what interrupts it: from first movement where it began at rest. */
const pieceOfRun = (outing: Outing, run: Run, works: readonly Work[]): Piece => {
  const begin = beginOf(outing, run.works[0]!, works);
  const end = endOf(outing, run.works.at(-1)!, works);
  return {
    ...begin,
    toS: Math.max(end.atS, begin.fromS),
    outcome: null,
    interruptions: run.interruptions,
    exactM: null,
    exactS: null,
    endSdS: end.sdS,
  };
};

/**
 * The piece that a whole work is: from first movement where it began at rest.
 * @param works all work of the outing, in time order
 */
export const wholePiece = (outing: Outing, work: Work, works: readonly Work[]): Piece =>
  pieceOfRun(outing, { works: [work], interruptions: [] }, works);

const lightRowingWarning = (outing: Outing, light: readonly Work[]): Warning[] =>
  light.length === 0
    ? []
    : [
        {
          code: 'light-rowing-left-out',
          file: outing.file,
          where: light.map(({ fromS }) => `at ${fromS.toFixed(0)} s`).join(', '),
          message: `Light work is not listed as a piece (${light
            .map(
              ({ fromS, toS, rateSpm }) =>
                `${formatClock(toS - fromS, 0)}${rateSpm === null ? '' : ` at ${rateSpm.toFixed(0)} spm`}`,
            )
            .join(', ')}); name its moments with --from and --to if it is wanted.`,
        },
      ];

const unaided = (outing: Outing, works: readonly Work[], longestS: number): Found => {
  const { hard, light } = splitLightRowing(works);
  const runs = interruptedRuns(hard, works, longestS, false);
  const inside = (work: Work) =>
    runs.some((run) => run.interruptions.some(({ fromS, toS }) => work.fromS >= fromS && work.toS <= toS));
  return {
    pieces: runs.map((run) => pieceOfRun(outing, run, works)),
    warnings: lightRowingWarning(
      outing,
      light.filter((work) => !inside(work)),
    ),
  };
};

/** Work between two moments: what lies across one is cut there. */
const worksWithin = (works: readonly Work[], { fromS, toS }: Interval): readonly Work[] =>
  works.flatMap((work): Work[] => {
    if (work.toS <= fromS || work.fromS >= toS) return [];
    const [cutFrom, cutTo] = [work.fromS < fromS, work.toS > toS];
    return [
      {
        ...work,
        fromS: Math.max(fromS, work.fromS),
        toS: Math.min(toS, work.toS),
        strokes: work.strokes.filter(({ atS }) => atS >= fromS && atS < toS),
        standing: work.standing && !cutFrom,
        follows: work.follows && !cutFrom,
        ...(cutFrom ? { givenFrom: true } : {}),
        ...(cutTo ? { givenTo: true } : {}),
      },
    ];
  });

/** A piece whose moments are given: at rest or at speed where it begins. */
const pieceBetween = ({ track }: Outing, { fromS, toS }: Interval): Piece => {
  const still = track?.stationary.some((rest) => rest.fromS <= fromS && rest.toS >= fromS) ?? false;
  return {
    fromS,
    toS,
    start: still ? 'standing' : 'rolling',
    outcome: null,
    interruptions: [],
    strokesFromS: fromS,
    exactM: null,
    exactS: null,
    startSdS: 0,
    endSdS: 0,
  };
};

/**
 * The stretch between two moments of an outing.
 * @param fromS its beginning, null for that of the log; toS its end, null for that of the log
 * @throws LogMisfit where it does not lie within the log
 */
export const checkedWithin = (outing: Outing, fromS: number | null, toS: number | null): Interval => {
  const within = { fromS: fromS ?? 0, toS: toS ?? outing.recording.durationS };
  if (within.fromS < within.toS && within.fromS >= 0 && within.toS <= outing.recording.durationS)
    return within;
  throw new LogMisfit(
    `a piece from ${within.fromS.toFixed(1)} s to ${within.toS.toFixed(1)} s is not within the log, which lasts ${outing.recording.durationS.toFixed(1)} s: give moments in it, the earlier first`,
  );
};

const between = (outing: Outing, ask: Extract<PieceAsk, { kind: 'between' }>): Found => ({
  pieces: [pieceBetween(outing, checkedWithin(outing, ask.fromS, ask.toS))],
  warnings: [],
});

const laps = (outing: Outing, within: Interval | null): Found => {
  const marked = outing.recording.laps.filter(
    ({ fromS, toS }) => toS > fromS && (within === null || (fromS >= within.fromS && toS <= within.toS)),
  );
  return marked.length === 0
    ? nothing(
        outing,
        'no-laps',
        within === null
          ? 'The log marks no laps or segments of its own.'
          : 'The log marks no laps or segments of its own that lie between the moments given.',
      )
    : { pieces: marked.map((lap) => pieceBetween(outing, lap)), warnings: [] };
};

/** Where pieces are looked for, and what may interrupt one. */
export interface PieceLook {
  /** Moments between which they lie, on the outing's clock; null for all of it. */
  readonly within: Interval | null;
  /** Longest stop or slow stretch within a piece, s; 0 for none. */
  readonly longestInterruptionS: number;
}

/** The whole outing, and interruptions of up to the usual length. */
export const USUAL_LOOK: PieceLook = Object.freeze({
  within: null,
  longestInterruptionS: INTERRUPTION_SETTINGS.longestS,
});

/** That the last piece ends where the log does, and not where the crew stopped. */
const logEndWarning = (outing: Outing, pieces: readonly Piece[]): Warning[] => {
  const last = pieces.at(-1);
  return last === undefined || last.exactM !== null || last.exactS !== null || !isCutOff(outing, last)
    ? []
    : [
        {
          code: 'log-ends-in-piece',
          file: outing.file,
          where: `at ${last.toS.toFixed(1)} s`,
          message: `The log ends while the crew still rows, so piece ${pieces.length} ends with it: its end is the logger's.`,
        },
      ];
};

/**
 * The pieces of an outing, in time order.
 * @throws LogMisfit where the moments asked for do not lie within the log
 */
export const findPieces = (outing: Outing, ask: PieceAsk, look: PieceLook = USUAL_LOOK): Found => {
  const { pieces, warnings } = lookFor(outing, ask, look);
  return {
    pieces,
    warnings: [
      ...warnings,
      ...interruptionWarnings(outing.file, pieces),
      ...(ask.kind === 'between' || ask.kind === 'laps' ? [] : logEndWarning(outing, pieces)),
      ...dropoutWarnings(outing, pieces),
    ],
  };
};

const lookFor = (outing: Outing, ask: PieceAsk, look: PieceLook): Found => {
  if (ask.kind === 'between') return between(outing, ask);
  if (ask.kind === 'laps') return laps(outing, look.within);
  const all = workOf(outing);
  if (all === null)
    return nothing(
      outing,
      'rowing-unknown',
      'There are neither strokes nor positions in this log, so no pieces can be found in it.',
    );
  const works = look.within === null ? all : worksWithin(all, look.within);
  return ask.kind === 'unaided'
    ? unaided(outing, works, look.longestInterruptionS)
    : lengthPieces(outing, works, ask, look.longestInterruptionS);
};
