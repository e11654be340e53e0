import * as z from 'zod';
import { averageResult } from './average.js';
import { boatFile } from './boat.js';
import { checkResult } from './check.js';
import { columnsFile } from './columns.js';
import { courseFile } from './course.js';
import { curveResult } from './curve.js';
import { defaultsFile } from './defaults.js';
import { gaugeResult } from './gauge.js';
import { inspectResult } from './inspect.js';
import { outingResult } from './outing.js';
import { paceResult } from './pace.js';
import { piecesResult } from './pieces.js';
import { plan } from './plan.js';
import { regattaResult } from './regatta.js';
import { rulesFile } from './rules.js';
import { scenario } from './scenario.js';
import { seasonResult } from './season.js';
import { seatsResult } from './seats.js';
import { strokesResult } from './strokes.js';
import { truthFile } from './truth.js';
import { workoutResult } from './workout.js';

/** Every result and every input file, by the name that `thole schema NAME` takes. */
export const SCHEMAS: Readonly<Record<string, z.ZodType>> = {
  average: averageResult,
  boat: boatFile,
  columns: columnsFile,
  course: courseFile,
  check: checkResult,
  curve: curveResult,
  defaults: defaultsFile,
  gauge: gaugeResult,
  inspect: inspectResult,
  outing: outingResult,
  pace: paceResult,
  pieces: piecesResult,
  plan,
  regatta: regattaResult,
  scenario,
  rules: rulesFile,
  season: seasonResult,
  seats: seatsResult,
  strokes: strokesResult,
  truth: truthFile,
  workout: workoutResult,
};

/** The results among them: what a command writes with `--format json`, in the frame that all results share. */
export const RESULTS: Readonly<Record<string, z.ZodType>> = Object.fromEntries(
  Object.entries(SCHEMAS).filter(
    ([, schema]) => schema instanceof z.ZodObject && Object.hasOwn(schema.shape, 'warnings'),
  ),
);
