export type { Channel, Gap } from './channel.js';
export { CHANNEL_NAMES, CHANNEL_SHAPES, type ChannelName } from './channel-name.js';
export { excerptOf } from './excerpt.js';
export {
  ACCURACY_RANGE,
  DATE_RANGE,
  firstOutside,
  PHYSICAL_RANGES,
  type PhysicalRange,
} from './physical-range.js';
export {
  type ChannelDraft,
  type Lap,
  makeRecording,
  PLACEMENTS,
  type Placement,
  type Provenance,
  type Recording,
  type RecordingDraft,
  usualIntervalS,
} from './recording.js';
export { shortened } from './shortened.js';
export { type LogFault, logFault, type Warning } from './warning.js';
