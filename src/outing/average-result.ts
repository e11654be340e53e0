import type { AverageBand, AverageResult, CyclePoint } from '../contract/average.js';
import type { WarningRow } from '../contract/envelope.js';
import { CYCLE_SETTINGS, cycleAverage, type StrokeCycle, strokeCycles } from '../strokes/index.js';
import type { Outing } from './outing.js';
import { bandEdges, usualBoundsSpm } from './rate-bands.js';
import { resultFrame } from './result-frame.js';

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

const cycleOf = (cycles: readonly StrokeCycle[]): CyclePoint[] => {
  const acceleration = cycleAverage(cycles.map(({ accelerationMps2 }) => accelerationMps2));
  const speeds = cycles.flatMap(({ hullSpeedMps }) => (hullSpeedMps === null ? [] : [hullSpeedMps]));
  const speed = speeds.length === 0 ? null : cycleAverage(speeds);
  return Array.from(acceleration.mean, (mean, k) => ({
    phase_pct: k * CYCLE_SETTINGS.stepPct,
    acceleration_mps2: mean,
    acceleration_sd_mps2: acceleration.sd?.[k] ?? null,
    hull_speed_mps: speed?.mean[k] ?? null,
    hull_speed_sd_mps: speed?.sd?.[k] ?? null,
  }));
};

const bandOf = (
  cycles: readonly StrokeCycle[],
  [from, to]: readonly [number | null, number | null],
): AverageBand[] => {
  const own = cycles.filter(
    ({ rateSpm }) => rateSpm >= (from ?? 0) && rateSpm < (to ?? Number.POSITIVE_INFINITY),
  );
  if (own.length === 0) return [];
  const speeds = own.flatMap(({ speedMps }) => (speedMps === null ? [] : [speedMps]));
  return [
    {
      from_spm: from,
      to_spm: to,
      stroke_count: own.length,
      rate_spm: meanOf(own.map(({ rateSpm }) => rateSpm)),
      speed_mps: speeds.length === 0 ? null : meanOf(speeds),
      cycle: cycleOf(own),
    },
  ];
};

/** Why there is no average stroke; null where there may be one. */
const whyNone = ({ recording, strokes, placement }: Outing): string | null => {
  if (recording.channels.acceleration === undefined)
    return 'The average stroke takes an accelerometer log, and there is none: add it with --imu FILE.';
  if (strokes.signals.every(({ source }) => source !== 'imu'))
    return 'The average stroke takes strokes found with the accelerometer, and it shows none.';
  if (placement !== 'hull')
    return `The average stroke is the hull's, and the logger's place is ${placement}: if it was fixed to the hull, say --placement hull.`;
  return null;
};

/**
 * The crew's average stroke: acceleration and speed of the hull over the cycle, from catch mark to catch mark,
 * for each range of rates.
 * @param boundsSpm rising, spm
 * @returns no bands where they cannot be known; the reason is in `warnings`
 * @throws UserError where the bounds do not rise
 */
export const averageResultOf = (
  outing: Outing,
  boundsSpm: readonly number[] = usualBoundsSpm(outing),
): AverageResult => {
  const edges = bandEdges(boundsSpm);
  const why = whyNone(outing);
  const signals = outing.strokes.signals.filter(({ source }) => source === 'imu');
  const cycles = why === null ? signals.flatMap(strokeCycles) : [];
  const said = (message: string): WarningRow[] => [
    { code: 'no-average', file: outing.file, where: null, message },
  ];
  const more =
    why !== null
      ? said(why)
      : cycles.length === 0
        ? said('The average stroke takes steady strokes, and no two neighbours here are alike.')
        : [];
  const { files, warnings, error_model } = resultFrame(outing, more);
  return {
    schema: 'thole/average/1',
    files,
    warnings,
    error_model,
    craft: outing.strokes.craft ?? outing.craft,
    bands: edges.flatMap((edge) => bandOf(cycles, edge)),
  };
};
