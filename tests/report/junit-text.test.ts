import fc from 'fast-check';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { describe, expect, it } from 'vitest';
import { junitText } from '../../src/report/junit-text.js';

const row = (file: string, rule: string, passed: boolean, severity: 'error' | 'warning' = 'error') => ({
  file,
  rule,
  passed,
  value: 1,
  limit: 'at most 2',
  severity,
  message: `${rule} & more`,
});
const result = (results: ReturnType<typeof row>[]) => ({
  schema: 'thole/check/1' as const,
  files: [],
  warnings: [],
  results,
  summary: { passed_count: 0, failed_count: 0, warned_count: 0 },
});

describe('a check for CI', () => {
  it('has a suite a log, a case a rule, and counts what broke', () => {
    const text = junitText(
      result([row('a', 'one', true), row('a', 'two', false), row('a', 'three', false, 'warning')]),
      [{ file: 'b', message: 'it is a folder' }],
      [{ rule: 'idle', why: 'its files are none of these' }],
    );
    const read = new XMLParser({ ignoreAttributes: false, attributeNamePrefix: '' }).parse(text);
    expect(read.testsuites.testsuite).toMatchObject([
      { name: 'a', tests: '3', failures: '1', errors: '0', skipped: '1' },
      {
        name: 'b',
        tests: '1',
        failures: '0',
        errors: '1',
        testcase: { error: { message: 'it is a folder' } },
      },
      {
        name: 'rules',
        tests: '1',
        failures: '0',
        skipped: '1',
        testcase: {
          name: 'idle',
          skipped: { message: 'held against nothing: its files are none of these' },
        },
      },
    ]);
  });

  it('is well-formed whatever the names', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), fc.string(), (file, rule) => {
        expect(XMLValidator.validate(junitText(result([row(file, rule, false)]), [], []))).toBe(true);
      }),
    );
  });
});
