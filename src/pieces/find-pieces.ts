import type { WarningCode } from '../contract/severity.js';
import { lengthBetween } from '../motion/index.js';
import type { Interval } from '../motion/track.js';
import { isCovered, type Outing } from '../outing/index.js';
import type { Warning } from '../recording/index.js';
import { formatClock } from '../units/clock-time.js';
import { LogMisfit } from '../units/user-error.js';
import { firstMovement } from './first-movement.js';
import { isHarder, splitLightRowing } from './light-rowing.js';
import type { Piece, PieceAsk } from './piece.js';
import { dropoutWarnings } from './stroke-dropout.js';
import { type Work, workOf } from './work.js';

/** The pieces of an outing and what has to be said of them. */
export interface Found {
  readonly pieces: readonly Piece[];
  readonly warnings: readonly Warning[];
}

/** How pieces are matched to the length asked for. */
export const FIND_SETTINGS = Object.freeze({
  /** Work of less than this share of the length asked for is no attempt at it; 0.4 to 0.7. */
  attemptShare: 0.5,
  /** A boat that passes the mark so long after its last stroke has rowed the distance, s; 3 to 8: its run. */
  runOutS: 5,
  /** A timed piece that ends so long before its time was rowed in full, s; 2 to 5: about a stroke. */
  earlyS: 3,
});

const nothing = (outing: Outing, code: WarningCode, message: string): Found => ({
  pieces: [],
  warnings: [{ code, file: outing.file, where: null, message }],
});

/** A first stroke's catch mark may stand so long before the movement found, s; 0.4 to 0.8: less than half a stroke. */
const EARLY_MARK_S = 0.6;

const beginOf = (outing: Outing, work: Work) => {
  const rolling = { fromS: work.fromS, startSdS: markSdS(outing), start: 'rolling' as const };
  const { atS, sdS } = firstMovement(outing, work.fromS);
  const begin = work.standing ? { fromS: atS, startSdS: sdS, start: 'standing' as const } : rolling;
  const first = work.strokes.find((stroke) => stroke.atS >= begin.fromS - EARLY_MARK_S);
  return { ...begin, strokesFromS: Math.min(first?.atS ?? begin.fromS, begin.fromS) };
};

/** sd of a catch mark as a moment, by what it was found in, s: measured on simulated boats (tests/pieces). */
const MARK_SD_S = Object.freeze({ imu: 0.05, speed: 0.2, cadence: 1.5 });
/** sd of the end of movement where there are no strokes, s. */
const MOVEMENT_SD_S = 2;

const markSdS = ({ strokes }: Pick<Outing, 'strokes'>): number =>
  strokes.source === null ? MOVEMENT_SD_S : MARK_SD_S[strokes.source];

/** The piece that a whole work is: from first movement where it began at rest. */
export const wholePiece = (outing: Outing, work: Work): Piece => ({
  ...beginOf(outing, work),
  toS: work.toS,
  outcome: null,
  exactM: null,
  exactS: null,
  endSdS: markSdS(outing),
});

/** Work in a row without a rest: a race with its start and its sprint is one. */
const runsOf = (works: readonly Work[]): readonly (readonly Work[])[] => {
  const runs: Work[][] = [];
  for (const work of works) {
    const last = runs.at(-1);
    if (last && work.follows && last.at(-1)!.toS === work.fromS) last.push(work);
    else runs.push([work]);
  }
  return runs;
};

const lightRowingWarning = (outing: Outing, light: readonly Work[]): Warning[] =>
  light.length === 0
    ? []
    : [
        {
          code: 'light-rowing-left-out',
          file: outing.file,
          where: light.map(({ fromS }) => `at ${fromS.toFixed(0)} s`).join(', '),
          message: `Light rowing is not listed as a piece (${light
            .map(
              ({ fromS, toS, rateSpm }) =>
                `${formatClock(toS - fromS, 0)}${rateSpm === null ? '' : ` at ${rateSpm.toFixed(0)} spm`}`,
            )
            .join(', ')}); name its moments with --from and --to if it is wanted.`,
        },
      ];

const unaided = (outing: Outing, works: readonly Work[]): Found => {
  const { hard, light } = splitLightRowing(works);
  return {
    pieces: hard.map((work) => wholePiece(outing, work)),
    warnings: lightRowingWarning(outing, light),
  };
};

const uncovered = (outing: Outing, atS: number): Warning => ({
  code: 'piece-without-positions',
  file: outing.file,
  where: `at ${atS.toFixed(1)} s`,
  message:
    'The track holds no positions for part of the work that begins here, so no piece can be measured in it.',
});

/**
 * Begins at the head of unbroken work, measured from there; the rest of the work is not part of it. No piece
 * where its length lies in a hole of the track.
 */
const attempt = (
  outing: Outing,
  run: readonly Work[],
  ask: LengthAsk,
): { readonly piece: Piece | null; readonly fromS: number } => {
  const begin = beginOf(outing, run[0]!);
  const { fromS } = begin;
  const endS = run.at(-1)!.toS;
  const exact = { exactM: null, exactS: null, endSdS: null };
  const short = { ...begin, ...exact, toS: endS, outcome: 'stopped_short' as const, endSdS: markSdS(outing) };
  if (ask.kind === 'time') {
    const toS = fromS + ask.seconds;
    const whole: Piece = { ...begin, ...exact, toS, outcome: 'complete', exactS: ask.seconds };
    return { piece: toS > endS + FIND_SETTINGS.earlyS ? short : whole, fromS };
  }
  const track = outing.track!;
  const end = track.timeAfter(fromS, ask.metres);
  const lastS = Math.min(endS + FIND_SETTINGS.runOutS, track.toS);
  if (end !== null && end.atS <= lastS)
    return { piece: { ...begin, ...exact, toS: end.atS, outcome: 'complete', exactM: ask.metres }, fromS };
  return { piece: isCovered(track, { fromS, toS: lastS }) ? short : null, fromS };
};

type LengthAsk = Extract<PieceAsk, { kind: 'distance' | 'time' }>;

const reached = (outing: Outing, run: readonly Work[], ask: LengthAsk): number => {
  const [fromS, toS] = [run[0]!.fromS, run.at(-1)!.toS];
  return ask.kind === 'time'
    ? (toS - fromS) / ask.seconds
    : (lengthBetween(outing.track, fromS, toS) ?? 0) / ask.metres;
};

const ofLength = (outing: Outing, works: readonly Work[], ask: LengthAsk): Found => {
  const asked = ask.kind === 'time' ? formatClock(ask.seconds, 0) : `${ask.metres} m`;
  if (ask.kind === 'distance' && outing.track === null)
    return nothing(
      outing,
      'no-positions',
      `The log has no positions, so pieces of ${asked} cannot be measured.`,
    );
  const runs = runsOf(works).flatMap((run) => headsOf(run));
  const tries = runs.filter((run) => reached(outing, run, ask) >= FIND_SETTINGS.attemptShare);
  const hard = tries.filter((run) => !tries.some((other) => other !== run && isHarder(other[0]!, run[0]!)));
  const begun = hard.map((run) => attempt(outing, run, ask));
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

/** A run from each level that is harder than the one before: light rowing may lead into the piece. */
const headsOf = (run: readonly Work[]): readonly (readonly Work[])[] => {
  const cuts = run.flatMap((work, i) =>
    i === 0 || isHarder(work, run[i - 1]!) || isHarder(run[i - 1]!, work) ? [i] : [],
  );
  return cuts.map((from, i) => run.slice(from, cuts[i + 1]));
};

/** A piece whose moments are given: at rest or at speed where it begins. */
const pieceBetween = ({ track }: Outing, { fromS, toS }: Interval): Piece => {
  const still = track?.stationary.some((rest) => rest.fromS <= fromS && rest.toS >= fromS) ?? false;
  return {
    fromS,
    toS,
    start: still ? 'standing' : 'rolling',
    outcome: null,
    strokesFromS: fromS,
    exactM: null,
    exactS: null,
    startSdS: 0,
    endSdS: 0,
  };
};

const between = (outing: Outing, ask: Extract<PieceAsk, { kind: 'between' }>): Found => {
  const [fromS, toS] = [ask.fromS ?? 0, ask.toS ?? outing.recording.durationS];
  if (!(fromS < toS && fromS >= 0 && toS <= outing.recording.durationS))
    throw new LogMisfit(
      `a piece from ${fromS.toFixed(1)} s to ${toS.toFixed(1)} s is not within ${outing.file}, which lasts ${outing.recording.durationS.toFixed(1)} s: give moments in it, the earlier first`,
    );
  return { pieces: [pieceBetween(outing, { fromS, toS })], warnings: [] };
};

const laps = (outing: Outing): Found => {
  const marked = outing.recording.laps.filter(({ fromS, toS }) => toS > fromS);
  return marked.length === 0
    ? nothing(outing, 'no-laps', 'The log marks no laps or segments of its own.')
    : { pieces: marked.map((lap) => pieceBetween(outing, lap)), warnings: [] };
};

/**
 * The pieces of an outing, in time order.
 * @throws UserError where the moments asked for do not lie within the log
 */
export const findPieces = (outing: Outing, ask: PieceAsk): Found => {
  const { pieces, warnings } = lookFor(outing, ask);
  return { pieces, warnings: [...warnings, ...dropoutWarnings(outing, pieces)] };
};

const lookFor = (outing: Outing, ask: PieceAsk): Found => {
  if (ask.kind === 'between') return between(outing, ask);
  if (ask.kind === 'laps') return laps(outing);
  const works = workOf(outing);
  if (works === null)
    return nothing(
      outing,
      'rowing-unknown',
      'There are neither strokes nor positions in this log, so no pieces can be found in it.',
    );
  return ask.kind === 'unaided' ? unaided(outing, works) : ofLength(outing, works, ask);
};
