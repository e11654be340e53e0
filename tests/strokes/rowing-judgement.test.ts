import { describe, expect, it } from 'vitest';
import { smoothTrack } from '../../src/motion/index.js';
import { detectStrokes, type StrokeSeries, scoreStrokes } from '../../src/strokes/index.js';
import type { Craft } from '../../src/units/craft.js';
import type { Step } from '../simulator/script.js';
import { USUAL_SWELL } from '../simulator/swell.js';
import { simulateTwin, type TwinAsk } from '../simulator/twin.js';

interface Asked extends Partial<TwinAsk> {
  readonly script: readonly Step[];
  readonly track?: boolean;
}

/** Strokes of an outing of the second simulator, with or without its track. */
const strokesOf = ({ track = false, ...asked }: Asked, craft: Craft = '2x') => {
  const twin = simulateTwin({
    seed: 2,
    craft,
    receiver: track ? { rateHz: 5 } : null,
    imu: { rateHz: 50, noiseSdMps2: 0.2, mount: 'random' },
    ...asked,
  });
  const motion = twin.track && smoothTrack(twin.track, { boat: null });
  const series = detectStrokes(twin.imu!, motion?.track ?? null, { craft, placement: 'hull', boat: null });
  return { series, marks: twin.truth.catchMarksS };
};

const codesOf = ({ warnings }: StrokeSeries) => warnings.map(({ code }) => code);
const f1Of = (series: StrokeSeries, marks: readonly number[]) =>
  scoreStrokes(
    series.strokes.map(({ atS }) => atS),
    marks,
  ).f1;

const swell = { ...USUAL_SWELL, hz: 1.1, surgeMps2: 0.3, toDeg: 220 };

describe('whether anybody rows', () => {
  it('is denied where a moored boat rocks in swell, with its place and what would tell', () => {
    const moored: Asked = { script: [{ restS: 240, moored: true }], chop: { swells: [swell] } };
    const { series } = strokesOf(moored, 'K1');
    expect(series.strokes).toEqual([]);
    expect(series.source).toBeNull();
    const said = series.warnings.filter(({ code }) => code === 'not-rowed');
    for (const { where, message } of said) {
      expect(where).toMatch(/^\d+ to \d+ s$/);
      expect(message).toContain('a track beside it would tell');
    }
    expect(codesOf(series).some((code) => code === 'not-rowed' || code === 'no-strokes')).toBe(true);
  });

  it('is denied where the boat is carried', () => {
    const { series } = strokesOf({
      script: [{ restS: 200, movedBy: 'hands' }],
      imu: { rateHz: 50, mount: 'random' },
    });
    expect(series.strokes).toEqual([]);
    expect(codesOf(series)).toContain('not-rowed');
  });

  it('is granted to every stroke between rests in swell, and to no wave', () => {
    const asked: Asked = {
      script: [
        { restS: 90 },
        { rowS: 60, rateSpm: 22 },
        { restS: 90 },
        { rowS: 60, rateSpm: 32 },
        { restS: 60, moored: true },
      ],
      chop: { swells: [{ ...swell, hz: 0.8, surgeMps2: 0.5 }] },
    };
    const { series, marks } = strokesOf(asked, '4x');
    expect(f1Of(series, marks)).toBeGreaterThan(0.98);
  });

  it('is granted to a start from a stake-boat, by a track that lay still before it', () => {
    const { series, marks } = strokesOf({
      script: [{ restS: 120, moored: true }, { rowS: 60, rateSpm: 36, startSpm: 45 }, { restS: 30 }],
      track: true,
      seed: 5,
    });
    expect(f1Of(series, marks)).toBeGreaterThan(0.97);
    expect(codesOf(series)).not.toContain('not-rowed');
  });

  it('is granted to a crew that turns its boat on the spot, though the track shows no way', () => {
    const { series, marks } = strokesOf({
      script: [
        { restS: 20 },
        { rowS: 90, rateSpm: 22 },
        { restS: 30 },
        { rowS: 24, rateSpm: 18, speedMps: 0.1, turnDeg: 180, drill: 'light' },
        { restS: 15 },
        { rowS: 90, rateSpm: 22 },
      ],
      track: true,
      imu: { rateHz: 50, mount: 'random' },
    });
    const turning = marks.filter((atS) => atS > 138 && atS < 166);
    const found = series.strokes.filter(({ atS }) => atS > 138 && atS < 166);
    expect(turning.length).toBeGreaterThan(5);
    expect(found.length).toBeGreaterThanOrEqual(turning.length - 1);
  });

  it('is denied to every wave where a track shows the boat lying still, whatever its cycles look like', () => {
    const asked: Asked = { script: [{ restS: 240, moored: true }], chop: { swells: [swell] }, track: true };
    for (const craft of ['2x', 'K1'] as const) expect(strokesOf(asked, craft).series.strokes).toEqual([]);
  });

  it.each([2, 3])('is granted to single strokes of a drill, draw %i', (seed) => {
    const { series, marks } = strokesOf({
      seed,
      script: [
        { restS: 30 },
        { rowS: 60, rateSpm: 20 },
        { restS: 20 },
        { rowS: 60, rateSpm: 9, drill: 'single' },
      ],
      imu: { rateHz: 50, mount: 'random' },
    });
    // the signal alone finds 0.945 and 0.912: which first strokes after a rest show is no question of this
    expect(f1Of(series, marks)).toBeGreaterThan(0.9);
  });
});
