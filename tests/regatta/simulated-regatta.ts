import { type Course, destination, type Place, straightCourse, waterLine } from '../../src/geodesy/index.js';
import { smoothTrack } from '../../src/motion/index.js';
import type { Outing } from '../../src/outing/index.js';
import type { Recording } from '../../src/recording/index.js';
import type { CrewCase } from '../../src/regatta/index.js';
import { type CrewLog, parseEntries, readCrew, stationsOf } from '../../src/regatta/index.js';
import type { Craft } from '../../src/units/craft.js';
import type { ReceiverAsk } from '../simulator/receiver.js';
import type { Step } from '../simulator/script.js';
import { simulateTwin, type Twin } from '../simulator/twin.js';

export const START: Place = { latDeg: 47.2, lonDeg: 8.6 };
export const HEADING_DEG = 40;
export const START_UNIX_S = 1_780_300_800;

/** A straight course of so many metres, marks every 500 m. */
export const courseOf = (lengthM: number): Course => {
  const finish = destination(START, HEADING_DEG, lengthM);
  return straightCourse(`${START.latDeg},${START.lonDeg}:${finish.latDeg},${finish.lonDeg}`);
};

/** A crew as it is to be rowed. */
export interface CrewAsk {
  readonly crew: string;
  readonly craft: Craft;
  readonly seed: number;
  readonly script: readonly Step[];
  /** Where its bow is at the beginning: metres along the course and right of its middle. */
  readonly bowAlongM: number;
  readonly bowRightM: number;
  readonly bowOffsetM: number;
  /** Further cells of the entry list. */
  readonly cells?: Readonly<Record<string, string>>;
  readonly receiver?: Partial<ReceiverAsk>;
}

/** What the entry list says of the logger in all boats. */
export const RECEIVER: Partial<ReceiverAsk> = {
  rateHz: 10,
  wanderSdM: 0.8,
  wanderS: 200,
  dopplerSdMps: 0.05,
};
const BOAT = { position_sd_m: 0.8, correlation_s: 200, speed_wander_sd_mps: 0 };

export const simulateCrew = (ask: CrewAsk): Twin => {
  const middle = destination(START, HEADING_DEG, ask.bowAlongM - ask.bowOffsetM);
  return simulateTwin({
    seed: ask.seed,
    craft: ask.craft,
    imu: null,
    script: ask.script,
    origin: destination(middle, HEADING_DEG + 90, ask.bowRightM),
    startUnixS: START_UNIX_S,
    waters: { headingDeg: HEADING_DEG, steeringSdDeg: 0.3 },
    receiver: { ...RECEIVER, ...ask.receiver },
  });
};

/** An outing with a track and no strokes: what a bare receiver brings home. */
export const outingOf = (recording: Recording, craft: Craft, file: string): Outing => {
  const { track, warnings } = smoothTrack(recording, { boat: BOAT });
  return {
    file,
    files: [file],
    recording,
    craft,
    placement: 'hull',
    sheet: null,
    boat: BOAT,
    stream: null,
    track,
    strokes: { strokes: [], source: null, signals: [], craft, warnings: [] },
    warnings,
  };
};

/** When the true bow last passed a line along the course, s. */
export const trueCrossingS = (twin: Twin, course: Course, index: number, bowOffsetM: number): number => {
  const { left, right } = course.lines[index]!;
  const line = waterLine(right, left)!;
  const { eastM, northM, stepS } = twin.truth;
  let found = Number.NaN;
  let before = 0;
  // A grid of 0.1 s, then straight between: a boat changes its speed by 0.5 m/s in that time at most.
  for (let i = 0; i < eastM.length; i += 10) {
    const j = Math.max(10, i);
    const east = eastM[j]! - eastM[j - 10]!;
    const north = northM[j]! - northM[j - 10]!;
    const step = Math.hypot(east, north);
    const way = step > 1e-4 ? [east / step, north / step] : [line.right.eastM, line.right.northM];
    const bow =
      line.offsetOf({ latDeg: twin.latDeg[i]!, lonDeg: twin.lonDeg[i]! }).acrossM +
      bowOffsetM * (way[0]! * line.right.eastM + way[1]! * line.right.northM);
    if (i > 0 && before < 0 && bow >= 0) found = (i - 10 + (10 * before) / (before - bow)) * stepS;
    before = bow;
  }
  return found;
};

/** Crews with what their logs tell, as the command reads them. */
export const casesOf = (
  crews: readonly CrewAsk[],
  course: Course,
  event = 'M2x',
): { readonly cases: CrewCase[]; readonly twins: Twin[] } => {
  const names = [...new Set(crews.flatMap(({ cells }) => Object.keys(cells ?? {})))];
  const heading = ['event', 'crew', 'craft', 'track', ...names];
  const lines = crews.map(({ crew, craft, cells }) =>
    [event, crew, craft, `${crew}.csv`, ...names.map((name) => cells?.[name] ?? '')].join(','),
  );
  const entries = parseEntries([heading.join(','), ...lines].join('\n'), 'entries.csv');
  const stations = stationsOf(course, 5);
  const twins = crews.map(simulateCrew);
  const cases = entries.map((entry, i) => {
    const outing = outingOf(twins[i]!.track!, entry.craft, entry.track!);
    const log = readCrew(entry, outing, course, stations, false);
    if ('code' in log) throw new Error(log.code);
    return { entry, file: entry.track, log: log satisfies CrewLog };
  });
  return { cases, twins };
};
