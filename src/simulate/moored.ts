import type { Scenario } from '../contract/scenario.js';
import type { Grid } from './grid.js';
import { randomFrom } from './random.js';

/** How a boat lies at a mooring; common practice. */
export const MOORED_SETTINGS = Object.freeze({
  /** sd of the swing, each axis, m. */
  swayM: 0.15,
  /** Periods of the swing, s: rocking, surging on the line, and swinging round. */
  periodsS: [6.3, 23, 71],
});

/** The grid of a boat that rocks and swings at its mooring instead of going anywhere. */
export const swung = (scenario: Scenario, grid: Grid): Grid => {
  const { swayM, periodsS } = MOORED_SETTINGS;
  const path = scenario.path;
  const sd = (path?.kind === 'moored' ? path.sway_m : undefined) ?? swayM;
  const random = randomFrom(scenario.seed, 'mooring');
  const amplitude = sd * Math.sqrt(2 / periodsS.length);
  const swing = () => {
    const phases = periodsS.map(() => 2 * Math.PI * random.uniform());
    return (atS: number) =>
      periodsS.reduce(
        (sum, periodS, i) => sum + amplitude * Math.sin((2 * Math.PI * atS) / periodS + phases[i]!),
        0,
      );
  };
  const [east, north] = [swing(), swing()];
  const eastM = grid.eastM.map((_, i) => east(i * grid.stepS));
  const northM = grid.northM.map((_, i) => north(i * grid.stepS));
  const alongM = new Float64Array(grid.count);
  const speedMps = new Float64Array(grid.count);
  for (let i = 1; i < grid.count; i++) {
    const movedM = Math.hypot(eastM[i]! - eastM[i - 1]!, northM[i]! - northM[i - 1]!);
    alongM[i] = alongM[i - 1]! + movedM;
    speedMps[i] = movedM / grid.stepS;
  }
  return { ...grid, eastM, northM, alongM, speedMps };
};
