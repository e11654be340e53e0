import { describe, expect, it } from 'vitest';
import { noteWords, SEVERITIES, severityOf, WARNING_CODES } from '../../src/contract/severity.js';

describe('severities', () => {
  it('are given once to each code, and a code is a word for scripts', () => {
    const codes = WARNING_CODES.map(([code]) => code);
    expect(new Set(codes).size).toBe(codes.length);
    for (const [code, severity] of WARNING_CODES) {
      expect(code).toMatch(/^[a-z]+(-[a-z]+)*$/);
      expect(SEVERITIES).toContain(severity);
    }
  });

  it('are all in use, and a note has words for the closing line', () => {
    expect(new Set(WARNING_CODES.map(([, severity]) => severity))).toEqual(new Set(SEVERITIES));
    for (const [code, severity] of WARNING_CODES)
      if (severity === 'note') expect(noteWords(code)).not.toBe(code);
  });

  it('of a code that is not known, from a result of another version, is a warning', () => {
    expect(severityOf('made-up')).toBe('warning');
    expect(noteWords('made-up')).toBe('made-up');
  });
});
