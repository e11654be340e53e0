import FitParser from 'fit-file-parser';
import { describe, expect, it } from 'vitest';
import { fitReader } from '../../../src/formats/fit/fit-reader.js';
import { isFault } from '../../../src/formats/reader.js';
import type { ChannelName, Recording } from '../../../src/recording/index.js';
import {
  compressed,
  data,
  definition,
  FILE_ID,
  type Field,
  fitFile,
  message,
  record,
  recordsFile,
  START_FIT_S,
  semicircles,
  TYPE,
} from './fit-bytes.js';

const read = (bytes: Uint8Array): Recording => {
  const answer = fitReader.read(bytes, 'a.fit', {});
  if (isFault(answer)) throw new Error(`${answer.code}: ${answer.message}`);
  return answer;
};
const codes = (recording: Recording): string[] => recording.warnings.map(({ code }) => code);
const values = (recording: Recording, name: ChannelName, column = 0): number[] => [
  ...(recording.channels[name]?.columns[column] ?? []),
];
const times = (recording: Recording, name: ChannelName): number[] => [
  ...(recording.channels[name]?.atS ?? []),
];
const at = (s: number): Field => [253, TYPE.uint32, START_FIT_S + s];

describe('FIT', () => {
  it('reads records with their units', () => {
    const recording = read(recordsFile(3));
    expect(recording.provenance).toEqual({
      file: 'a.fit',
      format: 'fit',
      device: 'manufacturer 255, product 7',
      sport: null,
    });
    expect(recording.startUnixS).toBe(Date.UTC(2026, 4, 3, 7) / 1000);
    expect(times(recording, 'position')).toEqual([0, 1, 2]);
    expect(values(recording, 'position')).toEqual([45, 45, 45]);
    expect(values(recording, 'position', 1)[2]).toBeCloseTo(10.0001, 6);
    expect(values(recording, 'heart_rate')).toEqual([130, 131, 132]);
    expect(values(recording, 'cadence')).toEqual([28, 28, 28]);
    expect(values(recording, 'speed')).toEqual([4, 4, 4]);
    expect(recording.warnings).toEqual([]);
  });

  it('takes 45 degrees from 536870912 semicircles (FIT global profile)', () => {
    expect(semicircles(45)).toBe(536_870_912);
  });

  it('reads big-endian messages, and mends a byte order that is stated wrongly', () => {
    const big = { little: false };
    expect(values(read(fitFile(message(20, record(5), big))), 'speed')).toEqual([4]);
    const wrong = { little: true, claimsLittle: false };
    const mended = read(fitFile(message(20, record(5), wrong)));
    expect(values(mended, 'position')).toEqual([45]);
    expect(codes(mended)).toEqual(['fit-byte-order']);
  });

  it('rolls compressed timestamps over every 32 s', () => {
    const fields: Field[] = [[6, TYPE.uint16, 3000]];
    const offset = (s: number): number => (START_FIT_S + s) % 32;
    const recording = read(
      fitFile(
        definition(20, [at(0), ...fields]),
        data([at(0), ...fields]),
        definition(20, fields, { local: 1 }),
        ...[5, 20, 40, 71].map((s) => compressed(offset(s), fields, 1)),
      ),
    );
    expect(times(recording, 'speed')).toEqual([0, 5, 20, 40, 71]);
  });

  it('prefers the enhanced speed and altitude, and adds the fraction of the cadence', () => {
    const recording = read(
      fitFile(
        message(20, [
          at(0),
          [6, TYPE.uint16, 3000],
          [73, TYPE.uint32, 3456],
          [2, TYPE.uint16, 0xffff],
          [78, TYPE.uint32, (123.4 + 500) * 5],
          [4, TYPE.uint8, 27],
          [53, TYPE.uint8, 64],
          [5, TYPE.uint32, 1234],
        ]),
      ),
    );
    expect(values(recording, 'speed')).toEqual([3.456]);
    expect(values(recording, 'elevation')[0]).toBeCloseTo(123.4, 9);
    expect(values(recording, 'cadence')).toEqual([27.5]);
    expect(values(recording, 'distance')).toEqual([12.34]);
  });

  it('takes speed and distance out of their compressed field, over the roll-over at 256 m', () => {
    const packed = (speed: number, distance: number): number[] => {
      const [v, d] = [Math.round(speed * 100), Math.round(distance * 16) % 4096];
      return [v & 0xff, (v >> 8) | ((d & 0x0f) << 4), d >> 4];
    };
    const recording = read(
      fitFile(
        definition(20, [at(0), [8, TYPE.byte, [0, 0, 0]]]),
        ...[10, 200, 300, 500].map((m, s) => data([at(s), [8, TYPE.byte, packed(4.25, m)]])),
      ),
    );
    expect(values(recording, 'speed')).toEqual([4.25, 4.25, 4.25, 4.25]);
    expect(values(recording, 'distance')).toEqual([10, 200, 300, 500]);
  });

  it('takes invalid values, and a heart rate of 0, as missing', () => {
    const nothing: Field[] = [
      [0, TYPE.sint32, 0x7fffffff],
      [1, TYPE.sint32, 0x7fffffff],
      [3, TYPE.uint8, 0],
      [4, TYPE.uint8, 0xff],
      [6, TYPE.uint16, 0xffff],
    ];
    const recording = read(fitFile(definition(20, record(0)), data([at(0), ...nothing]), data(record(1))));
    expect(recording.durationS).toBe(0);
    for (const name of ['position', 'heart_rate', 'cadence', 'speed'] as const)
      expect(values(recording, name)).toHaveLength(1);
  });

  it('follows a local type that is defined anew', () => {
    const recording = read(
      fitFile(
        message(20, [at(0), [6, TYPE.uint16, 1000]]),
        message(20, [at(1), [3, TYPE.uint8, 99], [6, TYPE.uint16, 2000]]),
        message(20, [[6, TYPE.uint16, 3000], at(2)]),
      ),
    );
    expect(values(recording, 'speed')).toEqual([1, 2, 3]);
    expect(values(recording, 'heart_rate')).toEqual([99]);
  });

  it('leaves out a field whose size does not fit its type, and says so', () => {
    const misaligned: Field = [6, TYPE.byte, [1, 2, 3]];
    const layout = definition(20, [at(0), misaligned, [3, TYPE.uint8, 0]]);
    layout[layout.length - 4] = TYPE.uint16;
    const recording = read(fitFile(layout, data([at(0), misaligned, [3, TYPE.uint8, 88]])));
    expect(values(recording, 'heart_rate')).toEqual([88]);
    expect(recording.channels.speed).toBeUndefined();
    expect(codes(recording)).toEqual(['fit-misaligned']);
  });

  it("takes an application's stroke rate where the device has none", () => {
    const description = message(206, [
      [0, TYPE.uint8, 0],
      [1, TYPE.uint8, 3],
      [2, TYPE.uint8, TYPE.float32],
      [3, TYPE.string, 'Stroke Rate'],
      [8, TYPE.string, 'spm'],
    ]);
    const rate = new Uint8Array(Float32Array.of(31.5).buffer);
    const developer = [[3, [...rate], 0]] as const;
    const fields: Field[] = [at(0), [6, TYPE.uint16, 4000]];
    expect(values(read(fitFile(description, message(20, fields, { developer }))), 'cadence')).toEqual([31.5]);
    const withOwn: Field[] = [...fields, [4, TYPE.uint8, 30]];
    expect(values(read(fitFile(description, message(20, withOwn, { developer }))), 'cadence')).toEqual([30]);
  });

  it('reads accelerometer and gyroscope samples on their own times', () => {
    const raw: Field[] = [
      at(1),
      [0, TYPE.uint16, 500],
      [1, TYPE.uint16, [0, 40]],
      [2, TYPE.uint16, [32_768, 33_768]],
      [3, TYPE.uint16, [32_768, 32_768]],
      [4, TYPE.uint16, [34_768, 34_768]],
    ];
    const calibration: Field[] = [
      [253, TYPE.uint32, START_FIT_S],
      [0, TYPE.enum, 0],
      [1, TYPE.uint32, 1],
      [2, TYPE.uint32, 2000],
      [3, TYPE.uint32, 32_768],
      [4, TYPE.sint32, [0, 0, 0]],
      [5, TYPE.sint32, [65_535, 0, 0, 0, 65_535, 0, 0, 0, 65_535]],
    ];
    const turning: Field[] = [
      at(1),
      [0, TYPE.uint16, 0],
      [1, TYPE.uint16, [0]],
      [5, TYPE.float32, [180]],
      [6, TYPE.float32, [0]],
      [7, TYPE.float32, [-90]],
    ];
    const recording = read(
      fitFile(message(20, record(0)), message(167, calibration), message(165, raw), message(164, turning)),
    );
    expect(times(recording, 'acceleration')).toEqual([1.5, 1.54]);
    expect(values(recording, 'acceleration', 0)).toEqual([0, 0.5 * 9.80665]);
    expect(values(recording, 'acceleration', 2)).toEqual([9.80665, 9.80665]);
    expect(values(recording, 'rotation', 0)).toEqual([Math.PI]);
    expect(values(recording, 'rotation', 2)).toEqual([-Math.PI / 2]);

    const uncalibrated = read(fitFile(message(20, record(0)), message(165, raw)));
    expect(uncalibrated.channels.acceleration).toBeUndefined();
    expect(codes(uncalibrated)).toEqual(['fit-uncalibrated']);
  });

  it('tells device, sport, laps, stated accuracy, pauses and land work', () => {
    const bytes = fitFile(
      message(18, [at(30), [5, TYPE.enum, 15], [6, TYPE.enum, 0xff]]),
      FILE_ID,
      message(23, [at(0), [0, TYPE.uint8, 0], [27, TYPE.string, 'Logger\u0007 2']]),
      message(20, [...record(0), [31, TYPE.uint8, 3]]),
      message(20, [...record(1), [31, TYPE.uint8, 5]]),
      message(21, [at(10), [0, TYPE.enum, 0], [1, TYPE.enum, 0]]),
      message(20, [...record(2), [31, TYPE.uint8, 3]]),
      message(19, [at(2), [2, TYPE.uint32, START_FIT_S], [7, TYPE.uint32, 1500]]),
    );
    const recording = read(bytes);
    expect(recording.provenance).toMatchObject({ device: 'Logger 2', sport: 'rowing' });
    expect(recording.laps).toEqual([{ fromS: 0, toS: 1.5 }]);
    expect(recording.statedPositionSdM).toBe(3);
    expect(recording.channels.position!.gaps).toEqual([{ fromS: 1, toS: 2, kind: 'segment' }]);
    expect(recording.land).toBe(false);

    const indoor = read(
      fitFile(
        message(20, record(0)),
        message(18, [
          [5, TYPE.enum, 4],
          [6, TYPE.enum, 14],
        ]),
      ),
    );
    expect(indoor.land).toBe(true);
    expect(indoor.provenance.sport).toBe('indoor rowing');
  });

  it.each([
    [15, 'rowing'],
    [19, 'paddling'],
    [37, 'stand-up paddling'],
    [41, 'kayaking'],
    [88, 'canoeing'],
    [200, 'sport 200'],
  ])('names sport %i %s (FIT global profile)', (code, name) => {
    const recording = read(fitFile(message(20, record(0)), message(18, [[5, TYPE.enum, code]])));
    expect(recording.provenance.sport).toBe(name);
  });

  it('joins files that follow one another', () => {
    const [first, second] = [recordsFile(3), fitFile(FILE_ID, message(20, record(60)))];
    const chained = new Uint8Array([...first, ...second]);
    const recording = read(chained);
    expect(times(recording, 'position')).toEqual([0, 1, 2, 60]);
    expect(recording.channels.position!.gaps).toEqual([{ fromS: 2, toS: 60, kind: 'segment' }]);
    const trailing = read(new Uint8Array([...first, 1, 2, 3]));
    expect(times(trailing, 'position')).toHaveLength(3);
    expect(codes(trailing)).toEqual(['fit-trailing']);
  });

  it('keeps every whole record before a cut, wherever it is', () => {
    const count = 6;
    const bytes = recordsFile(count);
    const recordBytes = data(record(0)).length;
    const firstRecord = bytes.length - 2 - count * recordBytes;
    for (let cut = 12; cut < bytes.length; cut++) {
      const whole = Math.min(count, Math.max(0, Math.floor((cut - firstRecord) / recordBytes)));
      const answer = fitReader.read(bytes.subarray(0, cut), 'a.fit', {});
      if (whole === 0) {
        expect(isFault(answer) && answer.file).toBe('a.fit');
        continue;
      }
      expect(isFault(answer)).toBe(false);
      expect(times(answer as Recording, 'position')).toHaveLength(whole);
      expect(codes(answer as Recording)).toEqual(['cut-off']);
    }
  });

  it('reads a file with a wrong checksum, no length, or no header size, and says so', () => {
    const broken = recordsFile(4);
    broken[broken.length - 1]! ^= 0xff;
    expect(codes(read(broken))).toEqual(['fit-checksum']);
    const unfinished = recordsFile(4).slice(0, -2);
    unfinished.fill(0, 4, 8);
    expect(times(read(unfinished), 'position')).toHaveLength(4);
    expect(codes(read(unfinished))).toEqual(['fit-unfinished']);
    const headless = recordsFile(4);
    headless[0] = 0;
    expect(times(read(headless), 'position')).toHaveLength(4);
  });

  it('reads what stands before damage, and names the byte', () => {
    const bytes = fitFile(definition(20, record(0)), data(record(0)), data(record(1)), [0x0f, 1, 2, 3]);
    const recording = read(bytes);
    expect(times(recording, 'position')).toEqual([0, 1]);
    expect(recording.warnings).toMatchObject([{ code: 'fit-damaged', where: `byte ${bytes.length - 6}` }]);
  });

  it('spreads ten records that share each whole second', () => {
    const tenth = (s: number): number[] => data(record(Math.floor(s / 10)));
    const recording = read(
      fitFile(definition(20, record(0)), ...Array.from({ length: 100 }, (_, s) => tenth(s))),
    );
    const atS = times(recording, 'position');
    expect(atS).toHaveLength(100);
    expect(atS[37]).toBeCloseTo(3.7, 9);
    expect(codes(recording)).toEqual(['stamps-shared']);
  });

  it('keeps a clock that counts from power-up as a relative one', () => {
    const fields: Field[] = [
      [253, TYPE.uint32, 40_000_000],
      [6, TYPE.uint16, 4000],
    ];
    const recording = read(fitFile(message(20, fields)));
    expect(recording.clock).toBe('relative');
    expect(codes(recording)).toEqual(['clock-unset']);
  });

  it('gives a fault that names the file where there are no records', () => {
    const answer = fitReader.read(fitFile(FILE_ID), 'settings.fit', {});
    expect(answer).toMatchObject({ fault: true, file: 'settings.fit', code: 'fit-no-records' });
  });

  it('agrees with an independent parser (fit-file-parser)', async () => {
    const bytes = recordsFile(50);
    const parser = new FitParser({ speedUnit: 'm/s', lengthUnit: 'm', mode: 'list', force: true });
    const second = await parser.parseAsync(Buffer.from(bytes) as never);
    const recording = read(bytes);
    const records = second.records!;
    expect(records).toHaveLength(50);
    const column = (key: 'position_lat' | 'position_long' | 'speed' | 'heart_rate' | 'cadence') =>
      records.map((one) => one[key] as number);
    expect(values(recording, 'speed')).toEqual(column('speed'));
    expect(values(recording, 'heart_rate')).toEqual(column('heart_rate'));
    expect(values(recording, 'cadence')).toEqual(column('cadence'));
    column('position_long').forEach((lon, i) => {
      expect(values(recording, 'position', 1)[i]).toBeCloseTo(lon, 9);
    });
    const start = recording.startUnixS!;
    expect(times(recording, 'position').map((s) => (start + s) * 1000)).toEqual(
      records.map((one) => new Date(one.timestamp as unknown as string).getTime()),
    );
  });
});
