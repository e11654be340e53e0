// What a program that uses Thole needs, and no more: bytes and records in, results out. No file is opened, no clock
// read and nothing done at import, so that it runs in a browser as in Node.js. Results are those of the commands, as
// `jsonSchema` describes them.

export type { CurveResult } from './contract/curve.js';
export { settle } from './contract/decimals.js';
export type { WarningRow } from './contract/envelope.js';
export type { InspectResult } from './contract/inspect.js';
export { jsonSchema, SCHEMA_NAMES } from './contract/json-schema.js';
export type { OutingResult } from './contract/outing.js';
export type { PiecesResult } from './contract/pieces.js';
export { planOfSteps } from './contract/plan.js';
export { parsePlanText } from './contract/plan-text.js';
export type { RegattaResult } from './contract/regatta.js';
export type { Scenario } from './contract/scenario.js';
export type { SeasonResult } from './contract/season.js';
export type { StrokesResult } from './contract/strokes.js';
export type { WorkoutResult } from './contract/workout.js';
export { isFault, type ReadOptions, readLog } from './formats/index.js';
export { parseCourse } from './geodesy/course/course-file.js';
export type { Course } from './geodesy/index.js';
export { inspectResultOf, type Outing, type OutingAsk, openOuting, strokesResultOf } from './outing/index.js';
export {
  curvePartOf,
  curveResultOf,
  outingResultOf,
  type PartAsk,
  type PieceAsk,
  piecesResultOf,
} from './pieces/index.js';
export type { LogFault, Recording, Warning } from './recording/index.js';
export {
  type CrewCase,
  type Entry,
  parseEntries,
  type RegattaAsk,
  readCrew,
  regattaResults,
  stationsOf,
} from './regatta/index.js';
export { type LogSummary, logSummaryOf, type SeasonAsk, seasonOf } from './season/index.js';
export { type Simulated, type SimulatedFile, simulate, simulatedFiles } from './simulate/index.js';
export { UserError } from './units/user-error.js';
export { workoutResultOf } from './workout/index.js';
