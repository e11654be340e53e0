import { describe, expect, it } from 'vitest';
import { UNKNOWN } from '../../src/report/cells.js';
import { knownColumns } from '../../src/report/known-columns.js';
import { figures, figuresWhereKnown } from '../../src/report/section.js';

const section = (heartRates: string[]) => ({
  title: null,
  columns: [figures('rate'), figuresWhereKnown('HR'), figures('time')],
  rows: heartRates.map((heartRate) => [UNKNOWN, heartRate, '1:00']),
  notes: [],
});

describe('knownColumns', () => {
  it('leaves out a column that no row has a value for, if it may be left out', () => {
    expect(knownColumns(section([UNKNOWN, UNKNOWN]))).toMatchObject({
      columns: [figures('rate'), figures('time')],
      rows: [
        [UNKNOWN, '1:00'],
        [UNKNOWN, '1:00'],
      ],
    });
  });

  it('keeps it for one value', () => {
    expect(knownColumns(section([UNKNOWN, '150'])).columns.length).toBe(3);
  });
});
