import { describe, expect, it } from 'vitest';
import type { WarningCode } from '../../src/contract/severity.js';
import { warningLines } from '../../src/report/warning-lines.js';

const said = (file: string | null, code: WarningCode, message: string) => ({
  file,
  code,
  where: null,
  message,
});

describe('warning lines', () => {
  it('put the severity first, then the log, the place and the sentence', () => {
    const rows = [{ ...said('a.gpx', 'cut-off', 'The log is cut off.'), where: 'line 9' }];
    expect(warningLines(rows, 1)).toEqual(['warning: a.gpx: line 9: The log is cut off.']);
  });

  it('put errors before warnings and the note last', () => {
    const rows = [
      said('a.gpx', 'craft-guessed', 'A rowing boat is assumed'),
      said('a.gpx', 'cut-off', 'The log is cut off'),
      said('b.gpx', 'empty-file', 'the file is empty'),
    ];
    expect(warningLines(rows, 2).map((line) => line.split(':')[0])).toEqual(['error', 'warning', 'note']);
  });

  it('count the rest of many of one kind about one log', () => {
    const many = Array.from({ length: 40 }, (_, i) => said('a.gpx', 'clock-jump', `Jump ${i}.`));
    const lines = warningLines(many, 1);
    expect(lines).toHaveLength(4);
    expect(lines[3]).toBe('warning: a.gpx: 37 more of this kind (clock-jump)');
  });

  it('say once what many logs share, with their number', () => {
    const files = ['a', 'b', 'c', 'd', 'e', 'f'].map((name) => `${name}.gpx`);
    const lines = warningLines(
      files.map((file) => said(file, 'cut-off', 'The log is cut off.')),
      6,
    );
    expect(lines).toEqual(['warning: 6 logs (a.gpx, b.gpx, c.gpx, 3 more): The log is cut off.']);
  });

  it('say all notes in one line, and one alone in full', () => {
    const craft = said('a.gpx', 'craft-guessed', 'A rowing boat is assumed.');
    const cadence = said('b.gpx', 'strokes-from-cadence', 'Counted.');
    expect(warningLines([craft], 1)).toEqual(['note: a.gpx: A rowing boat is assumed.']);
    const [line, ...more] = warningLines([craft, cadence, { ...cadence, file: 'a.gpx' }], 2);
    expect(more).toEqual([]);
    expect(line).toContain('(1 log)');
    expect(line).toContain('(2 logs)');
  });

  it('keep an evening of four logs to four lines, whatever is said of them, and name every kind', () => {
    const codes = [
      'cut-off',
      'clock-jump',
      'long-gap',
      'no-track',
      'damaged',
      'clock-aligned',
      'land-work',
    ] as const;
    const rows = codes.flatMap((code) => ['a', 'b', 'c', 'd'].map((file) => said(file, code, 'x')));
    const lines = warningLines(rows, 4);
    expect(lines.length).toBeLessThanOrEqual(4);
    expect(lines[2]).toBe(
      'warning: also long-gap (4), no-track (4), damaged (4); --format json has every message',
    );
  });

  it('let no control character of a log reach the terminal', () => {
    const [line] = warningLines([said('a\u001b[2J.gpx', 'cut-off', 'x\u009b1mnext\r\nline')], 1);
    expect(line).toBe('warning: a [2J.gpx: X 1mnext line.');
  });
});
