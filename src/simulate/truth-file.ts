import type { Scenario } from '../contract/scenario.js';
import type { TruthFile } from '../contract/truth.js';
import { isoTime } from '../units/instant.js';
import { valueAt } from './grid.js';
import { lineTimes } from './line-times.js';
import type { Logged } from './simulate.js';
import type { BoatTruth, TrueStretch } from './truth.js';

/** How finely the truth is written. */
const WRITTEN = Object.freeze({ stepS: 1, digits: 3 });

const rounded = (value: number): number => Number(value.toFixed(WRITTEN.digits)) + 0;

const stretchRow = (truth: BoatTruth, stretch: TrueStretch): TruthFile['stretches'][number] => {
  const marks = truth.catchMarksS.filter(
    (_, i) => truth.strokes[i]!.atS >= stretch.fromS && truth.strokes[i]!.atS < stretch.toS,
  );
  const spanS = marks.length > 1 ? marks[marks.length - 1]! - marks[0]! : 0;
  const along = (atS: number) => valueAt(truth.alongM, truth.stepS, atS);
  return {
    label: stretch.label,
    kind: stretch.kind,
    from_s: rounded(stretch.fromS),
    to_s: rounded(stretch.toS),
    asked_spm: stretch.rateSpm,
    stroke_count: marks.length,
    rate_spm: spanS > 0 ? rounded((60 * (marks.length - 1)) / spanS) : null,
    distance_m: rounded(along(stretch.toS) - along(stretch.fromS)),
  };
};

/** The truth of a simulated outing as it is written. */
export const truthFileOf = (scenario: Scenario, { name, startUnixS, truth }: Logged): TruthFile => {
  const durationS = (truth.alongM.length - 1) * truth.stepS;
  const column = (values: Float64Array): number[] =>
    Array.from({ length: Math.floor(durationS / WRITTEN.stepS) + 1 }, (_, i) =>
      rounded(valueAt(values, truth.stepS, i * WRITTEN.stepS)),
    );
  const bowOffsetM = scenario.sensors.gnss?.bow_offset_m ?? 0;
  return {
    schema: 'thole/truth/1',
    name,
    craft: scenario.craft,
    start_time: isoTime(startUnixS),
    duration_s: rounded(durationS),
    over_ground_m: rounded(truth.alongM[truth.alongM.length - 1]!),
    stroke_count: truth.strokes.length,
    stretches: truth.stretches.map((stretch) => stretchRow(truth, stretch)),
    lines: (scenario.lines ?? [])
      .flatMap(({ line, from, to }) =>
        lineTimes(truth, from, to, bowOffsetM).map((atS) => ({ line, at_s: rounded(atS) })),
      )
      .sort((a, b) => a.at_s - b.at_s),
    catch_marks_s: truth.catchMarksS.map(rounded),
    imu: scenario.sensors.imu ? { start_s: truth.imuStartS, drift_ppm: truth.imuDriftPpm } : null,
    path: {
      step_s: WRITTEN.stepS,
      along_m: column(truth.alongM),
      east_m: column(truth.eastM),
      north_m: column(truth.northM),
      speed_mps: column(truth.speedMps),
    },
  };
};
