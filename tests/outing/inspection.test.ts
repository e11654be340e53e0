import { describe, expect, it } from 'vitest';
import { inspectResult } from '../../src/contract/inspect.js';
import { inspectResultOf, openOuting } from '../../src/outing/index.js';
import {
  type ChannelName,
  makeRecording,
  type Recording,
  type RecordingDraft,
} from '../../src/recording/index.js';

const START = Date.UTC(2026, 4, 3, 7) / 1000;

const recordingOf = (
  channels: Partial<
    Record<ChannelName, { rateHz: number; seconds: number; columns: ((s: number) => number)[] }>
  >,
  more: Partial<RecordingDraft> = {},
): Recording =>
  makeRecording({
    provenance: { file: 'a.log', format: 'csv', device: null, sport: null },
    originUnixS: START,
    channels: Object.fromEntries(
      Object.entries(channels).map(([name, { rateHz, seconds, columns }]) => {
        const atS = Float64Array.from({ length: Math.round(rateHz * seconds) }, (_, i) => i / rateHz);
        return [name, { atS, columns: columns.map((value) => atS.map(value)) }];
      }),
    ),
    ...more,
  });

/** East at 4 m/s on 45°, where a degree of longitude is 78846.835 m (WGS84, see CHECK-VALUES). */
const east = (rateHz: number, seconds: number) => ({
  rateHz,
  seconds,
  columns: [() => 45, (s: number) => 10 + (s * 4) / 78_846.835],
});
const rowOf = (recording: Recording) =>
  inspectResultOf(openOuting([recording], { craft: '1x' })).recordings[0]!;
const lineOf = (recording: Recording, can: string) =>
  rowOf(recording).verdict.find((line) => line.can === can)!;

describe('inspectResultOf', () => {
  it('keeps the contract and tells channels, extent and clock', () => {
    const result = inspectResultOf(openOuting([recordingOf({ position: east(1, 601) })], { craft: '1x' }));
    expect(inspectResult.safeParse(result).error).toBeUndefined();
    const row = result.recordings[0]!;
    expect(row).toMatchObject({
      place: 'water',
      clock: 'utc',
      start_time: '2026-05-03T07:00:00.000Z',
      duration_s: 600,
    });
    expect(row.extent_m).toBeCloseTo(2400, 0);
    expect(row.channels).toEqual([
      { name: 'position', unit: 'deg', sample_count: 601, rate_hz: 1, gap_count: 0, longest_gap_s: null },
    ]);
  });

  it('quotes no positions', () => {
    const text = JSON.stringify(rowOf(recordingOf({ position: east(1, 300) })));
    expect(text).not.toMatch(/45[.,]0|10\.00|"lat|"lon(?!gest)/);
  });

  it('says for each analysis whether and why: a track of 1 Hz', () => {
    const recording = recordingOf({ position: east(1, 900) });
    expect(lineOf(recording, 'strokes')).toMatchObject({
      yes: false,
      why: expect.stringContaining('add an accelerometer log'),
    });
    expect(lineOf(recording, 'splits to a second')).toMatchObject({
      yes: true,
      why: expect.stringMatching(/1 Hz.*good to about 0\.\d+ s over 500 m/),
    });
    expect(lineOf(recording, 'splits to a tenth')).toMatchObject({
      yes: false,
      why: expect.stringContaining('more than a tenth'),
    });
    expect(lineOf(recording, 'pieces')).toMatchObject({
      yes: true,
      why: expect.stringContaining('by speed alone'),
    });
    expect(lineOf(recording, 'times against other boats').yes).toBe(true);
  });

  it('takes a tenth for good where the error is told to be small', () => {
    const outing = openOuting([recordingOf({ position: east(10, 600) })], {
      craft: '1x',
      boat: { position_sd_m: 0.05 },
    });
    const tenth = inspectResultOf(outing).recordings[0]!.verdict.find(
      ({ can }) => can === 'splits to a tenth',
    );
    expect(tenth!.yes).toBe(true);
  });

  it('asks for a record every second where positions are rare', () => {
    expect(lineOf(recordingOf({ position: east(0.2, 900) }), 'splits to a second').why).toContain(
      'record every second',
    );
  });

  it('names the share of time without positions', () => {
    const gappy = recordingOf({ position: east(1, 900) });
    const { atS, columns } = gappy.channels.position!;
    const keep = (values: Float64Array) => values.filter((_, i) => i < 300 || i > 700);
    const cut = makeRecording({
      provenance: gappy.provenance,
      originUnixS: START,
      channels: { position: { atS: keep(atS), columns: columns.map(keep) } },
    });
    expect(lineOf(cut, 'splits to a second').why).toContain('no positions for 45 % of the time');
  });

  it('cannot put a log without a date beside other boats', () => {
    const line = lineOf(
      recordingOf({ position: east(1, 600) }, { originUnixS: null }),
      'times against other boats',
    );
    expect(line).toMatchObject({ yes: false, why: expect.stringContaining('no date') });
  });

  it('keeps land work apart', () => {
    const cadence = { rateHz: 1, seconds: 300, columns: [() => 24] };
    const row = rowOf(recordingOf({ cadence }, { land: true }));
    expect(row.place).toBe('land');
    expect(row.verdict.filter(({ yes }) => yes).map(({ can }) => can)).toEqual(['strokes']);
    expect(row.verdict.find(({ can }) => can === 'pieces')!.why).toContain('on land');
  });

  it('says what the cadence of another sport counts', () => {
    const cadence = { rateHz: 1, seconds: 300, columns: [() => 80] };
    const provenance = { file: 'a.fit', format: 'fit', device: null, sport: 'running' };
    const line = lineOf(recordingOf({ position: east(1, 300), cadence }, { provenance }), 'strokes');
    expect(line.why).toMatch(/calls itself running, so they may be steps/);
  });

  it.each([
    ['its unit is wrong', 0.5, 0, 'unit or its calibration'],
    ['gravity was taken out', 0.01, 0, 'gravity was taken out'],
    ['it hits its limit', 1, 30, 'hits its limit'],
  ])('does not trust an accelerometer where %s', (_, gravity, swing, why) => {
    const limited = (value: number): number => Math.max(-19.6, Math.min(19.6, value));
    const acceleration = {
      rateHz: 50,
      seconds: 120,
      columns: [
        (s: number) => limited(swing * Math.sin(2 * Math.PI * s) ** 15),
        () => 0,
        () => 9.81 * gravity,
      ],
    };
    expect(lineOf(recordingOf({ acceleration }), 'accelerometer')).toMatchObject({
      yes: false,
      why: expect.stringContaining(why),
    });
  });

  it('asks for a faster accelerometer', () => {
    const acceleration = {
      rateHz: 10,
      seconds: 120,
      columns: [(s: number) => Math.sin(3 * s), () => 0, () => 9.81],
    };
    const line = lineOf(recordingOf({ acceleration }), 'strokes');
    expect(line).toMatchObject({ yes: false, why: expect.stringContaining('18 Hz or more') });
  });
});
