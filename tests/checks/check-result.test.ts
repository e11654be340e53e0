import { describe, expect, it } from 'vitest';
import { checkFile, checkResultOf } from '../../src/checks/index.js';
import type { Rule } from '../../src/contract/rules.js';

const outing = { outing: { outings: [{ distance_m: 4000 }] } };
const rule = (name: string, more: Partial<Rule>): Rule => ({
  name,
  figure: 'outing.outings.0.distance_m',
  min: 1000,
  ...more,
});

const messagesOf = (rules: readonly Rule[], files: readonly string[]): string[] =>
  checkResultOf(
    files.map((file) => ({
      files: [file],
      warnings: [],
      results: checkFile(rules, file, outing),
      commands: ['outing'],
    })),
    rules,
  ).warnings.map(({ message }) => message);

describe('a rule that was held against nothing is said', () => {
  it('where its files are none of those that were checked', () => {
    const rules = [rule('far enough', {}), rule('far enough by FIT', { files: '*.fit' })];
    expect(messagesOf(rules, ['a.gpx', 'b.gpx'])).toEqual([
      'The rule "far enough by FIT" was held against nothing: its files, "*.fit", are none of these.',
    ]);
    expect(messagesOf(rules, ['a.gpx', 'b.fit'])).toEqual([]);
  });

  it('where no file has its figures', () => {
    expect(messagesOf([rule('whole season', { figure: 'season.totals.distance_m' })], ['a.gpx'])).toEqual([
      expect.stringMatching(
        /^The rule "whole season" was held against nothing: none of the files has figures of season;/,
      ),
    ]);
  });
});
