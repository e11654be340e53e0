/**
 * Every kind of message about a log or a result, once, with how grave it is.
 *
 * To add one: put its code in {@link ERRORS} where a log could not be read at all; in {@link WARNINGS} where a figure is
 * missing or doubtful and the reader should act; in {@link NOTES} where something was assumed that is right most of the
 * time, or was found and stops nobody. A note also gets the few words by which the closing line names it. Then use the
 * code: the type {@link WarningCode} refuses one that stands in none of the three. Severity goes by the code and is
 * added where a result is written: code that warns does not state it.
 */

/** A log or a stored result that could not be read: exit status 3. */
const ERRORS = [
  'asked-elsewhere',
  'bad-gzip',
  'columns-map',
  'damaged-result',
  'date-ambiguous',
  'empty-file',
  'fit-no-records',
  'is-folder',
  'line-too-long',
  'nmea-no-sentences',
  'no-header',
  'no-known-columns',
  'no-points',
  'no-samples',
  'no-time-column',
  'no-times',
  'no-values',
  'not-a-result',
  'not-gpx',
  'not-plain',
  'not-tcx',
  'not-xml',
  'own-fault',
  'result-impossible',
  'span-too-long',
  'time-unit-unknown',
  'time-unreadable',
  'too-large',
  'unknown-format',
  'unreadable',
  'worker-lost',
] as const;

/** A figure is missing or doubtful: the reader should act. `--strict` fails. */
const WARNINGS = [
  'cadence-pairs-unknown',
  'cells-unreadable',
  'clock-back',
  'clock-jump',
  'clock-unset',
  'clocks-differ',
  'clocks-disagree',
  'course-not-passed',
  'crafts-differ',
  'crews-differ',
  'cut-off',
  'damaged',
  'date-missing',
  'few-strokes-found',
  'figure-impossible',
  'finish-not-logged',
  'fit-checksum',
  'fit-damaged',
  'fit-misaligned',
  'fit-trailing',
  'fit-uncalibrated',
  'fit-unfinished',
  'fixes-held',
  'folder-skipped',
  'gravity-removed',
  'gzip-checksum',
  'gzip-damaged',
  'gzip-trailing',
  'hand-time-apart',
  'imu-left-out',
  'log-elsewhere',
  'log-ends-before-start',
  'log-no-position',
  'logs-apart',
  'long-gap',
  'mount-differs',
  'nmea-checksum',
  'nmea-checksums-absent',
  'nmea-checksums-ignored',
  'nmea-no-fix',
  'no-average',
  'no-band-shared',
  'no-best-stretch',
  'no-clock',
  'no-common-clock',
  'no-curve',
  'no-finish',
  'no-heart-rate',
  'no-laps',
  'no-log',
  'no-outing',
  'no-positions',
  'no-strokes',
  'no-such-piece',
  'no-swap',
  'no-track',
  'not-to-be-trusted',
  'nothing-checked',
  'nothing-like-plan',
  'piece-without-positions',
  'pieces-unequal',
  'position-impossible',
  'position-jump',
  'position-outage',
  'position-outliers',
  'position-reflections',
  'rate-beyond-curve',
  'rate-not-usable',
  'rates-unknown',
  'receiver-worse',
  'rougher-than-gauged',
  'rowing-from-movement',
  'rowing-unknown',
  'rowing-doubtful',
  'rowing-without-positions',
  'rows-ragged',
  'rule-not-used',
  'samples-without-time',
  'sheet-left-out',
  'speed-disagrees',
  'speed-not-believable',
  'speeds-mixed',
  'stamps-repeated',
  'start-apart',
  'start-not-seen',
  'strokes-doubtful',
  'strokes-missing',
  'time-zone-missing',
  'unit-assumed',
  'unit-unknown',
  'unsorted',
  'value-impossible',
  'weaker-than-gauged',
] as const;

/** What was assumed and is right most of the time, or is worth knowing; with the words of the closing line. */
const NOTES = {
  'best-is-fast': 'best stretches come out a little fast',
  'bow-offset-assumed': 'bow offset assumed',
  'cache-entry-damaged': 'a kept summary was made again',
  'cache-not-written': 'summaries not kept for the next run',
  'cadence-counts-pairs': 'cadence counts every second stroke',
  'clock-aligned': 'accelerometer laid over the track by its movement',
  'craft-guessed': 'craft not given',
  'fit-byte-order': 'byte order of a FIT file corrected',
  'fraction-repeats-second': 'times taken as whole seconds',
  'land-work': 'work on land kept apart',
  'light-rowing-left-out': 'light work not listed as pieces',
  'log-ends-in-piece': 'the log ends within a piece',
  'no-polarization-index': 'no polarization index',
  'no-speed-within-stroke': 'no speed within the stroke without a track',
  'not-rowed': 'waves or handling left out of the strokes',
  'not-separable': 'crews too close to separate',
  'not-a-log': 'files that are no logs left out',
  'other-sport': 'logs of another sport not counted',
  'parts-joined': 'parts of a log joined',
  'piece-interrupted': 'pieces run on through short stops',
  'placement-guessed': 'placement of the logger assumed',
  'placement-not-hull': 'logger not on the hull, so no figures within the stroke',
  'same-outing': 'outings logged twice counted once',
  'position-bridged': 'short gaps in the track bridged',
  'sensor-moved': 'accelerometer moved during the outing',
  'sheet-ignored': 'an outings.csv that is no outing sheet left alone',
  'several-runs': 'fastest of several runs taken',
  'source-fell-back': 'strokes from more than one source',
  'speed-lags': 'logged speed taken for earlier than logged',
  'stamps-rounded': 'repeated times spread',
  'stamps-shared': 'shared times spread',
  'stream-suggested': 'a stream may have flowed',
  'strokes-from-cadence': 'strokes counted from the cadence',
  'time-unit-assumed': 'unit of time assumed',
  'wind-changed': 'wind changed between pieces',
} as const satisfies Readonly<Record<string, string>>;

/** How grave a message is. */
export const SEVERITIES = ['error', 'warning', 'note'] as const;

export type Severity = (typeof SEVERITIES)[number];
type NoteCode = keyof typeof NOTES;

/** The code of a message: one of the three tables. */
export type WarningCode = (typeof ERRORS)[number] | (typeof WARNINGS)[number] | NoteCode;

const ERROR_CODES: ReadonlySet<string> = new Set(ERRORS);
const isNote = (code: string): code is NoteCode => Object.hasOwn(NOTES, code);

/** How grave a message is, by its code; a code that is not known, from a result of another version, warns. */
export const severityOf = (code: string): Severity =>
  ERROR_CODES.has(code) ? 'error' : isNote(code) ? 'note' : 'warning';

/** The few words by which a closing line names a note; of any other message its code. */
export const noteWords = (code: string): string => (isNote(code) ? NOTES[code] : code);

/** Every code with its severity, in order: what the manual lists. */
export const WARNING_CODES: readonly (readonly [code: WarningCode, severity: Severity])[] = [
  ...ERRORS,
  ...WARNINGS,
  ...(Object.keys(NOTES) as NoteCode[]),
].map((code) => [code, severityOf(code)] as const);
