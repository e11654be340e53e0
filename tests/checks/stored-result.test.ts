import { describe, expect, it } from 'vitest';
import { looksStored, parseStoredResult } from '../../src/checks/index.js';
import { inspectResult } from '../../src/contract/inspect.js';

const row = (file: string) => ({
  file,
  format: 'gpx',
  device: null,
  sport: null,
  place: null,
  clock: 'utc' as const,
  start_time: null,
  duration_s: 60,
  extent_m: null,
  channels: [],
  placement: 'unknown' as const,
  noise: { position_m: null, acceleration_mps2: null },
  verdict: [],
});
const warning = (file: string | null) => ({ code: 'cut-off', file, where: null, message: 'x' });
const RESULT = inspectResult.parse({
  schema: 'thole/inspect/1',
  files: ['a.gpx', 'b.gpx'],
  warnings: [warning('a.gpx'), warning(null)],
  recordings: [row('a.gpx'), row('b.gpx')],
  defaults: [],
});

describe('a stored result', () => {
  it('is told log by log, each with its own warnings and those of all', () => {
    const stored = parseStoredResult(JSON.stringify(RESULT), 'r.json');
    const subjects = 'subjects' in stored ? stored.subjects : [];
    expect(subjects.map(({ file }) => file)).toEqual(['a.gpx', 'b.gpx']);
    expect(subjects.map(({ results }) => results.inspect)).toMatchObject([
      { recordings: [{ file: 'a.gpx' }], warnings: [{ file: 'a.gpx' }, { file: null }] },
      { recordings: [{ file: 'b.gpx' }], warnings: [{ file: null }] },
    ]);
  });

  it.each([
    ['{"schema": "thole/inspect/2"}', 'not-a-result'],
    ['{"schema": "thole/rules/1"}', 'not-a-result'],
    ['{"x": 1}', 'not-a-result'],
    ['{"schema": "thole/inspect/1"}', 'damaged-result'],
    [JSON.stringify(RESULT).slice(0, -9), 'damaged-result'],
  ])('%.40s: %s', (text, code) => {
    expect(parseStoredResult(text, 'r.json')).toMatchObject({ code });
  });

  it('is told from a log by its first character', () => {
    const bytes = (text: string) => new TextEncoder().encode(text);
    expect(looksStored(bytes('\ufeff \n{'))).toBe(true);
    expect(looksStored(bytes('<gpx'))).toBe(false);
    expect(looksStored(bytes('time,lat'))).toBe(false);
  });
});
