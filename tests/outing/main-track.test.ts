import { describe, expect, it } from 'vitest';
import { mainTrack } from '../../src/outing/main-track.js';
import { makeRecording, type Recording } from '../../src/recording/index.js';
import { UserError } from '../../src/units/user-error.js';

const START = Date.UTC(2026, 4, 3, 7) / 1000;
/** WGS84 at 45° (see CHECK-VALUES). */
const M_PER_DEG_LON = 78_846.835;
const M_PER_DEG_LAT = 111_131.777;

/** A boat going east at 4 m/s from `startS` on, one fix every `stepS`, `northM` beside its course. */
const track = (
  file: string,
  { startS = 0, lengthS = 300, stepS = 1, northM = 0, dated = true, heart = false } = {},
): Recording => {
  const atS = Float64Array.from({ length: Math.floor(lengthS / stepS) + 1 }, (_, i) => i * stepS);
  return makeRecording({
    provenance: { file, format: 'gpx', device: null, sport: null },
    originUnixS: dated ? START + startS : null,
    channels: {
      position: {
        atS,
        columns: [
          atS.map(() => 45 + northM / M_PER_DEG_LAT),
          atS.map((at) => 10 + (4 * (startS + at)) / M_PER_DEG_LON),
        ],
      },
      ...(heart ? { heart_rate: { atS, columns: [atS.map(() => 150)] } } : {}),
    },
    laps: [{ fromS: 0, toS: lengthS }],
  });
};
const imu = makeRecording({
  provenance: { file: 'a.imu.csv', format: 'csv', device: null, sport: null },
  originUnixS: null,
  channels: {
    acceleration: { atS: Float64Array.of(0, 1), columns: [0, 0, 9.8].map((g) => Float64Array.of(g, g)) },
  },
});

describe('mainTrack', () => {
  it('takes the one track, and leaves the IMU log to be placed', () => {
    const one = track('a.gpx');
    expect(mainTrack([imu, one])).toEqual({ main: one, others: [imu], warnings: [] });
    expect(mainTrack([imu]).main).toBe(imu);
  });

  it('joins a track split over files, in order of time whatever the order given', () => {
    const parts = [track('2.gpx', { startS: 360, heart: true }), track('1.gpx', { lengthS: 300 })];
    const { main, warnings } = mainTrack(parts);
    expect(main.provenance.file).toBe('1.gpx');
    expect(main.startUnixS).toBe(START);
    expect(main.durationS).toBe(660);
    expect(main.channels.position!.atS).toHaveLength(602);
    expect(main.channels.position!.gaps).toEqual([{ fromS: 300, toS: 360, kind: 'segment' }]);
    expect(main.channels.heart_rate!.atS[0]).toBe(360);
    expect(main.laps).toEqual([
      { fromS: 0, toS: 300 },
      { fromS: 360, toS: 660 },
    ]);
    expect(warnings).toEqual([
      {
        code: 'parts-joined',
        file: '2.gpx',
        where: null,
        message: 'this log goes on from 1.gpx after 1:00 and is joined to it',
      },
    ]);
  });

  it('joins parts that share their last and first record', () => {
    const { main } = mainTrack([track('1.gpx'), track('2.gpx', { startS: 300 })]);
    expect(main.channels.position!.atS).toHaveLength(601);
  });

  it('knows one outing on two devices, and keeps the one that holds more', () => {
    const { main, warnings } = mainTrack([
      track('watch.gpx', { stepS: 5, northM: 6 }),
      track('boat.gpx', { startS: 20, stepS: 0.2 }),
    ]);
    expect(main.provenance.file).toBe('boat.gpx');
    expect(warnings).toMatchObject([{ code: 'same-outing', file: 'watch.gpx' }]);
  });

  it.each([
    ['side by side', [track('a.gpx'), track('b.gpx', { northM: 200 })], /a\.gpx and b\.gpx .*200 m apart/],
    ['hours apart', [track('a.gpx'), track('b.gpx', { startS: 20_000 })], /do not follow one another/],
    [
      'too far away to be reached',
      [track('a.gpx'), track('b.gpx', { startS: 310, northM: 900 })],
      /do not follow/,
    ],
    ['without a date', [track('a.gpx'), track('b.gpx', { dated: false })], /b\.gpx has no date/],
  ])('refuses two tracks %s', (_, logs, message) => {
    expect(() => mainTrack(logs)).toThrow(UserError);
    expect(() => mainTrack(logs)).toThrow(message);
  });
});
