import { describe, expect, it } from 'vitest';
import { checkFile, commandsOf, parseRules } from '../../src/checks/index.js';

const RESULTS = {
  outing: {
    warnings: [{ code: 'cut-off', message: 'x' }],
    outings: [{ distance_m: 10_000, crew: null, best: [{ asked_m: 500, duration_s: 100 }] }],
  },
  pieces: {
    warnings: [],
    pieces: [
      { duration_s: 120, parts: [] },
      { duration_s: 140, parts: [] },
    ],
  },
  inspect: { recordings: [{ channels: [{ name: 'position', rate_hz: 1 }], clock: 'utc' }] },
  curve: { curve: { exponent: 0.3 } },
  season: {
    weeks: [
      {
        week: '2026-W12',
        distance_m: 9000,
        rate_bands: [{ from_spm: null }, { from_spm: 20, share_pct: 60 }],
      },
    ],
    bests: [
      { kind: 'stretch', asked_m: 2000, duration_s: 420 },
      { kind: 'piece', asked_m: 2000, duration_s: 424 },
    ],
  },
};

const verdict = (limits: string): string => {
  const rules = parseRules(`{"rules": [{"name": "r", ${limits}}]}`, 'rules.json');
  const [row] = checkFile(rules, 'logs/a.gpx', RESULTS);
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
    ['"figure": "pieces.*.parts.*.rate_spm", "max": 40', 'kept null at most 40'],
    ['"figure": "pieces.pieces.count", "equals": 2', 'kept 2 2'],
    ['"figure": "outing.outings.count", "equals": 1', 'kept 1 1'],
    ['"figure": "curve.exponent", "max": 0.34', 'kept 0.3 at most 0.34'],
    ['"figure": "season.weeks.2026-W12.distance_m", "min": 10000', 'broken 9000 at least 10000'],
    ['"figure": "season.weeks.2026-W13.distance_m", "min": 10000', 'broken null at least 10000'],
    ['"figure": "season.weeks.0.rate_bands.20.share_pct", "max": 70', 'kept 60 at most 70'],
    ['"figure": "season.bests.2000.duration_s", "max": 421', 'broken 424 at most 421'],
    [
      '"figure": "outing.distance_m", "within": {"of": "season.bests.2000.duration_s", "pct": 1}',
      'broken 10000 within 1 % of season.bests.2000.duration_s',
    ],
    ['"figure": "workout.summary.missed_count", "max": 0', 'not for this log'],
    ['"figure": "outing.distance_m", "min": 1, "files": "*.fit"', 'not for this log'],
    ['"figure": "outing.distance_m", "min": 1, "files": "logs/*.gpx"', 'kept 10000 at least 1'],
  ])('%s: %s', (limits, expected) => {
    expect(verdict(limits)).toBe(expected);
  });

  it('knows which commands it needs', () => {
    const [rule] = parseRules(
      '{"rules": [{"name": "r", "figure": "outing.distance_m", "within": {"of": "strokes.count", "pct": 1}}]}',
      'rules.json',
    );
    expect(commandsOf(rule!)).toEqual(['outing', 'strokes']);
  });

  it('says which entry of a list breaks it', () => {
    const rules = parseRules(
      '{"rules": [{"name": "r", "figure": "pieces.*.duration_s", "max": 130, "reason": "why"}]}',
      'rules.json',
    );
    expect(checkFile(rules, 'a.gpx', RESULTS)[0]!.message).toBe(
      'pieces.1.duration_s is 140 and must be at most 130: why.',
    );
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
    [
      '"figure": "outing.distance_m", "min": "1"',
      'line 4: key "min" must be a number, and "1" came: write 1',
    ],
    [
      '"figure": "outing.distance", "min": 1',
      'line 4: key "figure": "outing.distance": there is no "distance" there; did you mean "distance_m"? Allowed: file,',
    ],
    [
      '"figure": "outng.distance_m", "min": 1',
      'line 4: key "figure": "outng.distance_m" must begin with one of average, check, curve, gauge, inspect, outing, pace, pieces, regatta, season, seats, strokes, workout; did you mean "outing"?',
    ],
    [
      '"figure": "pieces.0.parts.1.rate", "min": 1',
      'line 4: key "figure": "pieces.0.parts.1.rate": there is no "rate" there; did you mean "rate_spm"?',
    ],
    [
      '"figure": "outing.distance_m.max", "min": 1',
      'line 4: key "figure": "outing.distance_m.max": "distance_m" is a single value: nothing comes after it',
    ],
    [
      '"figure": "outing.rate_bands", "min": 1',
      'line 4: key "figure": "outing.rate_bands": it is a list: add a number from 0, * for every entry or count, as in rate_bands.count',
    ],
    [
      '"figure": "season.totals", "min": 1',
      'line 4: key "figure": "season.totals": it holds several figures: add one of outing_count, distance_m, rowing_s, stroke_count',
    ],
    [
      '"figure": "inspect.channels.postion.rate_hz", "min": 1',
      'line 4: key "figure": "inspect.channels.postion.rate_hz": there is no "postion" there; did you mean "position"? Allowed: position, elevation,',
    ],
    [
      '"figure": "strokes.first.rate_spm", "min": 1',
      'line 4: key "figure": "strokes.first.rate_spm": "first" names no entry of the list "strokes": write a number from 0, * for every entry, count',
    ],
    [
      '"figure": "outing.distance_m", "within": {"of": "pieces.0.durtion_s", "pct": 1}',
      'line 4: key "of": "pieces.0.durtion_s": there is no "durtion_s" there; did you mean "duration_s"?',
    ],
    [
      '"figure": "outing.distance_m"',
      'line 3: key "name": a limit is missing: give min, max, equals, one_of or within',
    ],
  ])('%s', (limits, expected) => {
    expect(fault(limits)).toContain(`UserError: rules.json, ${expected}`);
  });
});
