import { describe, expect, it } from 'vitest';
import { momentOf } from '../../src/outing/moment.js';

const log = {
  provenance: { file: 'a.gpx', format: 'gpx', device: null, sport: null },
  startUnixS: 1_780_000_000,
  durationS: 7200,
};

describe('a moment in a log', () => {
  it('is the time since its first sample, or an instant', () => {
    expect(momentOf(log, '12:30', null)).toBe(750);
    expect(momentOf(log, '+12:30', 'UTC')).toBe(750);
    expect(momentOf(log, '750s', 'UTC')).toBe(750);
    expect(momentOf({ ...log, startUnixS: null }, '12:30', 'UTC')).toBe(750);
    expect(momentOf(log, new Date(1_780_000_060_500).toISOString(), null)).toBeCloseTo(60.5, 6);
  });

  it('is a time of day in the zone of the reader where the log has a clock', () => {
    // 1 780 000 000 s is 2026-05-28 20:26:40 UTC, 22:26:40 in Zurich (summer time, UTC + 2 h).
    expect(momentOf(log, '20:30', 'UTC')).toBe(200);
    expect(momentOf(log, '22:30:10.5', 'Europe/Zurich')).toBe(210.5);
    // past midnight
    expect(momentOf(log, '00:10', 'Europe/Zurich')).toBe(93 * 60 + 10 * 60 + 20);
    // a log over the night on which summer time begins: 01:00 UTC is 02:00, then 03:00 in Zurich
    const spring = { ...log, startUnixS: Date.UTC(2026, 2, 29, 0, 30) / 1000 };
    expect(momentOf(spring, '03:15', 'Europe/Zurich')).toBe(45 * 60);
  });

  it('that lies outside the log is refused, with how else it could be meant', () => {
    expect(() => momentOf(log, '12:30', 'UTC')).toThrow(/^nothing is logged at 12:30.*write \+12:30/);
  });

  it('is nothing else', () => {
    expect(() => momentOf(log, 'noon', 'UTC')).toThrow(/"noon" is not a moment/);
    expect(() => momentOf({ ...log, startUnixS: null }, '2026-05-01T10:00:00Z', 'UTC')).toThrow(
      /no absolute clock/,
    );
  });
});
