import { describe, expect, it } from 'vitest';
import { isOutingSheet, parseOutingSheet } from '../../src/outing/sheet.js';
import { sheetRowOf, stemOf } from '../../src/outing/sheet-row.js';

/** What is wrong with a sheet: of a row of it, or of all of it. */
const said = (text: string): string => {
  try {
    return parseOutingSheet(text, 'outings.csv')
      .faults.map(({ message }) => message)
      .join('\n');
  } catch (error) {
    return (error as Error).message;
  }
};

const HEAD = 'file,crew,craft,seats,placement,wind,stream,notes';

describe('an outing sheet', () => {
  it('gives every cell its meaning, and null where nothing stands', () => {
    const text = `${HEAD}\r\ntue.gpx,Blue,4x,Ann / Bo / Cy / Di,hull,"cross, light",0.4@270,"said ""fine"""\r\nwed.gpx,,,,,,,\r\n`;
    expect(parseOutingSheet(text, 'outings.csv').rows).toEqual([
      {
        file: 'tue.gpx',
        crew: 'Blue',
        craft: '4x',
        seats: ['Ann', 'Bo', 'Cy', 'Di'],
        placement: 'hull',
        wind: 'cross, light',
        wind_mps: null,
        wind_from_deg: null,
        stream: '0.4@270',
        notes: 'said "fine"',
      },
      {
        file: 'wed.gpx',
        crew: null,
        craft: null,
        seats: null,
        placement: null,
        wind: null,
        wind_mps: null,
        wind_from_deg: null,
        stream: null,
        notes: null,
      },
    ]);
  });

  it('takes the wind as a number', () => {
    const text = 'file,wind_mps,wind_from_deg\na.gpx,3.5,240\n';
    expect(parseOutingSheet(text, 's').rows).toMatchObject([{ wind_mps: 3.5, wind_from_deg: 240 }]);
    for (const [cells, message] of [
      [
        'a.gpx,fresh,240',
        /line 2, column wind_mps: the speed of the wind in m\/s, 0 to 40, is required, and "fresh" came/,
      ],
      [
        'a.gpx,3,SW',
        /column wind_from_deg: the direction that the wind comes from, 0 to 360 degrees.*"SW" came/,
      ],
    ] as const)
      expect(parseOutingSheet(`file,wind_mps,wind_from_deg\n${cells}\n`, 's').faults[0]?.message).toMatch(
        message,
      );
  });

  it('is read with a byte-order mark, columns in any order and case, and semicolons', () => {
    const text = '\ufeffCrew;FILE;Craft\nRed;a.gpx;k1\n';
    expect(parseOutingSheet(text, 's').rows).toMatchObject([{ file: 'a.gpx', crew: 'Red', craft: 'K1' }]);
  });

  it.each([
    [`${HEAD}\na.gpx,Blue,9x`, /outings\.csv, line 2, column craft: a class code.*"9x" came/],
    [`${HEAD}\n\na.gpx,Blue,4x,,mast`, /line 3, column placement: .*"mast" came/],
    [`${HEAD}\na.gpx,,,,,,fast`, /line 2, column stream: "fast" is not a stream/],
    [`${HEAD}\n,Blue`, /line 2, column file: .*nothing came/],
    ['file,crw\na.gpx,Blue', /line 1, column 2: "crw" is not a column.*notes/],
    ['file,crew,crew\na.gpx,Blue,Red', /line 1, column crew: .*twice/],
    ['crew\nBlue', /line 1: there is no column "file"/],
    ['file,crew\na.gpx,Blue,light wind', /line 2, column 3: the line has 3 cells/],
    ['file,crew\na.gpx,Blue\na.gpx,Red', /line 3, column file: "a\.gpx" stands in line 2/],
    ['file,crew\na.gpx,"Blue', /line 2: not readable as CSV/],
    ['  \n', /is empty/],
  ])('says where %j is wrong', (text, message) => {
    expect(said(text)).toMatch(message);
  });

  it('keeps the other rows where one is wrong, and says of which log it is', () => {
    const { rows, faults } = parseOutingSheet('file,craft\na.gpx,9x\nb.gpx,1x\n', 'outings.csv');
    expect(rows.map(({ file }) => file)).toEqual(['b.gpx']);
    expect(faults.map(({ file }) => file)).toEqual(['a.gpx']);
  });

  it('is one by the heading "file" alone, whatever the file is called', () => {
    expect(['file,crew\n', '\ufeffCrew;"File"\n', 'sep=;\nfile;crew'].map(isOutingSheet)).toEqual([
      true,
      true,
      true,
    ]);
    expect(['crew,distance_m\na,2', '', 'profile,crew'].map(isOutingSheet)).toEqual([false, false, false]);
  });

  it('finds a log by its very name first, then by its name short of the extension', () => {
    const { rows } = parseOutingSheet('file,crew\na.gpx,exact\na,stem\nb,other\nday2/c.gpx,second day', 's');
    expect(sheetRowOf(rows, 'logs/a.gpx')?.crew).toBe('exact');
    expect(sheetRowOf(rows, 'logs/b.imu.csv.gz')?.crew).toBe('other');
    expect(sheetRowOf(rows, '/x/day2/c.gpx')?.crew).toBe('second day');
    expect(sheetRowOf(rows, '/x/day1/c.gpx')).toBeNull();
    expect(() => sheetRowOf(rows, 'a.tcx')).toThrow(/2 rows that could mean a\.tcx/);
  });

  it('knows the stem of a log', () => {
    expect(['x.gpx', 'x.imu.csv', 'd/x.csv.gz', 'x'].map(stemOf)).toEqual(['x', 'x', 'x', 'x']);
  });
});
