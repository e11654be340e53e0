import { describe, expect, it } from 'vitest';
import { warningLines } from '../../src/report/warning-lines.js';

const warning = (file: string | null, code: string, message: string) => ({
  file,
  code,
  where: null,
  message,
});

describe('warning lines', () => {
  it('names the log, the place and the sentence', () => {
    expect(
      warningLines([{ file: 'a.gpx', code: 'cut', where: 'line 9', message: 'The log is cut off.' }]),
    ).toEqual(['a.gpx: line 9: The log is cut off.']);
  });

  it('counts the rest of many of one kind about one log', () => {
    const many = Array.from({ length: 40 }, (_, i) => warning('a.gpx', 'outlier', `Fix ${i} left out.`));
    const lines = warningLines([...many, warning('b.gpx', 'outlier', 'Fix 1 left out.')]);
    expect(lines).toHaveLength(5);
    expect(lines[3]).toBe('a.gpx: 37 more of this kind (outlier)');
    expect(lines[4]).toBe('b.gpx: Fix 1 left out.');
  });

  it('lets no control character of a log reach the terminal', () => {
    const [line] = warningLines([warning('a\u001b[2J.gpx', 'cut', 'x\u009b1mnext\r\nline')]);
    expect(line).toBe('a [2J.gpx: X 1mnext line.');
  });
});
