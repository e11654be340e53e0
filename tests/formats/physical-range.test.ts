import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isFault, readLog } from '../../src/formats/index.js';
import {
  CHANNEL_NAMES,
  DATE_RANGE,
  firstOutside,
  PHYSICAL_RANGES,
  type Recording,
} from '../../src/recording/index.js';
import { afterMutation, mutation } from '../fuzz/mutation.js';
import { SEED_LOGS } from '../fuzz/seed-logs.js';

const log = (name: string) => SEED_LOGS.find((one) => one.name === name)!;
const decoder = new TextDecoder();

const read = (bytes: Uint8Array | string): Recording => {
  const answer = readLog(typeof bytes === 'string' ? new TextEncoder().encode(bytes) : bytes, 'x');
  if (isFault(answer)) throw new Error(answer.message);
  return answer;
};

/** The log with a value put in the place of another, in its hundredth record. */
const withValue = (name: string, pattern: RegExp, value: string): string => {
  const lines = decoder.decode(log(name).bytes).split('\n');
  lines[100] = lines[100]!.replace(pattern, (_, before: string) => `${before}${value}`);
  return lines.join('\n');
};

/** Where each quantity stands in a record of each format, and a value of it that is just possible, and just not. */
const CASES = [
  ['gpx', 'position', /(lat=")[^"]*/, '87.99', '88.01'],
  ['gpx', 'position', /(lon=")[^"]*/, '-179.99', '-180.01'],
  ['gpx', 'elevation', /(<ele>)[^<]*/, '9999', '10001'],
  ['gpx', 'speed', /(<e:speed>)[^<]*/, '59.9', '548314'],
  ['gpx', 'cadence', /(<e:cadence>)[^<]*/, '249', '9007199254740993'],
  ['gpx', 'heart_rate', /(<e:hr>)[^<]*/, '21', '19'],
  ['tcx', 'position', /(<LatitudeDegrees>)[^<]*/, '-87.9', '-1e308'],
  ['tcx', 'elevation', /(<AltitudeMeters>)[^<]*/, '-999', '-1001'],
  ['tcx', 'distance', /(<DistanceMeters>)[^<]*/, '1e6', '1e12'],
  ['tcx', 'cadence', /(<Cadence>)[^<]*/, '250', '251'],
  ['tcx', 'heart_rate', /(<Value>)[^<]*/, '250', '9e15'],
  ['csv track', 'cadence', /^((?:[^,]*,){6})[^,]*/, '0', '-1e308'],
  ['csv track', 'speed', /^((?:[^,]*,){4})[^,]*/, '-0.9', '-1.1'],
  ['csv track', 'elevation', /^((?:[^,]*,){3})[^,]*/, '0', '1e5'],
  ['csv of an accelerometer', 'acceleration', /^((?:[^,]*,){1})[^,]*/, '1999', '2001'],
  ['csv of an accelerometer', 'rotation', /^((?:[^,]*,){5})[^,]*/, '4000', '5000'],
  ['nmea', 'speed', /(E,|W,)\d[^,]*/, '100.0', '200.0'],
] as const;

describe('a value that cannot be', () => {
  it.each(CASES)('of %s, %s is missing, counted and said', (name, channel, pattern, possible, impossible) => {
    const whole = read(log(name).bytes).channels[channel]!;
    const kept = read(withValue(name, pattern, possible));
    expect([kept.channels[channel]!.atS.length, kept.warnings.map(({ code }) => code)]).toEqual([
      whole.atS.length,
      read(log(name).bytes).warnings.map(({ code }) => code),
    ]);
    const left = read(withValue(name, pattern, impossible));
    expect(left.channels[channel]!.atS.length).toBe(whole.atS.length - 1);
    const code = channel === 'position' ? 'position-impossible' : 'value-impossible';
    const said = left.warnings.filter((warning) => warning.code === code);
    expect(said).toHaveLength(1);
    expect(said[0]!.message).toMatch(/^1 (position|sample)/);
    // What else the record holds is kept.
    for (const other of CHANNEL_NAMES)
      if (other !== channel && left.channels[other] !== undefined)
        expect(left.channels[other].atS.length).toBe(read(log(name).bytes).channels[other]!.atS.length);
  });

  it('never comes through, in any format, whatever its numbers are replaced by', () => {
    const damage = fc.array(mutation, { minLength: 1, maxLength: 3 });
    let readCount = 0;
    fc.assert(
      fc.property(fc.constantFrom(...SEED_LOGS), damage, ({ bytes }, mutations) => {
        const answer = readLog(mutations.reduce(afterMutation, bytes), 'x');
        if (isFault(answer)) return;
        readCount++;
        if (answer.startUnixS !== null) {
          expect(answer.startUnixS).toBeGreaterThanOrEqual(DATE_RANGE.low);
          expect(answer.startUnixS + answer.durationS).toBeLessThanOrEqual(DATE_RANGE.high);
        }
        expect(answer.durationS).toBeLessThanOrEqual(366 * 86_400);
        for (const [name, { atS, columns }] of Object.entries(answer.channels)) {
          for (const [i, column] of columns.entries())
            expect(firstOutside(column, PHYSICAL_RANGES[name as keyof typeof PHYSICAL_RANGES][i]!)).toBe(
              column.length,
            );
          for (let i = 1; i < atS.length; i++) if (!(atS[i]! - atS[i - 1]! > 4e-5)) expect(i).toBe(0);
        }
      }),
      { numRuns: 600 },
    );
    expect(readCount).toBeGreaterThan(300);
  });
});
