import type { BoatFile } from '../contract/boat.js';
import type { SheetRow } from '../contract/sheet.js';
import type { Track } from '../motion/track.js';
import type { Placement, Recording, Warning } from '../recording/index.js';
import type { StrokeSeries } from '../strokes/stroke.js';
import type { Craft } from '../units/craft.js';
import type { Stream } from '../units/stream.js';

/** One boat, once on the water: its logs joined on one clock, its track, its strokes. */
export interface Outing {
  /** The log that names the outing: its track where it has one. */
  readonly file: string;
  /** Every log that went in. */
  readonly files: readonly string[];
  /** Track and IMU channels on one clock; 0 s is the first sample of any of them. */
  readonly recording: Recording;
  readonly craft: Craft | null;
  readonly placement: Placement;
  readonly sheet: SheetRow | null;
  readonly boat: BoatFile | null;
  /** The stream as given or as the sheet says; null where nobody said. */
  readonly stream: Stream | null;
  /** Null where there is no position; the reason is in `warnings`. */
  readonly track: Track | null;
  readonly strokes: StrokeSeries;
  /** Everything said of the logs, the track, the clocks and the strokes. */
  readonly warnings: readonly Warning[];
}
