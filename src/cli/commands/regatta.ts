import type { Course } from '../../geodesy/index.js';
import { fileOfList } from '../../host/entry-files.js';
import { inputText } from '../../host/input-text.js';
import type { Warning } from '../../recording/index.js';
import { type CrewCase, type Entry, parseEntries, regattaResults } from '../../regatta/index.js';
import { courseView } from '../../report/course.js';
import { regattaView } from '../../report/regatta.js';
import { UserError } from '../../units/user-error.js';
import { answered } from '../batch.js';
import { command } from '../command.js';
import { courseOfText, courseText } from '../course-text.js';
import type { OptionsOf } from '../flag.js';
import type { RegattaAnswer, RegattaOptions } from '../jobs/regatta-job.js';
import { noLogWarning } from '../no-log-warning.js';
import { REGATTA } from '../regatta-flags.js';
import type { Session } from '../session.js';
import { isMap } from '../shared-flags.js';
import { targetsOf } from '../targets-file.js';

type Options = OptionsOf<typeof REGATTA>;

/** What the logs of the entries tell, in the order of the list. */
const readCrews = async (
  session: Session,
  list: string,
  entries: readonly Entry[],
  options: Options,
): Promise<{ readonly crews: CrewCase[]; readonly said: Warning[] }> => {
  const course = await courseText(options);
  const made = courseOfText(course);
  const files = await Promise.all(
    entries.map(({ track }) => (track === null ? null : fileOfList(list, track))),
  );
  const jobs = await Promise.all(
    entries.flatMap((entry, i) => {
      const file = files[i]!;
      return file === null ? [] : [jobOf(list, entry, file, course, options)];
    }),
  );
  const crews: CrewCase[] = entries.map((entry, i) => ({ entry, file: files[i]!, log: null }));
  const waiting = crews.flatMap(({ file }, i) => (file === null ? [] : [i]));
  const said: Warning[] = [];
  for await (const answer of answered<RegattaAnswer>(session, jobs, options.jobs)) {
    const i = waiting.shift()!;
    if ('fault' in answer) continue;
    said.push(...answer.warnings);
    if ('code' in answer.crew) said.push(noLogWarning(answer.crew, crews[i]!, made.name));
    else crews[i] = { ...crews[i]!, log: answer.crew };
  }
  return { crews, said };
};

const jobOf = async (
  list: string,
  { craft, bowOffsetM, imu }: Entry,
  file: string,
  course: RegattaOptions['course'],
  { boat, placement, columns, parts, against, format }: Options,
) => ({
  kind: 'regatta' as const,
  file,
  alone: false,
  options: {
    boat,
    placement,
    columns,
    craft,
    imu: imu === null ? null : await fileOfList(list, imu),
    imuStart: null,
    stream: null,
    entry: { craft, bowOffsetM },
    course,
    parts,
    metres: against !== null || format === 'html',
    positions: isMap(format),
  } satisfies RegattaOptions,
});

const showCourse = (session: Session, course: Course, options: Options): Promise<void> =>
  session.report(
    courseView,
    regattaResults([], course, { start: 'own', intervalS: null, targets: [], against: null }, []),
    options,
  );

export const regatta = command({
  name: 'regatta',
  summary: 'times, places and margins of a regatta or a head race',
  operands: ['[ENTRIES]'],
  flags: REGATTA,
  about:
    'ENTRIES is a CSV list: event, crew, craft, track (the log, from the folder of the list) and, if you like, crew_number, imu, start_time, bow_offset_m, handicap_s, handicap_pct, penalty_s, official_s, excluded and lane. A crew is timed by its bow ball. The ± is one standard deviation; "apart" says whether the logs can separate a crew from the one ahead. Times are unofficial: the race jury\'s result stands.',
  examples: [
    {
      line: 'thole regatta entries.csv --course course.geojson --start together',
      does: 'time every event from its common start',
    },
    {
      line: 'thole regatta entries.csv --course course.kml --rows marks --format csv',
      does: 'write one line a crew and mark',
    },
  ],
  run: async (session, options, [list]) => {
    const course = courseOfText(await courseText(options));
    if (options.showCourse) return showCourse(session, course, options);
    if (list === undefined)
      throw new UserError('no entry list: name it, or ask for the course alone with --show-course');
    const entries = parseEntries(await inputText(list, 'entry list'), list, options.tz ?? 'UTC');
    const targets = await targetsOf(options.targets);
    const { crews, said } = await readCrews(session, list, entries, options);
    const ask = {
      start: options.start,
      intervalS: options.interval,
      targets,
      against: options.against,
      drawn: options.format === 'html',
    };
    const result = regattaResults(crews, course, ask, said);
    await session.report(regattaView(options.rows, result), result, options);
  },
});
