import { type Channel, usualIntervalS } from '../recording/index.js';
import { butterworth, evenGrid, zeroPhase } from '../signal/index.js';
import { EVENT_SETTINGS, SOURCE_SETTINGS } from './stroke-settings.js';
import { type Surge, withoutDrift } from './surge.js';

/** Samples a second that a speed channel needs to show strokes of `fastestSpm`. */
export const speedRateNeededHz = (fastestSpm: number): number =>
  (SOURCE_SETTINGS.samplesPerStroke * fastestSpm) / 60;

/**
 * Surge acceleration from a logged speed: its slope, no faster than the samples carry.
 * @returns null where it is sampled too slowly for strokes of `fastestSpm`
 */
export const speedSurge = (channel: Channel, fastestSpm: number): Surge | null => {
  const intervalS = usualIntervalS(channel.atS);
  if (intervalS === null || 1 / intervalS < 0.99 * speedRateNeededHz(fastestSpm)) return null;
  const { rateHz } = EVENT_SETTINGS;
  const grid = evenGrid(channel.atS, channel.columns, 1 / rateHz, Math.max(0.5, 3 * intervalS));
  const cutoff = Math.min(0.8, (SOURCE_SETTINGS.speedBandShare / intervalS / rateHz) * 2);
  const speed = zeroPhase(grid.columns[0]!, butterworth(4, cutoff));
  const slope = speed.map((_, i) => {
    const [low, high] = [Math.max(0, i - 1), Math.min(speed.length - 1, i + 1)];
    return high > low ? ((speed[high]! - speed[low]!) * rateHz) / (high - low) : 0;
  });
  return {
    startS: grid.start,
    rateHz,
    mps2: withoutDrift(slope, rateHz),
    rawMps2: slope,
    heaveMps2: null,
    mask: grid.mask,
    axis: [1, 0, 0],
    up: null,
    given: false,
  };
};
