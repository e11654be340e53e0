import type { InspectResult, RecordingRow } from '../contract/inspect.js';
import { CHANNEL_NAMES } from '../recording/index.js';
import { cell, clockCell, dateCell, distanceCell, numberCell, UNKNOWN } from './cells.js';
import { facts, figures, type Reading, type Section, words } from './section.js';
import { flat, type View } from './view.js';

const CLOCK: Readonly<Record<RecordingRow['clock'], string>> = {
  utc: 'date and time',
  relative: 'no date; seconds from the first sample',
};

/** A reason that stands in the line before is not said again. */
const verdictRows = (verdict: RecordingRow['verdict']): string[][] =>
  verdict.map(({ can, yes, why }, i) => [
    can,
    yes ? 'yes' : 'no',
    why === verdict[i - 1]?.why ? 'the same' : why,
  ]);

const verdictSection = ({ file, place, verdict }: RecordingRow): Section => ({
  title: place === 'land' ? `${file}: work on land` : file,
  columns: [words('for'), words('good'), words('why')],
  rows: verdictRows(verdict),
  notes: [],
});

const sectionsOf = (recording: RecordingRow, reading: Reading): Section[] => [
  verdictSection(recording),
  facts('What it holds', [
    ['format', recording.format.toUpperCase()],
    ['device', recording.device ?? UNKNOWN],
    ['sport', recording.sport ?? UNKNOWN],
    ['clock', CLOCK[recording.clock]],
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
      clockCell(channel.longest_gap_s),
    ]),
    notes: [],
  },
];

/** Answers of the table of many logs, with headings that leave room for the names. */
const IN_A_QUICK_LOOK: readonly (readonly [can: string, heading: string])[] = [
  ['strokes', 'strokes'],
  ['speed within the stroke', 'in stroke'],
  ['splits to a second', '1 s'],
  ['splits to a tenth', '0.1 s'],
  ['pieces', 'pieces'],
  ['times against other boats', 'races'],
];

const isGood = ({ verdict }: RecordingRow, can: string): string =>
  verdict.some((line) => line.can === can && line.yes) ? 'yes' : 'no';

/** Many logs at a glance, before each of them. */
const manySection = (recordings: readonly RecordingRow[]): Section => ({
  title: 'What each log is good for',
  columns: [
    words('log'),
    figures('length'),
    words('on'),
    ...IN_A_QUICK_LOOK.map(([, heading]) => words(heading)),
  ],
  rows: recordings.map((recording) => [
    recording.file,
    clockCell(recording.duration_s),
    recording.place ?? UNKNOWN,
    ...IN_A_QUICK_LOOK.map(([can]) => isGood(recording, can)),
  ]),
  notes: [
    '1 s and 0.1 s: splits that good; in stroke: speed within the stroke; races: times against other boats.',
  ],
});

/** What the club's file of defaults gave. */
const defaultsSection = (defaults: InspectResult['defaults']): Section =>
  facts(
    `Defaults from ${defaults[0]!.file}`,
    defaults.map(({ name, value, used }) => [name, used ? value : `${value} (not used: an option is given)`]),
  );

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
  // Written out, for the schemas take longer to load than most logs to read; a test holds them to the schema.
  keys: [
    'file',
    'format',
    'device',
    'sport',
    'place',
    'clock',
    'start_time',
    'duration_s',
    'extent_m',
    'placement',
    'noise_position_m',
    'noise_acceleration_mps2',
    ...CHANNEL_NAMES.flatMap((name) =>
      ['sample_count', 'rate_hz', 'gap_count', 'longest_gap_s'].map((key) => `${name}_${key}`),
    ),
  ],
  rows: ({ recordings }) => recordings,
  cells: ({ recordings }) => recordings.map((row) => ({ ...flat(row), ...channelCells(row) })),
  sections: ({ recordings, defaults }, reading) => [
    ...(recordings.length > 1 ? [manySection(recordings)] : []),
    ...recordings.flatMap((recording) => sectionsOf(recording, reading)),
    ...(defaults.length === 0 ? [] : [defaultsSection(defaults)]),
  ],
};
