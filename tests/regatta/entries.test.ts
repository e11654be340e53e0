import { describe, expect, it } from 'vitest';
import { parseEntries } from '../../src/regatta/index.js';

const HEADING = 'event,crew,craft,track';

const fault = (text: string): string => {
  try {
    parseEntries(text, 'entries.csv');
  } catch (error) {
    return `${(error as Error).name} ${(error as Error).message}`;
  }
  return 'none';
};

describe('an entry list', () => {
  it('reads every column, in any order, and carries further ones through', () => {
    const [entry] = parseEntries(
      [
        'Club,penalty_s,track,crew,start_time,craft,event,bow_offset_m,official_s,excluded,handicap_pct,crew_number',
        'Ferry Lane,5,a.gpx,Alder,2026-05-09T10:20:00+02:00,m2x,W2x,5.2,7:01.6,no,1.5,12',
      ]
        .join('\n')
        .replace('m2x', '2X'),
      'entries.csv',
    );
    expect(entry).toMatchObject({
      event: 'W2x',
      crew: 'Alder',
      craft: '2x',
      track: 'a.gpx',
      imu: null,
      crewNumber: '12',
      startUnixS: Date.UTC(2026, 4, 9, 8, 20) / 1000,
      bowOffsetM: 5.2,
      penaltyS: 5,
      officialS: 421.6,
      handicapS: null,
      handicapPct: 1.5,
      excluded: false,
      lane: null,
      extra: { Club: 'Ferry Lane' },
    });
  });

  it.each([
    ['', 'entries.csv is empty: its first line must name the columns'],
    [HEADING, 'entries.csv has no crew: write one line a crew below the heading'],
    [
      'event,creww,craft,track\na,b,2x,c',
      'line 1: there is no column "crew": the first line must name it; is "creww" meant?',
    ],
    [
      `${HEADING},bow_ofset_m\na,b,2x,c,1`,
      'line 1, column 5: "bow_ofset_m" is not a column of this file; did you mean "bow_offset_m"',
    ],
    [`${HEADING}\na,b,9x,c`, 'line 2, column craft: "9x" is not a craft: use one of 1x 2x'],
    [`${HEADING}\na,,2x,c`, 'line 2, column crew: the crew is missing'],
    [`${HEADING}\na,b,2x,c\na,b,2x,d`, 'line 3, column crew: "b" stands in line 2 already in the event "a"'],
    [`${HEADING}\na,b,2x,c\na,d,2x,c`, 'line 3, column track: "c" stands in line 2 already in the event "a"'],
    [
      `${HEADING},start_time\na,b,2x,c,10:20`,
      'column start_time: "10:20" is not a date and time: write it as 2026-05-09',
    ],
    [`${HEADING},bow_offset_m\na,b,2x,c,55`, '"55" is not a number from -30 to 30'],
    [`${HEADING},official_s\na,b,2x,c,fast`, '"fast" is not a time: write seconds such as 421.6, or 7:01.6'],
    [`${HEADING},excluded\na,b,2x,c,perhaps`, '"perhaps" is not yes or no'],
  ])('%j: one line that says what to change', (text, message) => {
    expect(fault(text)).toContain(message);
    expect(fault(text)).toMatch(/^UserError [^\n]*$/);
  });

  it('lets one crew and one log stand in two events', () => {
    expect(parseEntries(`${HEADING}\na,b,2x,c\nz,b,2x,c`, 'entries.csv')).toHaveLength(2);
  });
});
