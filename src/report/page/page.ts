import type { ErrorModelRow, WarningRow } from '../../contract/envelope.js';
import type { SheetRow } from '../../contract/sheet.js';
import { dateCell, numberCell } from '../cells.js';
import { element, escaped } from '../drawing/element.js';
import type { Picture } from '../drawing/picture.js';
import { knownColumns } from '../known-columns.js';
import type { Reading, Section } from '../section.js';
import type { View } from '../view.js';
import { type Graded, graded, warningLines } from '../warning-lines.js';
import { withoutFolders } from './page-names.js';
import { pictureOf } from './page-picture.js';
import { sectionOf } from './page-tables.js';
import { PAGE_SCRIPT } from './script.js';
import { PAGE_STYLE } from './style.js';

/** What every result has, and what some have, as far as a page speaks of it. */
interface Shown {
  readonly schema: string;
  readonly files: readonly string[];
  readonly warnings: readonly WarningRow[];
  readonly error_model?: readonly ErrorModelRow[];
  readonly sheet?: readonly SheetRow[];
  readonly results?: readonly { readonly event?: string }[];
}

/** What a page is headed by, by the name of its result. */
const HEADINGS: Readonly<Record<string, string>> = {
  average: 'Average stroke',
  check: 'Checked logs',
  curve: 'Rate against speed',
  gauge: 'Logger and water',
  inspect: 'What the logs are good for',
  outing: 'Outing',
  pieces: 'Pieces',
  regatta: 'Results',
  season: 'Season',
  seats: 'Seat racing',
  strokes: 'Strokes',
  workout: 'Workout',
};

/** How many logs are named at the head of a page. */
const NAMED = 6;

const headingOf = ({ schema }: Shown): string => HEADINGS[schema.split('/')[1]!]!;

const shortList = (names: readonly string[]): string => {
  const more = names.length - NAMED;
  return more > 0 ? `${names.slice(0, NAMED).join(', ')} and ${more} more` : names.join(', ');
};

/** Whom or what a page is about: events, else crews, else logs by name or by number. */
const subjectOf = ({ files, sheet = [], results = [] }: Shown): string => {
  const events = [...new Set(results.flatMap(({ event }) => event ?? []))];
  if (events.length > 0) return shortList(events);
  const crews = [...new Set(sheet.flatMap(({ crew }) => crew ?? []))];
  if (crews.length > 0) return shortList(crews);
  return files.length > NAMED ? `${files.length} logs` : shortList(files);
};

/** SHA-256 of a text, as a Content-Security-Policy names it. */
const hashOf = async (text: string): Promise<string> => {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text)));
  return `'sha256-${btoa(String.fromCharCode(...digest))}'`;
};

const SOURCES = {
  'boat file': 'from the boat file',
  log: 'as the log itself states it',
  default: 'assumed',
} as const;

const modelSection = (models: readonly ErrorModelRow[]): Section => ({
  title: 'Position errors assumed',
  columns: [
    { heading: 'log', align: 'left' },
    { heading: 'slow error, sd m', align: 'right' },
    { heading: 'lasts s', align: 'right' },
    { heading: 'quick error, sd m', align: 'right' },
    { heading: 'speed, sd m/s', align: 'right', whereKnown: true },
    { heading: 'from', align: 'left' },
  ],
  rows: models.map((model) => [
    model.file,
    numberCell(model.position_sd_m, 1),
    numberCell(model.correlation_s),
    numberCell(model.white_sd_m, 2),
    numberCell(model.speed_sd_mps, 2),
    SOURCES[model.source],
  ]),
  notes: [],
});

const listOf = (lines: readonly string[]): string =>
  element('ul', {}, ...lines.map((line) => element('li', {}, escaped(line))));

/** What is missing or doubtful stands before the figures; what was assumed stands with how they were made. */
const warningsOf = (rows: readonly Graded[], logCount: number): string => {
  const lines = warningLines(
    rows.filter(({ severity }) => severity !== 'note'),
    logCount,
  );
  return lines.length === 0
    ? ''
    : element('section', { class: 'warnings', 'aria-label': 'Warnings' }, listOf(lines));
};

/** Notes of one page; more of them say the same of other logs. */
const MOST_NOTES = 30;

const notesOf = (rows: readonly Graded[]): string => {
  const notes = rows.filter(({ severity }) => severity === 'note');
  const more = notes.length - MOST_NOTES;
  return notes.length === 0
    ? ''
    : element(
        'details',
        {},
        element('summary', {}, 'What was assumed or found'),
        listOf([
          ...notes
            .slice(0, MOST_NOTES)
            .map(({ file, where, message }) =>
              [file, where, message].filter((part) => part !== null).join(': '),
            ),
          ...(more > 0 ? [`${more} more; --format json has all.`] : []),
        ]),
      );
};

/** How the figures were made, in words that hold for every page, and the errors assumed. */
const methodOf = ({ error_model = [], warnings }: Shown, reading: Reading, program: string): string => {
  const models = error_model.slice(0, 40);
  return element(
    'section',
    { class: 'about' },
    element('h2', {}, 'How these figures were made'),
    element(
      'p',
      {},
      escaped(
        `Made by ${program}. The ± is one standard deviation, and so is a band or a bar in a picture. Times of day are in the zone ${reading.zone}. What is not known is left out, and a gap in a log is a gap in its line.`,
      ),
    ),
    notesOf(warnings.map(graded)),
    models.length === 0
      ? ''
      : element(
          'details',
          {},
          element('summary', {}, 'Position errors assumed, log by log'),
          sectionOf(knownColumns({ ...modelSection(models), title: null })),
          error_model.length > models.length
            ? element(
                'p',
                {},
                escaped(`${error_model.length - models.length} more logs; --format json has all.`),
              )
            : '',
        ),
  );
};

const began = (result: Shown, reading: Reading): string => {
  const rows = Object.values(result).flatMap((value: unknown) => (Array.isArray(value) ? value : []));
  const first = rows
    .flatMap((row: unknown) => {
      const time = (row as { start_time?: unknown } | null)?.start_time;
      return typeof time === 'string' ? [time] : [];
    })
    .sort()[0];
  return first === undefined ? '' : dateCell(first, reading);
};

/**
 * A result as one page of HTML that needs nothing else: pictures, the same tables as on a terminal, what has to be
 * known of the figures, and how they were made. It loads nothing, and only its own script can run in it.
 * @param view how this kind of result is shown
 * @param program name and version of what made it
 */
export const pageText = async <Result>(
  view: View<Result>,
  given: Result,
  reading: Reading,
  program: string,
): Promise<string> => {
  const result = withoutFolders(given, (given as Shown).files);
  const shown = result as Shown;
  const picturesOf = await view.pictures?.();
  const pictures: readonly Picture[] = picturesOf?.(result, reading) ?? [];
  const heading = headingOf(shown);
  const subject = subjectOf(shown);
  const policy = `default-src 'none'; style-src ${await hashOf(PAGE_STYLE)}; script-src ${await hashOf(PAGE_SCRIPT)}; base-uri 'none'; form-action 'none'`;
  const body = element(
    'body',
    {},
    element(
      'main',
      {},
      element('h1', {}, escaped(subject === '' ? heading : `${heading}: ${subject}`)),
      element('p', { class: 'about' }, escaped(began(shown, reading))),
      warningsOf(shown.warnings.map(graded), shown.files.length),
      ...pictures.map(pictureOf),
      // What characters draw on a terminal, the pictures draw here.
      ...view
        .sections(result, reading)
        .filter(({ drawing }) => drawing === undefined)
        .map(knownColumns)
        .map(sectionOf),
      methodOf(shown, reading, program),
    ),
    pictures.some(({ pointers }) => pointers.length > 0) ? `<script>${PAGE_SCRIPT}</script>` : '',
  );
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(subject === '' ? heading : `${heading}: ${subject}`)}</title>
<style>${PAGE_STYLE}</style>
</head>
${body}
</html>
`;
};
