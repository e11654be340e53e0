import { describe, expect, it } from 'vitest';
import { openOuting } from '../../src/outing/open-outing.js';
import { parseOutingSheet } from '../../src/outing/sheet.js';
import { makeRecording } from '../../src/recording/index.js';
import { simulateTwin } from '../simulator/twin.js';

const twin = simulateTwin({
  seed: 1,
  craft: '2x',
  script: [{ restS: 20 }, { rowS: 90, rateSpm: 24 }, { restS: 30 }],
  imu: { startS: 5 },
});
const logs = [twin.track!, twin.imu!];
const codes = (warnings: readonly { readonly code: string }[]) => warnings.map(({ code }) => code);

describe('an outing', () => {
  it('joins a track and its IMU log on one clock, in any order', () => {
    const outing = openOuting([twin.imu!, twin.track!], { craft: '2x', placement: 'hull' });
    expect(outing.file).toBe('twin.csv');
    expect(outing.files).toEqual(['twin.imu.csv', 'twin.csv']);
    expect(outing.recording.startUnixS).toBe(twin.track!.startUnixS);
    expect(outing.recording.channels.acceleration!.atS[0]).toBeCloseTo(5, 3);
    expect(outing.strokes.source).toBe('imu');
    expect(Math.abs(outing.strokes.strokes.length - twin.truth.catchMarksS.length)).toBeLessThanOrEqual(1);
    const rowedM = twin.truth.alongM.at(-1)!;
    expect(Math.abs(outing.track!.distanceM(0, 140)!.value / rowedM - 1)).toBeLessThan(0.01);
  });

  it('believes what is told before the sheet, and the sheet before the boat file', () => {
    const { rows: sheet } = parseOutingSheet(
      'file,crew,craft,placement,stream\ntwin.csv,Blue,2-,cox,0.3@90',
      'outings.csv',
    );
    const boat = { craft: '4x', placement: 'hull' } as const;
    const bySheet = openOuting(logs, { sheet, boat });
    expect(bySheet).toMatchObject({
      craft: '2-',
      placement: 'cox',
      stream: { speedMps: 0.3, toDeg: 90 },
      sheet: { crew: 'Blue' },
    });
    expect(codes(bySheet.warnings)).toContain('placement-not-hull');
    expect(openOuting(logs, { boat })).toMatchObject({ craft: '4x', placement: 'hull', stream: null });
    expect(openOuting(logs, { sheet, boat, craft: '1x', placement: 'hull' })).toMatchObject({
      craft: '1x',
      placement: 'hull',
    });
  });

  it('guesses the placement where nobody told, and says so', () => {
    const outing = openOuting(logs);
    expect(outing.placement).toBe('hull');
    expect(codes(outing.warnings)).toContain('placement-guessed');
  });

  it('knows nothing within the stroke from a logger on the body', () => {
    const { strokes } = openOuting(logs, { craft: '2x', placement: 'body' }).strokes;
    expect(strokes.length).toBeGreaterThan(25);
    for (const stroke of strokes)
      expect([stroke.driveS, stroke.speedVariation, stroke.catchDecelerationMps2]).toEqual([
        null,
        null,
        null,
      ]);
  });

  it('leaves out an IMU log of another day, and says so', () => {
    const late = { ...twin.imu!, startUnixS: twin.imu!.startUnixS! + 86_400 };
    const outing = openOuting([twin.track!, late], { craft: '2x' });
    expect(outing.recording.channels.acceleration).toBeUndefined();
    expect(codes(outing.warnings)).toContain('logs-apart');
  });

  it('puts an IMU log where it is told that it began', () => {
    const clockless = { ...twin.imu!, startUnixS: null, clock: 'relative' as const };
    const told = openOuting([twin.track!, clockless], { craft: '2x', placement: 'hull', imuStart: '0:05' });
    const known = openOuting(logs, { craft: '2x', placement: 'hull' });
    expect(told.strokes.strokes.length).toBe(known.strokes.strokes.length);
    expect(told.strokes.strokes[9]!.atS).toBeCloseTo(known.strokes.strokes[9]!.atS, 2);
    const instant = new Date((twin.track!.startUnixS! + 5) * 1000).toISOString();
    const byInstant = openOuting([twin.track!, clockless], { craft: '2x', imuStart: instant });
    expect(byInstant.recording.channels.acceleration!.atS[0]).toBeCloseTo(5, 3);
  });

  it('is one boat: two tracks are two outings', () => {
    expect(() =>
      openOuting([twin.track!, { ...twin.track!, startUnixS: twin.track!.startUnixS! + 86_400 }]),
    ).toThrow(/two outings/);
  });

  it('has no track where there are no positions, and keeps the rest', () => {
    const outing = openOuting([twin.imu!], { craft: '2x', placement: 'body' });
    expect(outing.track).toBeNull();
    expect(outing.strokes.strokes.length).toBeGreaterThan(25);
  });

  it('counts nothing in a log of heart rate alone', () => {
    const pulse = makeRecording({
      provenance: { file: 'pulse.csv', format: 'csv', device: null, sport: null },
      originUnixS: null,
      channels: { heart_rate: { atS: Float64Array.of(0, 1, 2), columns: [Float64Array.of(90, 91, 92)] } },
    });
    const outing = openOuting([pulse]);
    expect(outing.track).toBeNull();
    expect(outing.strokes.source).toBeNull();
  });
});
