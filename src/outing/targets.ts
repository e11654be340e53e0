import { parseCsvFile } from '../contract/located-csv.js';
import { CRAFT_CODES, type Craft } from '../units/craft.js';

/** A time to be compared with: the user's own, over 2000 m. */
export interface Target {
  readonly craft: Craft;
  readonly category: string | null;
  readonly targetS: number;
}

/** The length that targets are given for, m. */
const TARGET_M = 2000;

const COLUMNS = ['craft', 'category', 'target_s'] as const;

/**
 * Read targets: CSV with the columns craft, category (may be empty) and target_s, seconds over 2000 m.
 * @param name the file as messages name it
 * @throws UserError with line and column where it is not valid
 */
export const parseTargets = (text: string, name: string): readonly Target[] => {
  const seen = new Map<string, number>();
  return parseCsvFile(text, name, COLUMNS, COLUMNS.length).map((line) => {
    const asked = line.cell('craft');
    const craft = CRAFT_CODES.find((code) => code.toLowerCase() === asked.toLowerCase());
    if (craft === undefined)
      throw line.errorAt('craft', `"${asked}" is not a craft: use one of ${CRAFT_CODES.join(' ')}`);
    const category = line.cell('category') || null;
    const targetS = line.seconds('target_s');
    if (targetS === null || targetS < 180 || targetS > 1800)
      throw line.errorAt(
        'target_s',
        `"${line.cell('target_s')}" is not a time over 2000 m: write seconds such as 330.5, or 5:30.5, from 3 to 30 minutes`,
      );
    const key = `${craft} ${category ?? ''}`;
    const earlier = seen.get(key);
    if (earlier !== undefined)
      throw line.errorAt(
        'category',
        `line ${earlier} has a target for this craft and category already: keep one`,
      );
    seen.set(key, line.line);
    return { craft, category, targetS };
  });
};

/**
 * The target of a craft and category; without a category, the craft's only one.
 * @returns null where there is none, or where several could be meant
 */
export const targetOf = (
  targets: readonly Target[],
  craft: Craft | null,
  category: string | null,
): Target | null => {
  const near = targets.filter((target) => target.craft === craft);
  const exact = near.find((target) => target.category === category);
  return exact ?? (category === null && near.length === 1 ? near[0]! : null);
};

/** Speed as a share of the target's, in percent: the target's time over a length by the own time. */
export const targetPct = (target: Target | null, speedMps: number | null): number | null =>
  target === null || speedMps === null ? null : (100 * speedMps * target.targetS) / TARGET_M;
