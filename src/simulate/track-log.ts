import type { Scenario } from '../contract/scenario.js';
import { gaussMarkov } from './gauss-markov.js';
import { type Grid, valueAt } from './grid.js';
import { placeOnEarth } from './place.js';
import { randomFrom } from './random.js';

/** A track as the logger wrote it, record by record, faults and all. Times from 0 s on the true clock. */
export interface TrackLog {
  /** Stamps, s; may repeat where the scenario asks for it. */
  readonly stampS: Float64Array;
  readonly latDeg: Float64Array;
  readonly lonDeg: Float64Array;
  readonly speedMps: Float64Array | null;
}

/** Sensor values where the scenario is silent: a plain receiver on open water; common practice. */
export const GNSS_DEFAULTS = Object.freeze({
  positionSdM: 2,
  correlationS: 60,
  whiteSdM: 0.2,
  speedSdMps: 0.08,
});

/** Places that a smoothed position is the mean of. */
const SMOOTHED_PLACES = 10;

type Gnss = NonNullable<Scenario['sensors']['gnss']>;

/** True speed as the receiver takes it: at once, or as the mean over the seconds before. */
const speedLogged = (grid: Grid, gnss: Gnss): ((atS: number) => number) => {
  const smoothS = gnss.smooth_s ?? 0;
  if (smoothS <= 0) return (atS) => valueAt(grid.speedMps, grid.stepS, atS);
  return (atS) => {
    const fromS = Math.max(0, atS - smoothS);
    const spanS = atS - fromS;
    if (spanS <= 0) return grid.speedMps[0]!;
    return (valueAt(grid.alongM, grid.stepS, atS) - valueAt(grid.alongM, grid.stepS, fromS)) / spanS;
  };
};

/** True place as the receiver takes it, m east and north: at once, or as the mean over the seconds before. */
const placeLogged = (grid: Grid, gnss: Gnss) => {
  const smoothS = gnss.position_smooth_s ?? 0;
  const at = (column: Float64Array, atS: number): number => {
    if (smoothS <= 0) return valueAt(column, grid.stepS, atS);
    let sum = 0;
    for (let i = 0; i < SMOOTHED_PLACES; i++)
      sum += valueAt(column, grid.stepS, Math.max(0, atS - (smoothS * (i + 0.5)) / SMOOTHED_PLACES));
    return sum / SMOOTHED_PLACES;
  };
  return (atS: number) => ({ east: at(grid.eastM, atS), north: at(grid.northM, atS) });
};

/** The error of reflected signals at a time, m east and north; none outside their stretches. */
const reflectionError = (scenario: Scenario) => {
  const parts = (scenario.faults?.reflections ?? []).map((part, i) => ({
    ...part,
    east: gaussMarkov(randomFrom(scenario.seed, `reflection east ${i}`), part.sd_m, part.correlation_s),
    north: gaussMarkov(randomFrom(scenario.seed, `reflection north ${i}`), part.sd_m, part.correlation_s),
  }));
  return (atS: number, stepS: number) => {
    const here = parts.filter(({ from_s, to_s }) => atS >= from_s && atS < to_s);
    return {
      east: here.reduce((sum, part) => sum + part.east(stepS), 0),
      north: here.reduce((sum, part) => sum + part.north(stepS), 0),
    };
  };
};

/** The track that a receiver aboard logs. */
export const trackLog = (scenario: Scenario, gnss: Gnss, grid: Grid): TrackLog => {
  const defaults = GNSS_DEFAULTS;
  const faults = scenario.faults ?? {};
  const endS = Math.min((grid.count - 1) * grid.stepS, faults.cut_off_s ?? Number.POSITIVE_INFINITY);
  const intervalS = 1 / gnss.hz;
  const error = (name: string) => {
    const sd = gnss.position_sd_m ?? defaults.positionSdM;
    return gaussMarkov(randomFrom(scenario.seed, name), sd, gnss.correlation_s ?? defaults.correlationS);
  };
  const [eastError, northError] = [error('gnss east'), error('gnss north')];
  const white = randomFrom(scenario.seed, 'gnss white');
  const doppler = randomFrom(scenario.seed, 'gnss speed');
  const fault = randomFrom(scenario.seed, 'faults');
  const whiteSd = gnss.white_sd_m ?? defaults.whiteSdM;
  const speedSd = gnss.speed_sd_mps ?? defaults.speedSdMps;
  const origin = scenario.origin ?? { lat_deg: 0, lon_deg: 0 };
  const place = placeOnEarth({ latDeg: origin.lat_deg, lonDeg: origin.lon_deg });
  const speedOf = speedLogged(grid, gnss);
  const placeOf = placeLogged(grid, gnss);
  const reflected = reflectionError(scenario);
  const speedWander = ['ahead', 'aside'].map((way) =>
    gaussMarkov(
      randomFrom(scenario.seed, `gnss speed ${way}`),
      gnss.speed_wander_sd_mps ?? 0,
      gnss.speed_wander_s ?? defaults.correlationS,
    ),
  );

  const stamps: number[] = [];
  const lats: number[] = [];
  const lons: number[] = [];
  const speeds: number[] = [];
  for (let i = 0; i * intervalS <= endS + 1e-9; i++) {
    const atS = i * intervalS;
    const reflection = reflected(atS, intervalS);
    let east = eastError(intervalS) + whiteSd * white.normal() + reflection.east;
    let north = northError(intervalS) + whiteSd * white.normal() + reflection.north;
    const [ahead, aside] = speedWander.map((wander) => speedSd * doppler.normal() + wander(intervalS)) as [
      number,
      number,
    ];
    if (faults.gaps?.some((gap) => atS > gap.from_s && atS < gap.to_s)) continue;
    const seenS = atS - (gnss.lag_s ?? 0);
    if (faults.outliers && fault.uniform() * 100 < faults.outliers.share_pct) {
      east += faults.outliers.size_m * fault.normal();
      north += faults.outliers.size_m * fault.normal();
    }
    const seen = placeOf(seenS);
    const { latDeg, lonDeg } = place(seen.east + east, seen.north + north);
    const times = faults.duplicate_pct && fault.uniform() * 100 < faults.duplicate_pct ? 2 : 1;
    for (let copy = 0; copy < times; copy++) {
      stamps.push(gnss.whole_seconds === true ? Math.floor(atS + 1e-9) : atS);
      lats.push(latDeg);
      lons.push(lonDeg);
      // The length of a velocity with an error on each axis, so never below 0.
      speeds.push(Math.hypot(speedOf(seenS) + ahead, aside));
    }
  }
  return {
    stampS: Float64Array.from(stamps),
    latDeg: Float64Array.from(lats),
    lonDeg: Float64Array.from(lons),
    speedMps: gnss.speed === true ? Float64Array.from(speeds) : null,
  };
};
