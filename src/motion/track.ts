import type { Place } from '../geodesy/index.js';
import type { Estimate } from '../units/estimate.js';
import type { SpeedWander } from './noise.js';

export type { Place };

/** A stretch of time on the recording's clock. */
export interface Interval {
  readonly fromS: number;
  readonly toS: number;
}

/** The position errors assumed, each axis. */
export interface ErrorModel {
  /** sd of the wandering (Gauss-Markov) part, m. */
  readonly positionSdM: number;
  /** Correlation time of that part, s. */
  readonly correlationS: number;
  /** sd of the white part, m, estimated from the log. */
  readonly whiteSdM: number;
  /** sd of the white error of the logged speed, m/s; null where none is used. */
  readonly speedSdMps: number | null;
  /** Its wandering part, which comes on top: sd, m/s, and correlation time, s; from the boat file, else the log. */
  readonly speedWander: SpeedWander | null;
  readonly source: 'boat file' | 'log' | 'default';
}

/** When a track passed over a line. */
export interface Crossing {
  /** On the recording's clock, s. */
  readonly atS: number;
  /** sd of `atS`, wandering position error included, s. */
  readonly sdS: number;
  /** +1 where the line's first end lies to the left as the boat passes, -1 where to the right. */
  readonly direction: 1 | -1;
  /** Where on the line, 0 at its first end, 1 at its second; a little outside is possible when asked for. */
  readonly alongLine: number;
}

/** How a track is asked for a line. */
export interface CrossingAsk {
  readonly from: Place;
  readonly to: Place;
  /** Metres from the antenna forward to what crosses; 0 where nothing is known. */
  readonly bowOffsetM: number;
  /** sd of the bow offset, m: 0 where it was given. */
  readonly bowOffsetSdM: number;
  readonly within?: Interval;
  /** How far beyond the ends of the line still counts, m; 0 unless asked. */
  readonly marginM?: number;
}

/**
 * Where a boat was, smoothed, with what is known of the error. Everything later asks this; nothing later sums
 * raw fixes. Times are seconds on the recording's clock; an answer is null outside the track or in an outage
 * that may not be bridged.
 */
export interface Track {
  /** Unix time of 0 s, s; null without an absolute clock. */
  readonly startUnixS: number | null;
  readonly fromS: number;
  readonly toS: number;
  readonly errorModel: ErrorModel;
  /** Times of the smoothed states, s, increasing. */
  readonly atS: Float64Array;
  /** Speed over ground at those times, m/s, at least 0. */
  readonly speedMps: Float64Array;
  /** Length of the path since the track's start at those times, m, as `distanceM` counts it; never falls. */
  readonly alongM: Float64Array;
  /** Stretches in which the boat lay still. */
  readonly stationary: readonly Interval[];
  /** Stretches without fixes that are not bridged: longer ones, and where the log itself begins anew. */
  readonly outages: readonly Interval[];
  /**
   * Stretches without fixes that are bridged (10 to 40 s) from the places, speeds and courses on both sides. The path
   * runs on through them and answers hold, their sd included: the way across is good, the speed inside is a guess.
   * A piece that holds one keeps its figures and is to be marked.
   */
  readonly bridges: readonly Interval[];
  /** Smoothed speed over ground, m/s. */
  readonly speedAt: (atS: number) => number | null;
  /** Smoothed direction of travel, degrees from true north, 0 to 360; null at rest. */
  readonly headingAt: (atS: number) => number | null;
  readonly placeAt: (atS: number) => Place | null;
  /** `alongM` at any time within the track, m; constant over outages. */
  readonly alongAt: (atS: number) => number | null;
  /** Length of the path between two times, m; stationary stretches add nothing, outages are left out. */
  readonly distanceM: (fromS: number, toS: number) => Estimate | null;
  /** When the path from `fromS` on reaches `metres`: its time, and the sd of the duration from `fromS`. */
  readonly timeAfter: (
    fromS: number,
    metres: number,
  ) => { readonly atS: number; readonly durationSdS: number } | null;
  /** Every crossing of a line, in time order. */
  readonly crossings: (ask: CrossingAsk) => readonly Crossing[];
  /** sd of the time between two crossings of this track, covariance of both ends included, s. */
  readonly crossingDurationSdS: (first: Crossing, second: Crossing) => number;
  /** Greatest straight-line distance from the first place, m. */
  readonly furthestM: number;
}

/** What strokes ask of a track: how fast the boat was, and how far along its path. */
export type Progress = Pick<Track, 'speedAt' | 'alongAt'>;
