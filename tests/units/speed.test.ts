import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatSpeed, parseSpeed, SPEED_HEADING, speedOfSplit, splitOfSpeed } from '../../src/units/speed.js';

describe('speeds', () => {
  it.each(['110', '1:50', '1:50.0', '110s'])('reads the split %s', (text) => {
    expect(parseSpeed(text)).toBeCloseTo(500 / 110, 12);
  });

  it.each([
    ['16.4km/h', 16.4 / 3.6],
    ['8.8kn', (8.8 * 1852) / 3600],
    ['8.8 knots', (8.8 * 1852) / 3600],
    ['4.55m/s', 4.55],
  ])('reads %s', (text, mps) => {
    expect(parseSpeed(text)).toBeCloseTo(mps, 12);
  });

  it.each(['', '0', '0m/s', 'fast', '12 mph', '1:75', '1.2.3m/s'])(
    'refuses "%s" and says what to write',
    (text) => {
      expect(() => parseSpeed(text)).toThrow(/write a split such as/);
    },
  );

  it('turns splits and speeds into one another', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 20, noNaN: true }), (mps) => {
        expect(speedOfSplit(splitOfSpeed(mps))).toBeCloseTo(mps, 9);
      }),
    );
  });

  it('heads every unit that it prints', () => {
    for (const unit of ['split', 'mps', 'kmh', 'knots'] as const) {
      expect(SPEED_HEADING[unit]).not.toBe('');
      expect(
        parseSpeed(`${formatSpeed(5, unit)}${{ split: '', mps: 'm/s', kmh: 'km/h', knots: 'kn' }[unit]}`),
      ).toBeCloseTo(5, 1);
    }
  });
});
