/** The quantities a recording can hold. */
export const CHANNEL_NAMES = [
  'position',
  'elevation',
  'speed',
  'distance',
  'cadence',
  'heart_rate',
  'acceleration',
  'rotation',
] as const;

export type ChannelName = (typeof CHANNEL_NAMES)[number];

/** Components and unit of each channel. */
export const CHANNEL_SHAPES: Readonly<
  Record<ChannelName, { readonly components: readonly string[]; readonly unit: string }>
> = {
  position: { components: ['lat', 'lon'], unit: 'deg' },
  elevation: { components: ['elevation'], unit: 'm' },
  speed: { components: ['speed'], unit: 'm/s' },
  distance: { components: ['distance'], unit: 'm' },
  cadence: { components: ['cadence'], unit: '1/min' },
  heart_rate: { components: ['heart_rate'], unit: '1/min' },
  acceleration: { components: ['x', 'y', 'z'], unit: 'm/s²' },
  rotation: { components: ['x', 'y', 'z'], unit: 'rad/s' },
};
