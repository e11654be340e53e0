import { describe, expect, it } from 'vitest';
import { markdownText } from '../../src/report/markdown-text.js';
import { plotLines } from '../../src/report/plot.js';
import { tableText } from '../../src/report/table-text.js';

const lines = plotLines({
  series: [
    {
      mark: '.',
      points: [
        [0, 0],
        [5, 5],
        [10, 10],
      ],
    },
    { mark: 'o', points: [[10, 10]] },
  ],
  columns: 11,
  lines: 3,
  xLabel: (x) => `${x} s`,
  yLabel: String,
});

describe('a small plot', () => {
  it('puts every point in its place, later marks over earlier ones', () => {
    expect(lines).toEqual(['10 |          o', '   |     .', ' 0 |.', '   +-----------', '    0 s    10 s']);
  });

  it('is nothing where there is nothing to draw', () => {
    const empty = { columns: 10, lines: 3, xLabel: String, yLabel: String };
    expect(plotLines({ series: [], ...empty })).toEqual([]);
    expect(plotLines({ series: [{ mark: 'x', points: [[1, 1]] }], ...empty })).toHaveLength(5);
  });

  it('keeps its blanks in a table and in Markdown', () => {
    const section = { title: null, columns: [], rows: [], notes: ['Note.'], drawing: lines };
    const reading = { speed: null, zone: 'UTC', plain: true, bold: false, width: 80 };
    expect(tableText([section], reading)).toBe(`${lines.join('\n')}\nNote.\n`);
    expect(markdownText([section])).toBe(`\`\`\`text\n${lines.join('\n')}\n\`\`\`\n\nNote.\n`);
  });
});
