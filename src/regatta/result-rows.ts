import type { CoursePartRow, CourseRow, MarkRow, RegattaRow } from '../contract/regatta.js';
import { type Course, startOf } from '../geodesy/index.js';
import { type Target, targetOf, targetPct } from '../outing/index.js';
import { firstAtLeast } from '../units/first-at-least.js';
import { isoTime } from '../units/instant.js';
import { splitOfSpeed } from '../units/speed.js';
import type { Passage, StrokeMarks } from './crew-log.js';
import type { Entry } from './entries.js';
import { elapsedAt, finishPassage, fullSdS, type TimedCrew } from './timed-crew.js';

/** The course as results show it. */
export const courseRowOf = (course: Course): CourseRow => ({
  file: course.name,
  centreline: course.hasCentreline,
  lines: course.lines.map((line) => ({
    line: line.kind,
    along_m: line.alongM,
    measured_along_m: startOf(course).alongM + line.measuredM,
    width_m: line.widthM,
    heading_deg: line.headingDeg,
  })),
});

/** Strokes that fill less than this share of a stretch do not speak for it. */
const LEAST_FILLED = 0.8;

/**
 * 60 (n-1) / (last mark - first mark) over strokes that follow one another, and how many there are.
 * @returns null where strokes are missing in part of the stretch: a rate of the rest would look right and be wrong
 */
const strokesOver = (
  strokes: StrokeMarks | null,
  fromS: number,
  toS: number,
): { readonly count: number; readonly rateSpm: number } | null => {
  if (strokes === null) return null;
  const { atS, isLast } = strokes;
  const first = firstAtLeast(atS, fromS);
  const end = firstAtLeast(atS, toS);
  let [count, timeS] = [0, 0];
  for (let i = first + 1; i < end; i++) {
    if (isLast[i - 1] === 1) continue;
    count++;
    timeS += atS[i]! - atS[i - 1]!;
  }
  if (count === 0 || timeS < LEAST_FILLED * (toS - fromS) - (2 * timeS) / count) return null;
  return { count: end - first, rateSpm: (60 * count) / timeS };
};

/** What lies between two places of the course. */
interface Section {
  readonly fromM: number;
  readonly toM: number;
  readonly durationS: number | null;
  readonly sdS: number | null;
  readonly speedMps: number | null;
  readonly rateSpm: number | null;
}

const sectionsOf = (
  crew: TimedCrew,
  startM: number,
  passages: readonly (Passage | null)[],
  stationsM: readonly number[],
): Section[] =>
  passages.map((passage, i) => {
    const before = i === 0 ? null : passages[i - 1]!;
    const fromM = i === 0 ? startM : stationsM[i - 1]!;
    const toM = stationsM[i]!;
    const fromS = i === 0 ? (crew.start?.atS ?? null) : (before?.atS ?? null);
    if (passage === null || fromS === null)
      return { fromM, toM, durationS: null, sdS: null, speedMps: null, rateSpm: null };
    const elapsed = i === 0 ? elapsedAt(crew.start, passage) : null;
    const durationS = passage.atS - fromS;
    return {
      fromM,
      toM,
      durationS,
      sdS: elapsed === null ? passage.sinceLastSdS : fullSdS(elapsed),
      speedMps: durationS > 0 ? (toM - fromM) / durationS : null,
      rateSpm: strokesOver(crew.log?.strokes ?? null, fromS, passage.atS)?.rateSpm ?? null,
    };
  });

const splitOrNull = (speedMps: number | null): number | null =>
  speedMps === null ? null : splitOfSpeed(speedMps);

const perStroke = (speedMps: number | null, rateSpm: number | null): number | null =>
  speedMps === null || rateSpm === null ? null : (60 * speedMps) / rateSpm;

/** The target of a crew over the course, by its craft and its `category` column. */
export const targetFor = (targets: readonly Target[], entry: Entry, lengthM: number): Target | null =>
  targetOf(targets, entry.craft, entry.extra.category || null, lengthM);

const marksOf = (crew: TimedCrew, course: Course): MarkRow[] => {
  const marks = crew.run?.marks ?? [];
  const stationsM = course.lines.slice(1).map(({ alongM }) => alongM);
  return sectionsOf(crew, startOf(course).alongM, marks, stationsM).map((section, i) => {
    const elapsed = elapsedAt(crew.start, marks[i]!);
    return {
      along_m: section.toM,
      duration_s: elapsed?.valueS ?? null,
      duration_sd_s: elapsed === null ? null : fullSdS(elapsed),
      place: null,
      section_s: section.durationS,
      section_sd_s: section.sdS,
      split_s_per_500m: splitOrNull(section.speedMps),
      rate_spm: section.rateSpm,
    };
  });
};

const partsOf = (crew: TimedCrew, course: Course, target: Target | null): CoursePartRow[] => {
  const borders = crew.run?.borders ?? [];
  const startM = startOf(course).alongM;
  const stationsM = borders.map((_, i) => startM + (course.lengthM * (i + 1)) / borders.length);
  return sectionsOf(crew, startM, borders, stationsM).map((section, i) => ({
    part: i + 1,
    from_along_m: section.fromM,
    to_along_m: section.toM,
    duration_s: section.durationS,
    duration_sd_s: section.sdS,
    rate_spm: section.rateSpm,
    speed_mps: section.speedMps,
    split_s_per_500m: splitOrNull(section.speedMps),
    distance_per_stroke_m: perStroke(section.speedMps, section.rateSpm),
    target_pct: targetPct(target, section.speedMps),
  }));
};

/** The user's own numbers put on a time: the handicap off, the penalty on. */
export const resultSeconds = (durationS: number, entry: Entry): number =>
  durationS * (1 - (entry.handicapPct ?? 0) / 100) - (entry.handicapS ?? 0) + (entry.penaltyS ?? 0);

/** A crew's row before it is ranked. */
export const rowOf = (crew: TimedCrew, course: Course, targets: readonly Target[]): RegattaRow => {
  const { entry, log, run, start } = crew;
  const finish = finishPassage(run);
  const elapsed = elapsedAt(start, finish);
  const speedMps = elapsed === null ? null : course.lengthM / elapsed.valueS;
  const strokes =
    start === null || finish === null ? null : strokesOver(log?.strokes ?? null, start.atS, finish.atS);
  const instant = (atS: number | null | undefined): string | null =>
    log?.startUnixS == null || atS == null ? null : isoTime(log.startUnixS + atS);
  const target = targetFor(targets, entry, course.lengthM);
  return {
    event: entry.event,
    place: null,
    crew: entry.crew,
    crew_number: entry.crewNumber,
    lane: entry.lane,
    craft: entry.craft,
    outcome: crew.outcome,
    start_time: instant(start?.atS),
    start_by: start?.by ?? null,
    finish_time: instant(finish?.atS),
    duration_s: elapsed?.valueS ?? null,
    duration_sd_s: elapsed === null ? null : fullSdS(elapsed),
    handicap_s: entry.handicapS,
    handicap_pct: entry.handicapPct,
    penalty_s: entry.penaltyS,
    result_s: elapsed === null ? null : resultSeconds(elapsed.valueS, entry),
    official_s: entry.officialS,
    margin_winner_s: null,
    margin_ahead_s: null,
    margin_ahead_lengths: null,
    separable: null,
    stroke_count: strokes?.count ?? null,
    rate_spm: strokes?.rateSpm ?? null,
    speed_mps: speedMps,
    split_s_per_500m: splitOrNull(speedMps),
    distance_per_stroke_m: perStroke(speedMps, strokes?.rateSpm ?? null),
    target_pct: targetPct(target, speedMps),
    track: entry.track,
    ...(run?.positions === undefined ? {} : { positions: run.positions }),
    marks: marksOf(crew, course),
    parts: partsOf(crew, course, target),
    extra: entry.extra,
  };
};
