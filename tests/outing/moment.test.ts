import { describe, expect, it } from 'vitest';
import { momentOf } from '../../src/outing/moment.js';

const log = {
  provenance: { file: 'a.gpx', format: 'gpx', device: null, sport: null },
  startUnixS: 1_780_000_000,
};

describe('a moment in a log', () => {
  it('is the time since its first sample, or an instant', () => {
    expect(momentOf(log, '12:30')).toBe(750);
    expect(momentOf(log, '750s')).toBe(750);
    expect(momentOf(log, new Date(1_780_000_060_500).toISOString())).toBeCloseTo(60.5, 6);
  });

  it('is nothing else', () => {
    expect(() => momentOf(log, 'noon')).toThrow(/"noon" is not a moment/);
    expect(() => momentOf({ ...log, startUnixS: null }, '2026-05-01T10:00:00Z')).toThrow(/no absolute clock/);
  });
});
