import { alongCourse, type Course } from '../geodesy/index.js';
import { type Crossing, departureAfter, type Interval, type Track } from '../motion/index.js';
import type { Bow } from '../outing/index.js';
import type { Passage, Run, RunStart } from './crew-log.js';
import { metreTimes } from './metre-times.js';
import type { Station, Stations } from './station.js';

/** How runs down the course are distinguished from everything else on the water. */
export const RUN_SETTINGS = Object.freeze({
  /** A rest this near the start line, m of bow along the course, is a start from rest: boats lie on the line. */
  startReachM: 8,
  /** A rest that ended this long before the line was crossed was still a start from rest, s. */
  startReachS: 8,
  /** Share of the course over which the speed at the finish is taken. */
  finishShare: 0.1,
});

interface Finder {
  readonly track: Track;
  readonly course: Course;
  readonly stations: Stations;
  readonly bow: Bow;
}

/** Crossings of a station in the direction of the course, in time order. */
const crossingsOf = (
  { track, bow }: Finder,
  { left, right }: Station,
  within?: Interval,
): readonly Crossing[] =>
  track
    .crossings({
      from: left,
      to: right,
      bowOffsetM: bow.offsetM,
      bowOffsetSdM: bow.sdM,
      ...(within === undefined ? {} : { within }),
    })
    .filter(({ direction }) => direction === 1);

const lastBefore = (crossings: readonly Crossing[], fromS: number, toS: number): Crossing | null =>
  crossings.findLast(({ atS }) => atS > fromS && atS < toS) ?? null;

const firstAfter = (crossings: readonly Crossing[], fromS: number): Crossing | null =>
  crossings.find(({ atS }) => atS > fromS) ?? null;

/** Where along the course a bow is at a time. */
export const bowAlong = ({ track, course, bow }: Omit<Finder, 'stations'>, atS: number): number | null => {
  const place = track.placeAt(atS);
  const found = place === null ? null : alongCourse(course, place, null);
  return found === null ? null : found.alongM + bow.offsetM;
};

/** The first movement of a start from rest on the line, where there was one. */
const firstMovement = (
  finder: Finder,
  line: Crossing | null,
  fromS: number,
  toS: number,
): RunStart | null => {
  const { startReachM, startReachS } = RUN_SETTINGS;
  const rest = finder.track.stationary.findLast((stay) => stay.toS > fromS && stay.toS < toS);
  const departure = rest === undefined ? null : departureAfter(finder.track, rest.toS);
  if (rest === undefined || departure === null || departure.atS >= toS) return null;
  if (line !== null && departure.atS < line.atS - startReachS) return null;
  const alongM = bowAlong(finder, rest.toS);
  if (alongM === null || Math.abs(alongM - finder.stations.start.alongM) > startReachM) return null;
  return { ...departure, by: 'first_movement' };
};

/** Passages with the sd of the time since the start and since the passage before. */
const passagesOf = (
  track: Track,
  stations: readonly Station[],
  crossings: readonly (Crossing | null)[],
  start: { readonly run: RunStart; readonly line: Crossing | null } | null,
): (Passage | null)[] => {
  const since = (crossing: Crossing): number | null => {
    if (start === null) return null;
    return start.run.by === 'line' && start.line !== null
      ? track.crossingDurationSdS(start.line, crossing)
      : Math.hypot(start.run.sdS, crossing.sdS);
  };
  let last: Crossing | null = null;
  return crossings.map((crossing, i) => {
    if (crossing === null) {
      last = null;
      return null;
    }
    const sinceLastSdS: number | null =
      i === 0 ? since(crossing) : last === null ? null : track.crossingDurationSdS(last, crossing);
    last = crossing;
    return {
      alongM: stations[i]!.alongM,
      atS: crossing.atS,
      sdS: crossing.sdS,
      sinceStartSdS: since(crossing),
      sinceLastSdS,
    };
  });
};

const finishSpeed = (finder: Finder, finish: Crossing | null): number | null => {
  if (finish === null) return null;
  const backM = finder.course.lengthM * RUN_SETTINGS.finishShare;
  const speed = finder.track.speedAt(finish.atS);
  if (speed === null || !(speed > 0)) return null;
  const fromS = Math.max(finder.track.fromS, finish.atS - backM / speed);
  const distance = finder.track.distanceM(fromS, finish.atS);
  return distance === null || finish.atS <= fromS ? speed : distance.value / (finish.atS - fromS);
};

const runOf = (
  finder: Finder,
  line: Crossing | null,
  marks: readonly (Crossing | null)[],
  fromS: number,
  withMetres: boolean,
): Run => {
  const { track, stations } = finder;
  const firstMark = marks.find((crossing) => crossing !== null) ?? null;
  const finish = marks[marks.length - 1] ?? null;
  const untilS = firstMark?.atS ?? track.toS;
  const moved = firstMovement(finder, line, fromS, untilS);
  const start = moved ?? (line === null ? null : { atS: line.atS, sdS: line.sdS, by: 'line' as const });
  const beginS = start?.atS ?? firstMark?.atS ?? track.fromS;
  const endS = finish?.atS ?? track.toS;
  const borders = stations.borders.map((station) => {
    const same = stations.marks.findIndex(({ alongM }) => Math.abs(alongM - station.alongM) < 1e-6);
    if (same >= 0) return marks[same] ?? null;
    return firstAfter(crossingsOf(finder, station, { fromS: beginS, toS: endS }), beginS);
  });
  const from = start === null ? null : { run: start, line };
  return {
    start,
    marks: passagesOf(track, stations.marks, marks, from),
    borders: passagesOf(track, stations.borders, borders, from),
    metres: withMetres ? metreTimes(finder, { fromS: beginS, toS: endS }) : [],
    finishMps: finishSpeed(finder, finish),
    finished: finish !== null,
  };
};

/**
 * Every time a boat went down the course, its warm-up and false starts too: from each crossing of the finish back
 * through the latest crossings of the marks and the start before it, and what was begun after the last finish.
 */
export const findRuns = (finder: Finder, withMetres: boolean): readonly Run[] => {
  const { stations, track } = finder;
  const starts = crossingsOf(finder, stations.start);
  const marks = stations.marks.map((station) => crossingsOf(finder, station));
  const finishes = marks[marks.length - 1]!;
  const runs: Run[] = [];
  let doneS = track.fromS - 1;
  for (const finish of finishes) {
    let beforeS = finish.atS;
    const passed: (Crossing | null)[] = [finish];
    for (let i = marks.length - 2; i >= 0; i--) {
      const found = lastBefore(marks[i]!, doneS, beforeS);
      passed.unshift(found);
      beforeS = found?.atS ?? beforeS;
    }
    const line = lastBefore(starts, doneS, beforeS);
    runs.push(runOf(finder, line, passed, doneS, withMetres));
    doneS = finish.atS;
  }
  const begun = lastBefore(starts, doneS, track.toS + 1);
  let fromS = begun?.atS ?? doneS;
  const passed = marks.map((crossings) => {
    const found = firstAfter(crossings, fromS);
    fromS = found?.atS ?? fromS;
    return found;
  });
  if (begun !== null || passed.some((crossing) => crossing !== null))
    runs.push(runOf(finder, begun, passed, doneS, withMetres));
  return runs;
};
