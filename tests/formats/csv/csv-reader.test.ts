import { describe, expect, it } from 'vitest';
import { isFault, type ReadOptions, readLog } from '../../../src/formats/index.js';
import type { LogFault, Recording } from '../../../src/recording/index.js';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const recordingOf = (text: string, options: ReadOptions = {}): Recording => {
  const answer = readLog(bytes(text), 'a.csv', options);
  if (isFault(answer)) throw new Error(answer.message);
  return answer;
};
const faultOf = (text: string, options: ReadOptions = {}): LogFault => {
  const answer = readLog(bytes(text), 'a.csv', options);
  if (!isFault(answer)) throw new Error('a recording where a fault was due');
  return answer;
};
const codesOf = (recording: Recording): string[] => recording.warnings.map(({ code }) => code);
const G = 9.80665; // standard gravity, m/s² (CGPM 1901)

describe('CSV', () => {
  it('reads the columns of a motion log in SI units', () => {
    const read = recordingOf(
      'time_ms,ax_g,ay_mg,az_mps2,gx_dps,gy_dps,gz_rads\n0,1,1000,9.5,180,0,1\n10,2,0,9,0,90,0\n',
    );
    expect(read.clock).toBe('relative');
    expect([...read.channels.acceleration!.atS]).toEqual([0, 0.01]);
    expect(read.channels.acceleration!.columns.map((column) => column[0])).toEqual([
      G,
      1000 * (G / 1000),
      9.5,
    ]);
    expect(read.channels.rotation!.columns.map((column) => column[0])).toEqual([180 * (Math.PI / 180), 0, 1]);
    expect(read.warnings).toEqual([]);
  });

  it('reads the columns of a track', () => {
    const head = 'time,lat,lon,ele_m,speed_kmh,cadence_spm,heart_rate_bpm';
    const read = recordingOf(
      `${head}\n2026-04-03T10:00:00Z,47,8,400,18,28,150\n2026-04-03T10:00:01Z,47,8.1,400,36,29,151\n`,
    );
    expect(read.startUnixS).toBe(Date.UTC(2026, 3, 3, 10) / 1000);
    expect(read.channels.speed!.columns[0]![0]).toBeCloseTo(5, 12);
    expect(read.channels.cadence!.columns[0]![1]).toBe(29);
    expect(read.channels.heart_rate!.columns[0]![1]).toBe(151);
  });

  it('keeps a track and a motion log of one file on their own time bases', () => {
    const read = recordingOf(
      'time_s,lat,lon,ax_g,ay_g,az_g\n0,47,8,0,0,1\n0.01,,,0,0,1\n0.02,,,0,0,1\n1,47,8.1,,,\n',
    );
    expect([...read.channels.position!.atS]).toEqual([0, 1]);
    expect([...read.channels.acceleration!.atS]).toEqual([0, 0.01, 0.02]);
  });

  it.each([
    ['timestamp,accX,accY,accZ', 'acceleration'],
    ['Time (s);Acceleration x (m/s^2);Acceleration y (m/s^2);Acceleration z (m/s^2)', 'acceleration'],
    ['"Time [ms]","Gyroscope X [°/s]","Gyroscope Y [°/s]","Gyroscope Z [°/s]"', 'rotation'],
    ['time_unix_s\tx_acc\ty_acc\tz_acc', 'acceleration'],
  ])('knows the header %s', (header, channel) => {
    const delimiter = /;/.test(header) ? ';' : /\t/.test(header) ? '\t' : ',';
    const rows = [0, 1, 2].map((i) => [1775210400 + i / 100, 0.1, 0.2, 9.8].join(delimiter));
    const read = recordingOf([header, ...rows].join('\r\n'));
    expect(Object.keys(read.channels)).toEqual([channel]);
  });

  it('reads a decimal comma between semicolons', () => {
    const read = recordingOf('time_s;ax_mps2;ay_mps2;az_mps2\n0,00;0,5;0;9,81\n0,01;-0,5;0;9,81\n');
    expect([...read.channels.acceleration!.atS]).toEqual([0, 0.01]);
    expect([...read.channels.acceleration!.columns[0]!]).toEqual([0.5, -0.5]);
  });

  it('refuses numbers without a header, and takes them with a map', () => {
    const text = '1000,0,0,9.8\n1010,0,0,9.8\n';
    expect(faultOf(text)).toMatchObject({ code: 'no-header', where: 'line 1' });
    const columns = { 1: 'time_ms', 2: 'ax_mps2', 3: 'ay_mps2', 4: 'az_mps2' };
    expect([...recordingOf(text, { columns }).channels.acceleration!.atS]).toEqual([0, 0.01]);
    expect(faultOf(text, { columns: { 9: 'time_s' } }).code).toBe('columns-map');
  });

  it('refuses dates that may be day first', () => {
    expect(faultOf('time,lat,lon\n03/04/2026 10:00:00,47,8\n').code).toBe('date-ambiguous');
  });

  it('says which unit it took where the header states none', () => {
    const rows = [0, 1, 2].map((i) => `${i * 10},0.01,0.02,1.01`).join('\n');
    const read = recordingOf(`time_ms,ax,ay,az\n${rows}\n`);
    expect(read.channels.acceleration!.columns[2]![0]).toBeCloseTo(1.01 * G, 12);
    expect(codesOf(read)).toEqual(['unit-assumed']);
  });

  it('asks for a column of times', () => {
    expect(faultOf('lat,lon\n47,8\n')).toMatchObject({ code: 'no-time-column', where: 'row 1' });
  });

  it('reads UTF-16 with and without a byte-order mark', () => {
    const text = 'time_s,ax_mps2,ay_mps2,az_mps2\n0,1,2,9.8\n0.01,1,2,9.8\n';
    const le = Uint8Array.from([...text].flatMap((char) => [char.charCodeAt(0), 0]));
    for (const variant of [le, new Uint8Array([0xff, 0xfe, ...le])]) {
      const answer = readLog(variant, 'a.csv');
      expect(isFault(answer) ? answer.code : answer.channels.acceleration!.atS.length).toBe(2);
    }
  });

  it('finds the header below notes, and units in a row of their own', () => {
    const text =
      '# made by a logger\nNotes, of the outing\ntime;acc x;acc y;acc z\n(ms);(g);(g);(g)\n0;0,5;0;1\n10;0,5;0;1\n'.replace(
        'Notes, of',
        'Notes of',
      );
    const read = recordingOf(text);
    expect([...read.channels.acceleration!.atS]).toEqual([0, 0.01]);
    expect(read.channels.acceleration!.columns[0]![0]).toBe(0.5 * G);
    expect(read.warnings).toEqual([]);
  });

  it.each([
    ['time_s', 1],
    ['time_ms', 1e3],
    ['time_us', 1e6],
    ['timestamp_ns', 1e9],
    ['timestamp', 1e3],
    ['timestamp', 1e6],
    ['timestamp', 1e9],
  ])('reads %s of which %d make a second', (header, perSecond) => {
    const rows = [0, 1, 2].map((i) => `${(500 + i / 100) * perSecond},0,0,9.8`);
    const read = recordingOf([`${header},ax_mps2,ay_mps2,az_mps2`, ...rows, ''].join('\n'));
    expect(read.clock).toBe('relative');
    for (const [i, at] of read.channels.acceleration!.atS.entries()) expect(at).toBeCloseTo(i / 100, 9);
  });

  it('takes the column that tells the date where another tells seconds from the start', () => {
    const rows = [0, 1, 2].map((i) => `${i / 100},${1775210400000 + i * 10},0,0,9.8`);
    const read = recordingOf(['seconds_elapsed,time,z,y,x', ...rows, ''].join('\n'));
    expect(read.startUnixS).toBe(1775210400);
    expect(read.channels.acceleration!.columns.map((column) => column[0])).toEqual([9.8, 0, 0]);
    expect(codesOf(read)).toEqual(['unit-assumed']);
  });

  it('joins a date and a time of day, and counts from the start without a date', () => {
    const dated = recordingOf(
      'date,time,lat,lon\n2026-04-03,23:59:59.5,47,8\n2026-04-04,00:00:00.5,47,8.1\n',
    );
    expect(dated.startUnixS).toBe(Date.UTC(2026, 3, 3, 23, 59, 59.5) / 1000 + 0.5);
    const bare = recordingOf('time,lat,lon\n23:59:59.5,47,8\n00:00:00.5,47,8.1\n');
    expect(bare.durationS).toBe(1);
    expect(codesOf(bare)).toEqual(['date-missing']);
    expect(faultOf('date,time,lat,lon\n03.04.2026,10:00:00,47,8\n').code).toBe('date-ambiguous');
  });

  it('tells a speed without a unit by the positions, or leaves it out', () => {
    const track = (perMps: number): string =>
      [
        'time_s,lat,lon,speed',
        ...[0, 1, 2, 3].map((i) => `${i},${47 + i * 3.6e-5},8,${4 * perMps}`),
        '',
      ].join('\n');
    for (const perMps of [1, 3.6, 3600 / 1852]) {
      const read = recordingOf(track(perMps));
      expect(read.channels.speed!.columns[0]![0]).toBeCloseTo(4, 9);
      expect(codesOf(read)).toEqual(['unit-assumed']);
    }
    const odd = recordingOf(track(100));
    expect(odd.channels.speed).toBeUndefined();
    expect(codesOf(odd)).toEqual(['unit-unknown']);
  });

  it('takes but the first of a position that is held from row to row', () => {
    const rows = Array.from(
      { length: 400 },
      (_, i) => `${i / 100},0,0,9.8,${47 + Math.floor(i / 100) * 1e-5},8`,
    );
    const read = recordingOf(['time_s,ax_mps2,ay_mps2,az_mps2,lat,lon', ...rows, ''].join('\n'));
    expect([...read.channels.position!.atS]).toEqual([0, 1, 2, 3]);
    expect(read.channels.acceleration!.atS.length).toBe(400);
    expect(codesOf(read)).toEqual(['fixes-held']);
  });

  it('leaves out cells that are no numbers and rows that do not fit, and says where', () => {
    const rows = Array.from({ length: 20 }, (_, i) => `${i / 10},0,0,9.8`);
    rows[3] = '0.3,0,0,NaN';
    rows[5] = '0.5,oops,0,9.8';
    rows[7] = '0.7,0';
    const read = recordingOf(['time_s,ax_mps2,ay_mps2,az_mps2', ...rows, ''].join('\n'));
    expect(read.channels.acceleration!.atS.length).toBe(17);
    expect(read.warnings.map(({ code, where }) => [code, where])).toEqual(
      expect.arrayContaining([
        ['rows-ragged', 'data row 8'],
        ['cells-unreadable', 'data row 6'],
      ]),
    );
  });

  it('keeps all complete rows of a file cut at any byte', () => {
    const rows = Array.from({ length: 12 }, (_, i) => `${(i / 100).toFixed(2)},0.5,-0.25,9.${800 + i}`);
    const text = ['time_s,ax_mps2,ay_mps2,az_mps2', ...rows, ''].join('\n');
    const first = text.indexOf('\n', text.indexOf('\n') + 1) + 1;
    for (let cut = first; cut < text.length; cut++) {
      const read = recordingOf(text.slice(0, cut));
      const ends = text.slice(0, cut).split('\n').length - 2;
      const whole = text[cut] === '\n' ? 1 : 0;
      expect(read.channels.acceleration!.atS.length).toBe(ends + whole);
      expect([...read.channels.acceleration!.columns[2]!]).toEqual(
        rows.slice(0, ends + whole).map((row) => Number(row.split(',')[3])),
      );
    }
  });
});
