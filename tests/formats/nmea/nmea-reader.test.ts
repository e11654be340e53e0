import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nmeaReader } from '../../../src/formats/nmea/nmea-reader.js';
import { nmeaChecksum } from '../../../src/formats/nmea/nmea-sentence.js';
import { isFault } from '../../../src/formats/reader.js';
import type { ChannelName, Recording } from '../../../src/recording/index.js';

const bytesOf = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
const answerOf = (text: string) => nmeaReader.read(bytesOf(text), 'a.nmea', {});
const read = (text: string): Recording => {
  const answer = answerOf(text);
  if (isFault(answer)) throw new Error(`${answer.code}: ${answer.message}`);
  return answer;
};
const values = (recording: Recording, name: ChannelName, column = 0): number[] => [
  ...(recording.channels[name]?.columns[column] ?? []),
];
const times = (recording: Recording, name: ChannelName): number[] => [
  ...(recording.channels[name]?.atS ?? []),
];
const codes = (recording: Recording): string[] => recording.warnings.map(({ code }) => code);

/** A sentence with its checksum, or with a wrong one, or none. */
const sentence = (body: string, checksum: 'right' | 'wrong' | 'absent' = 'right'): string => {
  const bytes = bytesOf(body);
  const sum = nmeaChecksum(bytes, 0, bytes.length) ^ (checksum === 'wrong' ? 0x55 : 0);
  const end = checksum === 'absent' ? '' : `*${sum.toString(16).toUpperCase().padStart(2, '0')}`;
  return `$${body}${end}\r\n`;
};
const clock = (s: number): string =>
  [Math.floor(s / 3600) % 24, Math.floor(s / 60) % 60, s % 60]
    .map((n) => String(n).padStart(2, '0'))
    .join('');
const rmc = (s: number, date = '030526', status = 'A', talker = 'GP'): string =>
  `${talker}RMC,${clock(s)}.00,${status},4500.0000,N,01000.${String(s % 100).padStart(2, '0')}00,E,8.0,090.0,${date},,,A`;
const gga = (s: number, quality = 1): string =>
  `GPGGA,${clock(s)}.00,4500.00000,N,01000.${String(s % 100).padStart(2, '0')}000,E,${quality},08,0.9,12.5,M,46.9,M,,`;

describe('NMEA 0183', () => {
  it("reads the standard's well-known sentences (CHECK-VALUES: 48.1173°, 11.516667°, 22.4 kn, 23 March 1994)", () => {
    const recording = read(
      '$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47\r\n' +
        '$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A\r\n',
    );
    expect(values(recording, 'position', 0)[0]).toBeCloseTo(48.1173, 10);
    expect(values(recording, 'position', 1)[0]).toBeCloseTo(11.516667, 6);
    expect(values(recording, 'speed')[0]).toBeCloseTo(11.52356, 5);
    expect(values(recording, 'elevation')).toEqual([545.4]);
    expect(recording.startUnixS).toBe(Date.UTC(1994, 2, 23, 12, 35, 19) / 1000);
    expect(recording.warnings).toEqual([]);
  });

  it('merges the sentences of an instant, of any talker', () => {
    const text = [36_000, 36_001, 36_002]
      .map((s) => sentence(rmc(s, '030526', 'A', 'GN')) + sentence(gga(s)))
      .join('');
    const recording = read(text);
    expect(times(recording, 'position')).toEqual([0, 1, 2]);
    expect(times(recording, 'speed')).toEqual([0, 1, 2]);
    expect(times(recording, 'elevation')).toEqual([0, 1, 2]);
  });

  it('takes the speed of a VTG, before or after the position it belongs to', () => {
    const vtg = (knots: number): string => sentence(`GPVTG,90.0,T,,M,${knots},N,${knots * 1.852},K,A`);
    const after = read(sentence(gga(10)) + vtg(5) + sentence(gga(11)) + vtg(6));
    expect(values(after, 'speed').map((v) => (v * 3600) / 1852)).toEqual([5, 6]);
    expect(times(after, 'speed')).toEqual([0, 1]);
    const before = read(vtg(5) + sentence(gga(10)) + vtg(6) + sentence(gga(11)));
    expect(values(before, 'speed').map((v) => (v * 3600) / 1852)).toEqual([5, 6]);
  });

  it('rolls the date over at midnight, also where a GGA comes before the new date', () => {
    const text =
      sentence(gga(86_398)) +
      sentence(rmc(86_398, '310526')) +
      sentence(gga(86_399)) +
      sentence(gga(0)) +
      sentence(rmc(0, '010626')) +
      sentence(gga(1));
    const recording = read(text);
    expect(times(recording, 'position')).toEqual([0, 1, 2, 3]);
    expect(recording.startUnixS).toBe(Date.UTC(2026, 4, 31, 23, 59, 58) / 1000);
  });

  it('counts back from a date that comes last, over midnight', () => {
    const recording = read(
      [86_398, 86_399, 0].map((s) => sentence(gga(s))).join('') + sentence(rmc(1, '010626')),
    );
    expect(times(recording, 'position')).toEqual([0, 1, 2, 3]);
    expect(recording.startUnixS).toBe(Date.UTC(2026, 4, 31, 23, 59, 58) / 1000);
  });

  it('keeps a log without any date as a relative one', () => {
    const recording = read([86_399, 0, 1].map((s) => sentence(gga(s))).join(''));
    expect(recording.clock).toBe('relative');
    expect(times(recording, 'position')).toEqual([0, 1, 2]);
    expect(codes(recording)).toEqual(['date-missing']);
  });

  it('takes the date of a ZDA', () => {
    const recording = read(
      sentence(gga(10)) + sentence('GPZDA,000010.00,03,05,2026,00,00') + sentence(gga(11)),
    );
    expect(recording.startUnixS).toBe(Date.UTC(2026, 4, 3, 0, 0, 10) / 1000);
  });

  it('leaves out instants that either sentence calls void, and counts them', () => {
    const text =
      sentence(rmc(1)) +
      sentence(rmc(2, '030526', 'V')) +
      sentence(gga(2)) +
      sentence(gga(3, 0)) +
      sentence(rmc(3)) +
      sentence(rmc(4));
    const recording = read(text);
    expect(times(recording, 'position')).toEqual([0, 3]);
    expect(times(recording, 'speed')).toEqual([0, 3]);
    expect(recording.warnings).toMatchObject([
      { code: 'nmea-no-fix', message: expect.stringContaining('2 of 4') },
    ]);
    expect(answerOf(sentence(rmc(2, '030526', 'V')))).toMatchObject({
      fault: true,
      code: 'nmea-no-fix',
      file: 'a.nmea',
    });
  });

  it('drops sentences with a wrong checksum where most are right', () => {
    const text = count(20)
      .map((s) => sentence(rmc(s), s === 7 ? 'wrong' : s === 9 ? 'absent' : 'right'))
      .join('');
    const recording = read(text);
    expect(times(recording, 'position')).toHaveLength(18);
    expect(recording.warnings).toMatchObject([
      { code: 'nmea-checksum', message: expect.stringContaining('2 of 20') },
    ]);
  });

  it('believes a file whose checksums are mostly wrong or absent, and says so', () => {
    const wrong = read(
      count(20)
        .map((s) => sentence(rmc(s), s % 5 === 0 ? 'right' : 'wrong'))
        .join(''),
    );
    expect(times(wrong, 'position')).toHaveLength(20);
    expect(codes(wrong)).toEqual(['nmea-checksums-ignored']);
    const absent = read(
      count(20)
        .map((s) => sentence(rmc(s), 'absent'))
        .join(''),
    );
    expect(times(absent, 'position')).toHaveLength(20);
    expect(codes(absent)).toEqual(['nmea-checksums-absent']);
  });

  it('passes over AIS, comments, binary and interrupted sentences', () => {
    const noise =
      '!AIVDM,1,1,,A,13u?etPv2;0n:dDPwUM1U1Cb069D,0*23\r\n# made\r\n\u0000\u00ff\u0010$\u0001GPRMC,\u0000';
    const cut = sentence(rmc(5)).slice(0, 30);
    const recording = read(
      noise + sentence(rmc(1)) + noise + cut + sentence(rmc(2)) + noise + sentence(rmc(3)),
    );
    expect(times(recording, 'position')).toEqual([0, 1, 2]);
  });

  it('leaves out places that are none', () => {
    const bad = 'GPRMC,000005.00,A,9100.0000,N,01000.0000,E,8.0,090.0,030526,,,A';
    const minutes = 'GPRMC,000006.00,A,4560.0000,N,01000.0000,E,8.0,090.0,030526,,,A';
    const recording = read(sentence(rmc(4)) + sentence(bad) + sentence(minutes));
    expect(times(recording, 'position')).toEqual([0]);
    expect(times(recording, 'speed')).toEqual([0, 1, 2]);
  });

  it.each(['right', 'absent', 'wrong'] as const)(
    'keeps every instant before a cut (checksums %s)',
    (checksum) => {
      const lines = count(12).map((s) => sentence(rmc(s), checksum));
      const text = lines.join('');
      for (let cut = 1; cut <= text.length; cut++) {
        const whole = lines.filter((_, i) => lines.slice(0, i + 1).join('').length <= cut).length;
        const answer = answerOf(text.slice(0, cut));
        if (whole === 0) continue;
        const recording = answer as Recording;
        const [lat, lon] = [values(recording, 'position'), values(recording, 'position', 1)];
        expect(lat.length).toBeGreaterThanOrEqual(whole);
        expect(lat.length).toBeLessThanOrEqual(whole + 1);
        expect(lat.every((deg) => deg === 45)).toBe(true);
        lon.forEach((deg, s) => {
          expect(deg).toBeCloseTo(10 + s / 6000, 10);
        });
      }
    },
  );

  it('survives any sentence', () => {
    const field = fc.oneof(
      fc.string({ maxLength: 6 }),
      fc.constantFrom('A', 'N', 'E', '4500.00', '01000.0', '000001', '030526', ''),
    );
    const any = fc.tuple(
      fc.constantFrom('GPRMC', 'GPGGA', 'GPVTG', 'GPZDA'),
      fc.array(field, { maxLength: 14 }),
    );
    fc.assert(
      fc.property(fc.array(any, { maxLength: 10 }), (rows) => {
        const answer = answerOf(
          rows.map(([address, fields]) => sentence([address, ...fields].join(','), 'absent')).join(''),
        );
        expect(isFault(answer) ? answer.file : answer.provenance.file).toBe('a.nmea');
      }),
      { numRuns: 300, seed: 2 },
    );
  });
});

const count = (n: number): number[] => Array.from({ length: n }, (_, i) => i);
