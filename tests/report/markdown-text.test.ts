import { describe, expect, it } from 'vitest';
import { markdownText } from '../../src/report/markdown-text.js';
import { figures, words } from '../../src/report/section.js';

describe('Markdown', () => {
  it('is a heading and a pipe table, and a log cannot add to either', () => {
    expect(
      markdownText([
        {
          title: 'Crew | <b>',
          columns: [words('crew'), figures('m')],
          rows: [['a|b\n# c', '12']],
          notes: ['Note.'],
        },
      ]),
    ).toBe('## Crew \\| &lt;b\\>\n\n| crew | m |\n| :--- | ---: |\n| a\\|b # c | 12 |\n\nNote.\n');
  });
});
