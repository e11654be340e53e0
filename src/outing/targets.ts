import { parseCsvFile } from '../contract/located-csv.js';
import { formatClock } from '../units/clock-time.js';
import { CRAFT_CODES, type Craft } from '../units/craft.js';

/** A time to be compared with: the user's own, over one distance. */
export interface Target {
  readonly craft: Craft;
  readonly category: string | null;
  readonly targetS: number;
  readonly distanceM: number;
}

/** The length that a target is for where the file does not say, m. */
const USUAL_M = 2000;

/** Speeds of targets, m/s: slower than a walk or faster than any crew it is a slip of the pen. */
const TARGET_SPEED_MPS = Object.freeze([1, 8] as const);

const COLUMNS = ['craft', 'category', 'target_s', 'distance_m'] as const;
const REQUIRED = 3;

/**
 * Read targets: CSV with the columns craft, category (may be empty), target_s and perhaps distance_m, the length that
 * target_s is for; 2000 m where it is not there or empty.
 * @param name the file as messages name it
 * @throws UserError with line and column where it is not valid
 */
export const parseTargets = (text: string, name: string): readonly Target[] => {
  const seen = new Map<string, number>();
  return parseCsvFile(text, name, COLUMNS, REQUIRED).map((line) => {
    const asked = line.cell('craft');
    const craft = CRAFT_CODES.find((code) => code.toLowerCase() === asked.toLowerCase());
    if (craft === undefined)
      throw line.errorAt('craft', `"${asked}" is not a craft: use one of ${CRAFT_CODES.join(' ')}`);
    const category = line.cell('category') || null;
    const targetS = line.seconds('target_s');
    const distanceM = line.number('distance_m', 100, 100_000) ?? USUAL_M;
    const [slowest, fastest] = TARGET_SPEED_MPS;
    if (targetS === null || targetS < distanceM / fastest || targetS > distanceM / slowest)
      throw line.errorAt(
        'target_s',
        `"${line.cell('target_s')}" is not a time over ${distanceM} m: write seconds such as 330.5, or 5:30.5, from ${formatClock(distanceM / fastest, 0)} to ${formatClock(distanceM / slowest, 0)}`,
      );
    const key = `${craft} ${category ?? ''} ${distanceM}`;
    const earlier = seen.get(key);
    if (earlier !== undefined)
      throw line.errorAt(
        'category',
        `line ${earlier} has a target for this craft, category and distance already: keep one`,
      );
    seen.set(key, line.line);
    return { craft, category, targetS, distanceM };
  });
};

/**
 * The target of a craft and category; without a category, the craft's only one. Of several distances the nearest.
 * @param distanceM length that is compared; null where it is not known, and then the craft must have one distance only
 * @returns null where there is none, or where several could be meant
 */
export const targetOf = (
  targets: readonly Target[],
  craft: Craft | null,
  category: string | null,
  distanceM: number | null,
): Target | null => {
  const near = targets.filter((target) => target.craft === craft);
  const exact = near.filter((target) => target.category === category);
  const fitting = exact.length > 0 ? exact : category === null ? near : [];
  if (new Set(fitting.map((target) => target.category)).size > 1) return null;
  if (distanceM === null) return fitting.length === 1 ? fitting[0]! : null;
  const away = (target: Target) => Math.abs(Math.log(target.distanceM / distanceM));
  return [...fitting].sort((a, b) => away(a) - away(b))[0] ?? null;
};

/** Speed as a share of the target's, in percent: the target's time over a length by the own time. */
export const targetPct = (target: Target | null, speedMps: number | null): number | null =>
  target === null || speedMps === null ? null : (100 * speedMps * target.targetS) / target.distanceM;
