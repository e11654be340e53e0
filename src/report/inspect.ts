import { type InspectResult, type RecordingRow, recordingRow } from '../contract/inspect.js';
import { cell, clockCell, dateCell, distanceCell, numberCell, UNKNOWN } from './cells.js';
import { facts, figures, type Reading, type Section, words } from './section.js';
import { flat, type View } from './view.js';

const sectionsOf = (recording: RecordingRow, reading: Reading): Section[] => [
  facts(recording.file, [
    ['format', recording.format],
    ['device', recording.device ?? UNKNOWN],
    ['sport', recording.sport ?? UNKNOWN],
    ['clock', recording.clock],
    ['began', dateCell(recording.start_time, reading)],
    ['length', clockCell(recording.duration_s)],
    ['extent', distanceCell(recording.extent_m)],
    ['placement', recording.placement],
    ['position noise', cell(recording.noise.position_m, (sd) => `${numberCell(sd, 2)} m`)],
    ['acceleration noise', cell(recording.noise.acceleration_mps2, (sd) => `${numberCell(sd, 3)} m/s²`)],
  ]),
  {
    title: 'Channels',
    columns: [
      words('channel'),
      words('unit'),
      figures('samples'),
      figures('rate Hz'),
      figures('gaps'),
      figures('longest gap'),
    ],
    rows: recording.channels.map((channel) => [
      channel.name.replaceAll('_', ' '),
      channel.unit,
      String(channel.sample_count),
      numberCell(channel.rate_hz, 2),
      String(channel.gap_count),
      cell(channel.longest_gap_s, (seconds) => `${numberCell(seconds, 1)} s`),
    ]),
    notes: [],
  },
  {
    title: 'What it can carry',
    columns: [words('analysis'), words(''), words('why')],
    rows: recording.verdict.map(({ can, yes, why }) => [can, yes ? 'yes' : 'no', why]),
    notes: [],
  },
];

const CHANNELS = recordingRow.shape.channels.element.shape.name.options;

/** Every channel's rate and gaps as columns of one row a log. */
const channelCells = ({ channels }: RecordingRow) =>
  Object.fromEntries(
    channels.flatMap(({ name, sample_count, rate_hz, gap_count, longest_gap_s }) => [
      [`${name}_sample_count`, sample_count],
      [`${name}_rate_hz`, rate_hz],
      [`${name}_gap_count`, gap_count],
      [`${name}_longest_gap_s`, longest_gap_s],
    ]),
  );

/** `thole inspect`: what each log holds and how far to trust it. */
export const inspectView: View<InspectResult> = {
  keys: [
    ...Object.keys(recordingRow.omit({ channels: true, noise: true, verdict: true }).shape),
    ...Object.keys(recordingRow.shape.noise.shape).map((key) => `noise_${key}`),
    ...CHANNELS.flatMap((name) =>
      ['sample_count', 'rate_hz', 'gap_count', 'longest_gap_s'].map((key) => `${name}_${key}`),
    ),
  ],
  rows: ({ recordings }) => recordings,
  cells: ({ recordings }) => recordings.map((row) => ({ ...flat(row), ...channelCells(row) })),
  sections: ({ recordings }, reading) => recordings.flatMap((recording) => sectionsOf(recording, reading)),
};
