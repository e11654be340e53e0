import type { Readable } from 'node:stream';
import type { LogFault, Warning } from '../../recording/index.js';
import { type CrewLog, type Entry, type NoCrewLog, readCrew, stationsOf } from '../../regatta/index.js';
import { type CourseText, courseOfText } from '../course-text.js';
import type { LogOptions } from '../log-options.js';
import { openLog } from '../open-log.js';

/** What `thole regatta` is asked of each log. */
export interface RegattaOptions extends LogOptions {
  readonly entry: Pick<Entry, 'craft' | 'bowOffsetM'>;
  readonly course: CourseText;
  readonly parts: number;
  readonly metres: boolean;
  readonly positions: boolean;
}

/** What one log gives to a regatta. */
export interface RegattaAnswer {
  readonly crew: CrewLog | NoCrewLog;
  readonly warnings: readonly Warning[];
}

/** The runs of one crew down the course. */
export const regattaJob = async (
  file: string,
  options: RegattaOptions,
  stdin: Readable,
): Promise<RegattaAnswer | LogFault> => {
  const outing = await openLog(file, options, stdin);
  if ('fault' in outing) return outing;
  const course = courseOfText(options.course);
  const stations = stationsOf(course, options.parts);
  return {
    crew: readCrew(options.entry, outing, course, stations, options.metres, options.positions),
    warnings: outing.warnings,
  };
};
