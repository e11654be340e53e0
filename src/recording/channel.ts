import type { ChannelName } from './channel-name.js';

/** A stretch of time in which a channel has no samples, on the recording's clock. */
export interface Gap {
  readonly fromS: number;
  readonly toS: number;
  /** `segment`: the log itself begins anew here, so nothing may be joined across; `missing`: samples lost. */
  readonly kind: 'segment' | 'missing';
}

/**
 * One measured quantity on its own time base. Sampling times travel with the samples.
 * All arrays have the same length; times strictly increase; every value is within PHYSICAL_RANGES.
 */
export interface Channel {
  readonly name: ChannelName;
  /** Sample times, seconds from the recording's start. */
  readonly atS: Float64Array;
  /** One array a component, in the order and unit of CHANNEL_SHAPES. */
  readonly columns: readonly Float64Array[];
  readonly gaps: readonly Gap[];
}
