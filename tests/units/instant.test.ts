import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isoTime, isoTimeOrNull, parseIsoTime } from '../../src/units/instant.js';

describe('parseIsoTime', () => {
  it('reads UTC, offsets, no offset, and any number of digits', () => {
    expect(parseIsoTime('1994-03-23T12:35:19Z')).toBe(Date.UTC(1994, 2, 23, 12, 35, 19) / 1000);
    expect(parseIsoTime('2024-05-01T10:00:00+02:00')).toBe(Date.UTC(2024, 4, 1, 8) / 1000);
    expect(parseIsoTime('2024-05-01T10:00:00-0330')).toBe(Date.UTC(2024, 4, 1, 13, 30) / 1000);
    expect(parseIsoTime('2024-05-01 10:00:00')).toBe(Date.UTC(2024, 4, 1, 10) / 1000);
    expect(parseIsoTime('2024-05-01T10:00:00.1234567Z')! - Date.UTC(2024, 4, 1, 10) / 1000).toBeCloseTo(
      0.1234567,
      6,
    );
  });

  it('refuses days that do not exist and dates written in another order', () => {
    for (const text of ['2023-02-29T00:00:00Z', '2024-13-01T00:00:00Z', '01/05/2024 10:00', '10:00:00', ''])
      expect(parseIsoTime(text), text).toBeNull();
  });

  it('reads back what isoTime wrote, to the millisecond', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 4e9, noNaN: true }), (unixS) => {
        expect(Math.abs(parseIsoTime(isoTime(unixS))! - unixS)).toBeLessThanOrEqual(0.0005001);
      }),
    );
  });

  it('keeps an unknown clock unknown', () => {
    expect(isoTimeOrNull(null)).toBeNull();
  });
});
