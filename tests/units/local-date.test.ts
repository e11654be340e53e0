import { describe, expect, it } from 'vitest';
import { dayName, localDate, monthName, weekName } from '../../src/units/local-date.js';

const at = (iso: string) => Date.parse(iso) / 1000;

describe('the calendar', () => {
  it('is that of the zone', () => {
    expect(dayName(localDate(at('2026-03-14T23:30:00Z'), 'UTC'))).toBe('2026-03-14');
    expect(dayName(localDate(at('2026-03-14T23:30:00Z'), 'Europe/Zurich'))).toBe('2026-03-15');
    expect(monthName(localDate(at('2026-03-01T03:00:00Z'), 'America/Lima'))).toBe('2026-02');
  });

  // ISO 8601: week 1 holds the year's first Thursday; examples of the standard and of its long and short years.
  it.each([
    [2005, 1, 1, '2004-W53'],
    [2005, 1, 2, '2004-W53'],
    [2005, 12, 31, '2005-W52'],
    [2007, 1, 1, '2007-W01'],
    [2008, 12, 29, '2009-W01'],
    [2009, 12, 31, '2009-W53'],
    [2010, 1, 3, '2009-W53'],
    [2010, 1, 4, '2010-W01'],
    [2026, 3, 22, '2026-W12'],
  ])('%i-%i-%i is in %s', (year, month, day, week) => {
    expect(weekName({ year, month, day })).toBe(week);
  });
});
