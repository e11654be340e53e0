import type { InspectResult, RecordingRow } from '../contract/inspect.js';
import { bridgedGaps, bridgeWarnings, outageWarnings, type Track, unbridgedGaps } from '../motion/index.js';
import { CHANNEL_NAMES, CHANNEL_SHAPES, type Channel, usualIntervalS } from '../recording/index.js';
import { isoTimeOrNull } from '../units/instant.js';
import { accelerationNoiseMps2 } from './acceleration-noise.js';
import type { JoinedOuting } from './joined-outing.js';
import { logExtentM } from './log-extent.js';
import type { Outing } from './outing.js';
import { quickLookAt } from './quick-look.js';
import { quickLookVerdict, verdictOf } from './verdict.js';

const channelRow = (channel: Channel): RecordingRow['channels'][number] => {
  const intervalS = usualIntervalS(channel.atS);
  const lengths = channel.gaps.map(({ fromS, toS }) => toS - fromS);
  return {
    name: channel.name,
    unit: CHANNEL_SHAPES[channel.name].unit,
    sample_count: channel.atS.length,
    rate_hz: intervalS === null ? null : 1 / intervalS,
    gap_count: lengths.length,
    longest_gap_s: lengths.length === 0 ? null : lengths.reduce((most, length) => Math.max(most, length), 0),
  };
};

/** Fixes at even steps from which noise can be distinguished from movement at all. */
const FEWEST_EVEN = 15;
/** Steps within this share of the usual one are even. */
const EVEN_SHARE = 0.2;

const hasEvenFixes = (position: Channel | undefined): boolean => {
  const usualS = position === undefined ? null : usualIntervalS(position.atS);
  if (position === undefined || usualS === null) return false;
  const { atS } = position;
  let even = 0;
  for (let i = 1; i < atS.length && even < FEWEST_EVEN; i++)
    if (Math.abs(atS[i]! - atS[i - 1]! - usualS) < EVEN_SHARE * usualS) even++;
  return even >= FEWEST_EVEN;
};

/** What one outing's logs hold and what they can carry. */
const rowOf = (
  { file, recording, placement }: JoinedOuting,
  track: Track | null,
  verdict: RecordingRow['verdict'],
): RecordingRow => {
  const { channels, provenance } = recording;
  const { acceleration, position } = channels;
  return {
    file,
    format: provenance.format,
    device: provenance.device,
    sport: provenance.sport,
    place: recording.land ? 'land' : position === undefined ? null : 'water',
    clock: recording.clock,
    start_time: isoTimeOrNull(recording.startUnixS),
    duration_s: recording.durationS,
    extent_m: position === undefined ? null : logExtentM(position),
    channels: CHANNEL_NAMES.flatMap((name) => (channels[name] ? [channelRow(channels[name])] : [])),
    placement,
    noise: {
      position_m: hasEvenFixes(position) ? (track?.errorModel.whiteSdM ?? null) : null,
      acceleration_mps2: acceleration === undefined ? null : accelerationNoiseMps2(acceleration),
    },
    verdict,
  };
};

const resultOf = (
  outing: JoinedOuting,
  track: Track | null,
  verdict: RecordingRow['verdict'],
): InspectResult => ({
  schema: 'thole/inspect/1',
  files: [...outing.files],
  warnings: [...outing.warnings],
  recordings: [rowOf(outing, track, verdict)],
  defaults: [],
});

/** `thole inspect` of one outing, all of which was looked at. */
export const inspectResultOf = (outing: Outing): InspectResult =>
  resultOf(outing, outing.track, [...verdictOf(outing)]);

/** `thole inspect` of a long outing that is looked at here and there; null where all of it must be looked at. */
export const quickLookResultOf = (joined: JoinedOuting): InspectResult | null => {
  const quick = quickLookAt(joined);
  const verdict = quick === null ? null : quickLookVerdict(joined, quick);
  if (quick === null || verdict === null) return null;
  const { position } = joined.recording.channels;
  const outages =
    position === undefined
      ? []
      : [
          ...bridgeWarnings(joined.file, bridgedGaps(position)),
          ...outageWarnings(joined.file, unbridgedGaps(position)),
        ];
  return resultOf({ ...joined, warnings: [...joined.warnings, ...outages] }, quick.track, [...verdict]);
};
