import { parseClock } from '../units/clock-time.js';
import { UserError } from '../units/user-error.js';
import { defaultChoiceFlag, defaultFlag, readCount, switchFlag, valueFlag } from './flag.js';
import { BATCH, LOGS, ON_A_MAP, REPORTING } from './shared-flags.js';

const readName = (text: string): string => {
  if (text.trim() === '') throw new UserError('a name is missing');
  return text.trim();
};

const readInterval = (text: string): number => {
  const seconds = parseClock(text);
  if (seconds === null || !(seconds > 0))
    throw new UserError(`"${text}" is not a length of time: write seconds, such as 30, or 1:00`);
  return seconds;
};

/** Where a course comes from. */
export const COURSE = {
  course: valueFlag('FILE', 'the course: GeoJSON (thole schema course) or KML', readName),
  centreline: valueFlag('FILE', 'line that the course follows: GPX route or track, or KML', readName),
  straight: valueFlag('POINTS', 'straight course, LAT,LON:LAT,LON, marks every 500 m', readName),
};

/** Targets to compare with. */
export const TARGETS = {
  targets: valueFlag('FILE', 'your targets: CSV of craft, category, target_s, distance_m', readName),
};

/** The options of `thole regatta`. */
export const REGATTA = {
  ...COURSE,
  showCourse: switchFlag('show the course as the command understands it, and time nothing'),
  start: defaultChoiceFlag(
    'HOW',
    'start of crews without start_time: their own crossing, or one for all of an event',
    ['own', 'together'],
    'own',
  ),
  interval: valueFlag(
    'TIME',
    'crews of an event start this far apart, in the order of crew_number',
    readInterval,
  ),
  parts: defaultFlag('N', 'equal parts of the course', '5', readCount(1, 100)),
  rows: defaultChoiceFlag(
    'WHAT',
    'one line a crew, or a crew and mark, or a crew and part',
    ['crews', 'marks', 'parts'],
    'crews',
  ),
  against: valueFlag('CREW', 'gaps of the other crews to this one, at each mark and each metre', readName),
  ...TARGETS,
  ...REPORTING,
  ...ON_A_MAP,
  boat: LOGS.boat,
  placement: LOGS.placement,
  columns: LOGS.columns,
  ...BATCH,
};
