import type { Outing } from '../outing/index.js';
import type { Stroke } from '../strokes/stroke.js';
import { firstMovement, type Moment } from './first-movement.js';
import type { Piece } from './piece.js';
import { changeOf, departureOf, stopOf } from './piece-edge.js';
import type { Work } from './work.js';

/** What the ends of a piece are taken from. */
export const END_SETTINGS = Object.freeze({
  /** sd of a catch mark as a moment, by what it was found in, s: measured on both simulators (tests/accuracy). */
  markSdS: Object.freeze({ imu: 0.05, speed: 0.08, cadence: 1.5 }),
  /** sd of the end of movement where there are no strokes, s. */
  movementSdS: 2,
  /** A first stroke's catch mark may stand so long before the movement found, s: less than half a stroke; where strokes come from a cadence, whose places are not known, less than one. */
  earlyMarkS: Object.freeze({ imu: 0.6, speed: 0.6, cadence: 2 }),
  /** A rest ends so long after the first movement on a slow track, s: strokes from there on may be of the start. */
  lateRestS: 3,
  /** … of which each follows the one before by no more than this, s: a stroke at 20 spm; straightening strokes wait. */
  mostApartS: 3,
  /** A log that ends so soon after the last stroke was cut off while the crew rowed, s; 1 to 3. */
  cutOffS: 1.5,
});

const markSdS = ({ strokes }: Pick<Outing, 'strokes'>): number =>
  strokes.source === null ? END_SETTINGS.movementSdS : END_SETTINGS.markSdS[strokes.source];

/** Do strokes show when they were rowed, and not only how many there were? */
const showsStrokes = ({ strokes }: Pick<Outing, 'strokes'>): boolean =>
  strokes.source === 'imu' || strokes.source === 'speed';

/** The first stroke of work from rest: on a slow track the rest is seen to end some strokes late. */
const firstStrokeOf = ({ strokes }: Pick<Outing, 'strokes'>, work: Work): Stroke | null => {
  const { lateRestS, mostApartS } = END_SETTINGS;
  const all = strokes.strokes;
  let i = all.findIndex(({ atS }) => atS >= (work.strokes[0]?.atS ?? work.fromS));
  if (i < 0) return null;
  while (
    i > 0 &&
    all[i - 1]!.atS >= work.fromS - lateRestS &&
    all[i]!.atS - all[i - 1]!.atS <= mostApartS &&
    all[i - 1]!.kind === 'rowing'
  )
    i--;
  return all[i]!;
};

const standingStart = (outing: Outing, work: Work): Moment => {
  const shown = showsStrokes(outing);
  const first = shown ? firstStrokeOf(outing, work) : null;
  const found = firstMovement(outing, first?.atS ?? work.fromS);
  if (found !== null) return found;
  return departureOf(outing, work) ?? { atS: first?.atS ?? work.fromS, sdS: markSdS(outing) };
};

const rollingStart = (outing: Outing, work: Work, before: Work | null): Moment => {
  if (work.givenFrom) return { atS: work.fromS, sdS: 0 };
  const change =
    before === null || !work.follows || showsStrokes(outing)
      ? null
      : changeOf(outing, before, work, work.fromS);
  return change ?? { atS: work.fromS, sdS: markSdS(outing) };
};

/** Where a piece begins, and from where its strokes count. */
export type Begin = Pick<Piece, 'fromS' | 'startSdS' | 'start' | 'strokesFromS'>;

const neighbours = (work: Work, works: readonly Work[]) => {
  const at = works.indexOf(work);
  return { before: works[at - 1] ?? null, after: works[at + 1] ?? null };
};

/**
 * Where work begins: at rest, the first movement of the hull forward; else the first catch of it.
 * @param works all work of the outing, in time order
 */
export const beginOf = (outing: Outing, work: Work, works: readonly Work[]): Begin => {
  const { atS, sdS } = work.standing
    ? standingStart(outing, work)
    : rollingStart(outing, work, neighbours(work, works).before);
  const { source } = outing.strokes;
  const earliestS = atS - (source === null ? 0 : END_SETTINGS.earlyMarkS[source]);
  const first = outing.strokes.strokes.find((stroke) => stroke.atS >= earliestS);
  const strokesFromS = work.standing ? Math.min(first?.atS ?? atS, atS) : atS;
  return { fromS: atS, startSdS: sdS, start: work.standing ? 'standing' : 'rolling', strokesFromS };
};

/** Was the log cut off while the crew rowed on? */
export const isCutOff = ({ recording, track }: Outing, { toS }: Pick<Work, 'toS'>): boolean =>
  toS >= Math.min(recording.durationS, track?.toS ?? recording.durationS) - END_SETTINGS.cutOffS;

/**
 * Where work ends: at the end of its last stroke, or at the first catch of the work that follows it.
 * @param works all work of the outing, in time order
 */
export const endOf = (outing: Outing, work: Work, works: readonly Work[]): Moment => {
  if (work.givenTo) return { atS: work.toS, sdS: 0 };
  const plain = { atS: work.toS, sdS: markSdS(outing) };
  if (showsStrokes(outing) || isCutOff(outing, work)) return plain;
  const { after } = neighbours(work, works);
  const found =
    after?.follows && after.fromS === work.toS
      ? changeOf(outing, work, after, work.toS)
      : stopOf(outing, work, after?.fromS ?? Number.POSITIVE_INFINITY);
  return found !== null && found.atS > work.fromS ? found : plain;
};
