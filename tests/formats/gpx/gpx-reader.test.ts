import { describe, expect, it } from 'vitest';
import { isFault, readLog } from '../../../src/formats/index.js';
import type { LogFault, Recording } from '../../../src/recording/index.js';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const recordingOf = (text: string | Uint8Array): Recording => {
  const answer = readLog(typeof text === 'string' ? bytes(text) : text, 'a.gpx');
  if (isFault(answer)) throw new Error(answer.message);
  return answer;
};
const faultOf = (text: string): LogFault => {
  const answer = readLog(bytes(text), 'a.gpx');
  if (!isFault(answer)) throw new Error('a recording where a fault was due');
  return answer;
};
const codesOf = (recording: Recording): string[] => recording.warnings.map(({ code }) => code);

const point = (second: number, inside = ''): string =>
  `<trkpt lat="47.${100 + second}" lon="8.5"><ele>406.5</ele><time>2026-04-03T10:00:${String(second).padStart(2, '0')}Z</time>${inside}</trkpt>`;
const gpx = (inside: string, head = '<?xml version="1.0" encoding="UTF-8"?>'): string =>
  `${head}<gpx version="1.1" creator="Logger &amp; Co" xmlns="http://www.topografix.com/GPX/1/1"><trk><type>rowing</type>${inside}</trk></gpx>`;
const segment = (inside: string): string => `<trkseg>${inside}</trkseg>`;

describe('GPX', () => {
  it('gives position, elevation and the clock of a track', () => {
    const read = recordingOf(gpx(segment(point(0) + point(1) + point(3))));
    expect(read.provenance).toEqual({ file: 'a.gpx', format: 'gpx', device: 'Logger & Co', sport: 'rowing' });
    expect(read.startUnixS).toBe(Date.UTC(2026, 3, 3, 10) / 1000);
    expect([...read.channels.position!.atS]).toEqual([0, 1, 3]);
    expect([...read.channels.position!.columns[0]!]).toEqual([47.1, 47.101, 47.103]);
    expect([...read.channels.elevation!.columns[0]!]).toEqual([406.5, 406.5, 406.5]);
    expect(read.warnings).toEqual([]);
  });

  it('reads speed, cadence and heart rate under any prefix, declared or not', () => {
    for (const prefix of ['', 'gpxtpx:', 'ns3:', 'x-y:']) {
      const inside = `<extensions><${prefix}TrackPointExtension><${prefix}hr>150</${prefix}hr><${prefix}cad>28</${prefix}cad><${prefix}speed>4.25</${prefix}speed></${prefix}TrackPointExtension></extensions>`;
      const { channels } = recordingOf(gpx(segment(point(0, inside) + point(1))));
      expect(
        [channels.heart_rate, channels.cadence, channels.speed].map((one) => one!.columns[0]![0]),
      ).toEqual([150, 28, 4.25]);
      expect(channels.speed!.atS.length).toBe(1);
    }
  });

  it('reads the speed element of GPX 1.0', () => {
    const read = recordingOf(gpx(segment(point(0, '<course>90</course><speed>3.5</speed>'))));
    expect([...read.channels.speed!.columns[0]!]).toEqual([3.5]);
  });

  it('makes each segment a lap and lets nothing be joined across', () => {
    const read = recordingOf(gpx(segment(point(0) + point(1)) + segment(point(2) + point(5))));
    expect(read.laps).toEqual([
      { fromS: 0, toS: 1 },
      { fromS: 2, toS: 5 },
    ]);
    expect(read.channels.position!.gaps).toEqual([{ fromS: 1, toS: 2, kind: 'segment' }]);
  });

  it('leaves out points without a time, and counts them', () => {
    const bare = '<trkpt lat="47.2" lon="8.5"/>';
    const read = recordingOf(gpx(segment(point(0) + bare + bare + point(3))));
    expect(read.channels.position!.atS.length).toBe(2);
    expect(read.warnings[0]).toMatchObject({ code: 'samples-without-time', file: 'a.gpx' });
    expect(read.warnings[0]!.message).toMatch(/^2 samples have no time/);
    expect(faultOf(gpx(segment(bare))).code).toBe('no-times');
  });

  it('understands time zones and fractions of any length', () => {
    const at = (time: string) => `<trkpt lat="47" lon="8"><time>${time}</time></trkpt>`;
    const read = recordingOf(
      gpx(segment(at('2026-04-03T12:00:00.1234567+02:00') + at('2026-04-03T10:00:01.5Z'))),
    );
    expect(read.startUnixS).toBeCloseTo(Date.UTC(2026, 3, 3, 10) / 1000 + 0.123457, 6);
    expect(read.durationS).toBeCloseTo(1.376543, 9);
    expect(codesOf(recordingOf(gpx(segment(at('2026-04-03T10:00:00')))))).toEqual(['time-zone-missing']);
  });

  it('reads UTF-16, byte-order marks, and bytes before the declaration', () => {
    const text = gpx(segment(point(0) + point(1)));
    const le = new Uint8Array(text.length * 2);
    for (let i = 0; i < text.length; i++) le[2 * i] = text.charCodeAt(i);
    const be = le.slice();
    for (let i = 0; i < be.length; i += 2) [be[i], be[i + 1]] = [be[i + 1]!, be[i]!];
    const variants = [
      bytes(`\ufeff${text}`),
      bytes(`\n  ${text}`),
      new Uint8Array([0xff, 0xfe, ...le]),
      new Uint8Array([0xfe, 0xff, ...be]),
      le,
    ];
    for (const variant of variants) expect(recordingOf(variant).channels.position!.atS.length).toBe(2);
  });

  it('keeps long decimals and passes over empty elements', () => {
    const long = `<trkpt lat="47.123456789012345678901234567" lon="8.5"><time>2026-04-03T10:00:00Z</time><ele/><speed></speed></trkpt>`;
    const { channels } = recordingOf(gpx(segment(long)));
    expect(channels.position!.columns[0]![0]).toBe(47.123456789012344);
    expect(channels.elevation).toBeUndefined();
    expect(channels.speed).toBeUndefined();
  });

  it('leaves a document type and its entities inert', () => {
    const head =
      '<?xml version="1.0"?><!DOCTYPE gpx [<!ENTITY a "AAAA"><!ENTITY b "&a;&a;"><!ENTITY x SYSTEM "file:///etc/hostname">]>';
    const read = recordingOf(gpx(segment(point(0, '<name>&b;&x;</name>')), head));
    expect(read.channels.position!.atS.length).toBe(1);
  });

  it('takes the waypoints of a file without a track, and says so', () => {
    const text = '<gpx><wpt lat="47" lon="8"><time>2026-04-03T10:00:00Z</time></wpt></gpx>';
    expect(codesOf(recordingOf(text))).toEqual(['no-track']);
    expect(faultOf('<gpx><metadata/></gpx>').code).toBe('no-points');
  });

  it('keeps all complete points of a log cut at any byte', () => {
    const text = gpx(segment(point(0) + point(1)) + segment(point(2) + point(3)));
    for (let cut = text.indexOf('</trkpt>') + 8; cut < text.length; cut++) {
      const read = recordingOf(text.slice(0, cut));
      expect(read.channels.position!.atS.length).toBe(text.slice(0, cut).split('</trkpt>').length - 1);
      expect(codesOf(read)).toEqual(['cut-off']);
    }
  });

  it('keeps all whole points around damage, and joins nothing across it', () => {
    const points = [0, 1, 2, 3, 4, 5].map((second) => point(second));
    const text = gpx(segment(points.slice(0, 3).join('')) + segment(points.slice(3).join('')));
    const third = text.indexOf('<trkpt', text.indexOf('10:00:01Z'));
    const clean = [0, 1, 3, 4, 5];
    for (let at = third + 1; at < text.indexOf('</trkpt>', third) + 8; at++)
      for (const put of ['<', '</']) {
        const damaged = text.slice(0, at) + put + text.slice(at + put.length);
        if (damaged === text) continue;
        const read = recordingOf(damaged);
        const places = [...read.channels.position!.atS];
        expect(places.filter((place) => place !== 2)).toEqual(clean);
        expect(codesOf(read)).toContain('damaged');
      }
    const damaged = recordingOf(
      text.replace('<time>2026-04-03T10:00:01Z</time>', '<time>2026-04-03T10:00:01Z<time>'),
    );
    expect(damaged.channels.position!.gaps[0]).toEqual({ fromS: 0, toS: 2, kind: 'segment' });
  });

  it.each([
    ['the end of a segment', '</trkseg><trkseg>', '<trkseg>'],
    ['the start of a segment', '</trkseg><trkseg>', '</trkseg>'],
    ['the end of a point', '</trkpt><trkpt', '<trkpt'],
    ['the start of the first segment', '<type>rowing</type><trkseg>', '<type>rowing</type>'],
    ['an end tag before the first point', '<type>rowing</type>', '<type>rowing'],
  ])('reads on where %s is missing', (_, whole, broken) => {
    const text = gpx(segment(point(0) + point(1)) + segment(point(2) + point(3)));
    const read = recordingOf(text.replace(whole, broken));
    expect(read.channels.position!.atS.length).toBeGreaterThanOrEqual(3);
    expect(codesOf(read)).toContain('damaged');
  });

  it('leaves out positions that are no place', () => {
    const bad = '<trkpt lat="147" lon="8"><time>2026-04-03T10:00:01Z</time></trkpt>';
    expect(codesOf(recordingOf(gpx(segment(point(0) + bad))))).toEqual(['position-impossible']);
  });
});
