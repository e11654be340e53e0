import { SEASON_ROWS } from '../report/season.js';
import { parseIsoTime } from '../units/instant.js';
import { UserError } from '../units/user-error.js';
import { choiceFlag, defaultChoiceFlag, readCount, readRising, switchFlag, valueFlag } from './flag.js';
import { BANDS } from './shared-flags.js';

const readDay = (text: string): string => {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text) || parseIsoTime(`${text}T00:00`) === null)
    throw new UserError(`"${text}" is not a day: write it as 2026-03-14`);
  return text;
};

const readMonthDay = (text: string): string => {
  if (!/^\d{2}-\d{2}$/.test(text) || parseIsoTime(`2028-${text}T00:00`) === null)
    throw new UserError(`"${text}" is not a day of the year: write month and day as 09-01`);
  return text;
};

/** How a season is added up. */
export const SEASON = {
  since: valueFlag('DAY', 'first day counted, as 2026-03-01', readDay),
  until: valueFlag('DAY', 'last day counted', readDay),
  seasonFrom: valueFlag(
    'MM-DD',
    'day on which a season begins: count the season of the last outing',
    readMonthDay,
  ),
  sport: defaultChoiceFlag('WHICH', 'count logs of boats alone, or of any sport', ['boats', 'any'], 'boats'),
  groupBy: choiceFlag('WHAT', 'totals also by this', ['crew', 'craft', 'month', 'folder']),
  ...BANDS,
  last: valueFlag('N', 'rate bands also of the last N outings', readCount(1, 10_000)),
  zones: valueFlag(
    'LIST',
    'time in heart-rate zones with these bounds, bpm, as 140,165; two bounds also give the polarization index',
    readRising('140,165'),
  ),
  rows: defaultChoiceFlag(
    'WHAT',
    'rows of csv and ndjson; bands are those of each week',
    SEASON_ROWS,
    'weeks',
  ),
  cache: valueFlag('DIR', 'folder of the kept results, in place of the XDG cache folder', (text) => text),
  noCache: switchFlag('neither use nor keep results'),
};
