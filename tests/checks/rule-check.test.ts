import { describe, expect, it } from 'vitest';
import { checkLog, commandsOf, parseRules } from '../../src/checks/index.js';

const RESULTS = {
  outing: {
    warnings: [{ code: 'cut-off', message: 'x' }],
    outings: [{ distance_m: 10_000, crew: null, best: [{ asked_m: 500, duration_s: 100 }] }],
  },
  pieces: { warnings: [], pieces: [{ duration_s: 120 }, { duration_s: 140 }] },
  inspect: { recordings: [{ channels: [{ name: 'position', rate_hz: 1 }], clock: 'utc' }] },
};

const verdict = (limits: string): string => {
  const rules = parseRules(`{"rules": [{"name": "r", ${limits}}]}`, 'rules.json');
  const [row] = checkLog(rules, 'logs/a.gpx', RESULTS);
  return row === undefined
    ? 'not for this log'
    : `${row.passed ? 'kept' : 'broken'} ${row.value} ${row.limit}`;
};

describe('a rule on a log', () => {
  it.each([
    ['"figure": "outing.distance_m", "min": 5000', 'kept 10000 at least 5000'],
    [
      '"figure": "outing.distance_m", "min": 5000, "max": 9999',
      'broken 10000 at least 5000 and at most 9999',
    ],
    ['"figure": "outing.crew", "equals": "Heron"', 'broken null Heron'],
    ['"figure": "outing.crew", "equals": null', 'kept null none'],
    ['"figure": "outing.crew", "min": 1', 'broken null at least 1'],
    ['"figure": "outing.best.500.duration_s", "max": 100', 'kept 100 at most 100'],
    ['"figure": "outing.best.2000.duration_s", "max": 500', 'broken null at most 500'],
    ['"figure": "outing.warnings.cut-off.code", "equals": null', 'broken cut-off none'],
    ['"figure": "outing.warnings.other.code", "equals": null', 'kept null none'],
    ['"figure": "pieces.1.duration_s", "within": {"of": 140, "pct": 1}', 'kept 140 within 1 % of 140'],
    [
      '"figure": "pieces.1.duration_s", "within": {"of": "pieces.0.duration_s", "pct": 10}',
      'broken 140 within 10 % of pieces.0.duration_s',
    ],
    ['"figure": "pieces.*.duration_s", "max": 130', 'broken 140 at most 130'],
    ['"figure": "pieces.count", "equals": 2', 'kept 2 2'],
    ['"figure": "inspect.channels.position.rate_hz", "min": 0.9', 'kept 1 at least 0.9'],
    ['"figure": "inspect.clock", "one_of": ["utc", "gps"]', 'kept utc one of utc, gps'],
    ['"figure": "outing.distance_m", "min": 1, "files": "*.fit"', 'not for this log'],
    ['"figure": "outing.distance_m", "min": 1, "files": "logs/*.gpx"', 'kept 10000 at least 1'],
  ])('%s: %s', (limits, expected) => {
    expect(verdict(limits)).toBe(expected);
  });

  it('knows which commands it needs', () => {
    const rules = parseRules(
      '{"rules": [{"name": "r", "figure": "outing.distance_m", "within": {"of": "strokes.count", "pct": 1}}]}',
      'rules.json',
    );
    expect(commandsOf(rules)).toEqual(['outing', 'strokes']);
  });
});

describe('a rules file with a mistake', () => {
  const fault = (limits: string): string => {
    try {
      parseRules(`{\n"rules": [\n{"name": "r",\n${limits}}\n]}`, 'rules.json');
    } catch (error) {
      return `${(error as Error).name}: ${(error as Error).message}`;
    }
    return 'none';
  };

  it.each([
    [
      '"figure": "outing.distance_m", "mni": 1',
      'line 4: key "mni" is not known here; did you mean "min"? Allowed: name, figure, min',
    ],
    ['"figure": "outing.distance_m", "min": "1"', 'line 4: key "min" must be a number, and "1" came'],
    [
      '"figure": "outing.distance", "min": 1',
      'line 4: key "figure": "outing.distance": there is no "distance" there; did you mean "distance_m"? Allowed: file,',
    ],
    [
      '"figure": "outng.distance_m", "min": 1',
      'line 4: key "figure": "outng.distance_m" must begin with one of inspect, outing, strokes, pieces; did you mean "outing"?',
    ],
    [
      '"figure": "pieces.0.parts.1.rate", "min": 1',
      'line 4: key "figure": "pieces.0.parts.1.rate": there is no "rate" there; did you mean "rate_spm"?',
    ],
    [
      '"figure": "outing.distance_m"',
      'line 3: key "name": a limit is missing: give min, max, equals, one_of or within',
    ],
  ])('%s', (limits, expected) => {
    expect(fault(limits)).toContain(`UserError: rules.json, ${expected}`);
  });
});
