import { type Channel, type Recording, usualIntervalS } from '../recording/index.js';
import { speedRateNeededHz } from '../strokes/speed-signal.js';
import { SIGNAL_SETTINGS } from '../strokes/stroke-settings.js';
import { type CraftFamily, RATE_RANGE_SPM } from '../units/craft.js';

/** A channel that is sampled fast enough to show single strokes. */
export interface FineChannel {
  readonly source: 'imu' | 'speed';
  readonly channel: Channel;
}

const isAtLeast = (channel: Channel | undefined, leastHz: number): channel is Channel => {
  const intervalS = channel === undefined ? null : usualIntervalS(channel.atS);
  return intervalS !== null && 1 / intervalS >= leastHz;
};

/** The best channel that can show single strokes of a family of craft; null where none is fast enough. */
export const fineChannel = ({ channels }: Recording, family: CraftFamily): FineChannel | null => {
  const { acceleration, speed } = channels;
  if (isAtLeast(acceleration, SIGNAL_SETTINGS.leastRateHz)) return { source: 'imu', channel: acceleration };
  const neededHz = 0.99 * speedRateNeededHz(RATE_RANGE_SPM[family][1]);
  return isAtLeast(speed, neededHz) ? { source: 'speed', channel: speed } : null;
};
