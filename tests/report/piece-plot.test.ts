import { describe, expect, it } from 'vitest';
import type { DrawnPiece } from '../../src/contract/drawn.js';
import { piecePlots } from '../../src/report/piece-plot.js';
import type { Reading } from '../../src/report/section.js';

const READING: Reading = { speed: 'mps', zone: 'UTC', plain: true, bold: false, width: 80 };

const drawn = (rates: readonly (number | null)[], speeds: readonly (number | null)[]): DrawnPiece => ({
  file: 'a.gpx',
  piece: 2,
  moments: rates.map((rate_spm, i) => ({
    at_s: 2 * (i + 1),
    cumulative_s: 2 * (i + 1),
    along_m: null,
    rate_spm,
    speed_mps: speeds[i]!,
  })),
});

const plot = (rates: readonly (number | null)[], speeds: readonly (number | null)[]) =>
  piecePlots([drawn(rates, speeds)], false, () => null, READING)[0]!;

describe('a plot of a piece', () => {
  const rising = Array.from({ length: 30 }, (_, i) => 30 + i / 10);
  const falling = Array.from({ length: 30 }, (_, i) => 5 - i / 100);
  const lines = plot(rising, falling).drawing!;

  it('has rate above speed over one axis of time, within 80 columns and in ASCII', () => {
    expect(lines).toHaveLength(15);
    expect(lines[0]).toMatch(/^ +32\.9 spm \| .*\*$/);
    expect(lines[5]).toMatch(/^ +30\.0 spm \|\*/);
    expect(lines[7]).toMatch(/^ +5\.00 m\/s \|\*/);
    expect(lines[12]).toMatch(/^ +4\.71 m\/s \| .*\*$/);
    expect(lines[14]).toMatch(/^ +0:02 +1:00$/);
    for (const line of lines) {
      expect(line.length).toBeLessThanOrEqual(80);
      expect(line).toMatch(/^[ -~]*$/);
    }
  });

  it('keeps its scale where a stroke lies far off, and marks it', () => {
    const odd = plot([...rising.slice(0, 29), 15], [0.5, ...falling.slice(1)]);
    expect(odd.drawing!.slice(0, 6).join('\n')).toMatch(/v$/m);
    expect(odd.drawing!.slice(7, 13).join('\n')).toMatch(/\|v/);
    expect(odd.notes).toEqual(['v and ^ lie beyond the scale.']);
    expect(plot(rising, falling).notes).toEqual([]);
  });

  it('leaves out what is not known, and says where there is nothing', () => {
    expect(plot([...rising, null], [...falling, 4]).drawing).toEqual(lines);
    const alone = plot(
      rising,
      Array.from(rising, () => null),
    );
    expect(alone.title).toBe('Piece 2: rate, stroke by stroke');
    expect(alone.drawing).toHaveLength(8);
    const none = plot([null, null], [5, 5]);
    expect(none.drawing).toBeUndefined();
    expect(none.notes).toEqual(['There are no strokes to draw.']);
    expect(piecePlots([], false, () => null, READING)).toEqual([]);
  });

  it('has other marks where the terminal takes them', () => {
    const shown = piecePlots([drawn(rising, falling)], true, () => null, { ...READING, plain: false })[0]!;
    expect(shown.title).toContain('a.gpx');
    expect(shown.drawing!.join('')).toContain('●');
  });
});
