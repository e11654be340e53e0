import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Channel, shortened } from '../../src/recording/index.js';

const channel = (atS: readonly number[], gaps: Channel['gaps'] = []): Channel => ({
  name: 'speed',
  atS: Float64Array.from(atS),
  columns: [Float64Array.from(atS)],
  gaps,
});

describe('shortened', () => {
  it('cuts a week down to the length told, and leads back', () => {
    const week = 7 * 86_400;
    const gaps = [{ fromS: 1, toS: week, kind: 'segment' as const }];
    const short = shortened(channel([0, 1, week, week + 1], gaps), 60);
    expect([...short.channel.atS]).toEqual([0, 1, 61, 62]);
    expect(short.channel.gaps).toEqual([{ fromS: 1, toS: 61, kind: 'segment' }]);
    expect([0.5, 1, 61, 61.5].map(short.toLog)).toEqual([0.5, 1, week, week + 0.5]);
    expect(short.toLog(3)).toBe(3);
    expect(short.toLog(60)).toBe(week - 1);
  });

  it('hands back a channel without long gaps as it is', () => {
    const whole = channel([0, 1, 60]);
    expect(shortened(whole, 60).channel).toBe(whole);
    expect(shortened(whole, 60).toLog(30)).toBe(30);
  });

  it('leads every sample back to its own time, and keeps short steps', () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 50, max: 10_000 }))),
        (steps) => {
          const atS = [0];
          for (const step of steps) atS.push(atS.at(-1)! + step);
          const short = shortened(channel(atS), 100);
          expect([...short.channel.atS].map(short.toLog)).toEqual(atS);
          steps.forEach((step, i) => {
            expect(short.channel.atS[i + 1]! - short.channel.atS[i]!).toBe(Math.min(step, 100));
          });
        },
      ),
      { numRuns: 200, seed: 5 },
    );
  });
});
