import { describe, expect, it } from 'vitest';
import { type BoatFile, boatFile } from '../../src/contract/boat.js';
import { settle } from '../../src/contract/decimals.js';
import { type Gauge, gaugeResult } from '../../src/contract/gauge.js';
import { gaugedBoat, gaugePartOf, gaugeResultOf, openOuting } from '../../src/outing/index.js';
import { makeRecording } from '../../src/recording/index.js';
import { gaugeStrokes, scoreStrokes } from '../../src/strokes/index.js';
import type { Craft } from '../../src/units/craft.js';
import { type HullAsk, hullOuting, SIMULATORS, simulatedHull } from './simulated-hull.js';

/** Two minutes of light rowing between rests, as the manual asks for. */
const lightly = (rateSpm: number) => [{ restS: 45 }, { rowS: 100, rateSpm }, { restS: 35 }];

const gauged = (ask: HullAsk) => {
  const made = simulatedHull(ask);
  const outing = hullOuting(made, ask.craft);
  const part = gaugePartOf(outing);
  const { gauge } = gaugeResultOf([part]);
  // as the gauge itself scores: but for the first stroke, whose mark is a first movement that chop hides
  const [firstS, ...marks] = made.truth.catchMarksS;
  const found = outing.strokes.strokes
    .filter(({ source, atS }) => source === 'imu' && Math.abs(atS - firstS!) > 1)
    .map(({ atS }) => atS);
  return { made, part, gauge, f1: scoreStrokes(found, marks).f1 ?? 0 };
};

/** Noise and strength alone, without the rehearsal that takes most of the time. */
const measured = (ask: HullAsk) => {
  const made = simulatedHull(ask);
  const outing = hullOuting(made, ask.craft);
  const signal = outing.strokes.signals[0]!;
  const { noiseSquare, strengthSquare } = gaugeStrokes(signal, outing.track);
  return { made, signal, noise: Math.sqrt(noiseSquare!), strength: Math.sqrt(strengthSquare!) };
};

const trusted = ({ verdict }: Gauge): boolean => verdict.every(({ yes }) => yes);
const why = ({ verdict }: Gauge, can: string) => verdict.find((line) => line.can === can)!;
const dot = (p: readonly number[], q: readonly number[]) => p.reduce((sum, v, i) => sum + v * q[i]!, 0);

const rmsWhileRowing = ({ truth }: ReturnType<typeof simulatedHull>): number => {
  const rowed = truth.stretches.find(({ kind }) => kind === 'rowing')!;
  const surge = truth.surgeMps2.subarray(
    Math.round((rowed.fromS + 15) / truth.stepS),
    Math.round((rowed.toS - 10) / truth.stepS),
  );
  return Math.sqrt(surge.reduce((sum, value) => sum + value * value, 0) / surge.length);
};

describe.each(SIMULATORS)('a gauge, simulator %s', (simulator) => {
  const crafts: readonly (readonly [Craft, number])[] = [
    ['1x', 18],
    ['8+', 22],
    ['K1', 70],
    ['OC6', 50],
  ];
  it.each(crafts)('measures the strength of the strokes of a %s', (craft, rateSpm) => {
    const { made, signal, strength } = measured({ simulator, craft, seed: 4, legs: lightly(rateSpm) });
    expect(signal.source).toBe('imu');
    expect(Math.abs(strength / rmsWhileRowing(made) - 1)).toBeLessThan(0.12);
  });

  it('measures the noise of sensor and water, and a ratio that falls as chop grows', () => {
    const chops = [0, 0.25, 0.5, 1];
    const gauges = chops.map((chopMps2) => measured({ simulator, craft: '8+', legs: lightly(22), chopMps2 }));
    for (const [i, chop] of chops.entries()) {
      const trueNoise = Math.hypot(chop, 0.06);
      // a minute of narrow chop is some 40 waves, so its own rms differs by a tenth or so from that of the sea
      expect(gauges[i]!.noise / trueNoise).toBeGreaterThan(0.78);
      expect(gauges[i]!.noise / trueNoise).toBeLessThan(1.25);
    }
    const ratios = gauges.map(({ strength, noise }) => strength / noise);
    expect(ratios).toEqual([...ratios].sort((p, q) => q - p));
  });

  it('trusts no log whose strokes are not found, and every calm one', () => {
    for (const [craft, rateSpm, chopMps2] of [
      ['2x', 20, 0.25],
      ['2x', 20, 0.5],
      ['2x', 20, 1.2],
      ['K1', 70, 0.8],
      ['2x', 20, 3],
    ] as const) {
      const { gauge, f1 } = gauged({ simulator, craft, seed: 3, legs: lightly(rateSpm), chopMps2 });
      const where = `${craft} in ${chopMps2}: F1 ${f1.toFixed(3)}, ${JSON.stringify(gauge.verdict)}`;
      if (trusted(gauge)) expect(f1, where).toBeGreaterThan(0.97);
      if (chopMps2 <= 0.25) expect(trusted(gauge), where).toBe(true);
      if (chopMps2 > 2) expect(trusted(gauge), where).toBe(false);
    }
  });

  it('finds the mount, whatever it is', () => {
    const legs = lightly(24);
    const level = measured({ simulator, craft: '2x', legs });
    const mount = { yawDeg: 90, pitchDeg: 0, rollDeg: 0 };
    const turned = measured({ simulator, craft: '2x', legs, mount });
    // x forward, y to port, z up; one simulator turns the box to starboard, the other to port
    expect(dot(level.signal.surge.axis, [1, 0, 0])).toBeGreaterThan(0.98);
    expect(dot(level.signal.surge.up!, [0, 0, 1])).toBeGreaterThan(0.98);
    const ahead = simulator === 'forces' ? 1 : -1;
    expect(dot(turned.signal.surge.axis, [0, ahead, 0])).toBeGreaterThan(0.98);
    expect(turned.strength / level.strength).toBeCloseTo(1, 1);
  });

  it.each([25, 200])('gauges a sensor of %i Hz alike', (imuHz) => {
    const { gauge, made } = gauged({ simulator, craft: '2x', legs: lightly(22), imuHz });
    expect(gauge.verdict.filter(({ yes }) => !yes)).toEqual([]);
    expect(Math.abs(gauge.stroke_strength_mps2! / rmsWhileRowing(made) - 1)).toBeLessThan(0.12);
  });
});

describe('a gauge', () => {
  const legs = lightly(22);
  const calm = gauged({ simulator: 'twin', craft: '2x', legs });

  it('has the shape of the contract', () => {
    expect(gaugeResult.parse(settle(gaugeResultOf([calm.part]))).gauge.rate_to_spm).toBeGreaterThan(36);
  });

  it('calls no rate usable that stands alone among those tried', () => {
    const { injected } = calm.part;
    const onlyOne = injected.map((one, i) => ({ ...one, f1: i === 2 ? 1 : 0.9 }));
    const pair = injected.map((one, i) => ({ ...one, f1: i === 1 || i === 2 ? 1 : 0.9 }));
    expect(gaugeResultOf([{ ...calm.part, injected: onlyOne }]).gauge.rate_from_spm).toBeNull();
    expect(gaugeResultOf([{ ...calm.part, injected: pair }]).gauge).toMatchObject({
      rate_from_spm: 18,
      rate_to_spm: 25,
    });
  });

  it('says what is too little', () => {
    const noRest = gauged({
      simulator: 'forces',
      craft: '2x',
      legs: [{ restS: 6 }, { rowS: 90, rateSpm: 22 }, { restS: 8 }],
    }).gauge;
    expect(why(noRest, 'rest')).toMatchObject({ yes: false });
    expect(why(noRest, 'rest').why).toMatch(/sit still for a minute/);
    expect(why(noRest, 'strokes').why).toMatch(/^strokes cannot be set against the noise/);
    expect(noRest.noise_mps2).toBeNull();
    expect(noRest.ratio).toBeNull();
    const noRowing = gauged({
      simulator: 'twin',
      craft: '2x',
      legs: [{ restS: 60 }, { rowS: 30, rateSpm: 20 }, { restS: 30 }],
    }).gauge;
    expect(why(noRowing, 'rowing').why).toMatch(/row lightly for two minutes/);
    expect(noRowing.stroke_strength_mps2).toBeNull();
  });

  it('says what is too slow', () => {
    const { made } = calm;
    const { position, speed } = made.track.channels;
    const every = (channel: typeof position, n: number) => ({
      atS: channel!.atS.filter((_, i) => i % n === 0),
      columns: channel!.columns.map((column) => column.filter((_, i) => i % n === 0)),
    });
    const slowTrack = makeRecording({
      provenance: made.track.provenance,
      originUnixS: made.track.startUnixS,
      channels: { position: every(position, 10), speed: every(speed, 10) },
    });
    const one = gaugeResultOf([gaugePartOf(openOuting([slowTrack], { craft: '2x' }))]);
    expect(one.gauge).toMatchObject({ source: null, noise_mps2: null, ratio: null });
    expect(why(one.gauge, 'strokes').why).toMatch(/1 Hz is too slow .* 3\.67 Hz/);
    expect(one.warnings.map(({ code }) => code)).toContain('not-to-be-trusted');
  });

  it('gauges a fast speed where there is no accelerometer', () => {
    const { gauge } = gaugeResultOf([gaugePartOf(openOuting([calm.made.track], { craft: '2x' }))]);
    expect(gauge.source).toBe('speed');
    expect(gauge.mount).toBeNull();
    // 0.05 m/s of white noise at 10 Hz, as a slope in the band that 10 Hz carries, is some 0.3 m/s²
    expect(gauge.noise_mps2).toBeGreaterThan(0.1);
    expect(gauge.noise_mps2).toBeLessThan(0.6);
  });

  it('takes several logs of one mount together, and refuses two mounts', () => {
    const again = gauged({ simulator: 'twin', craft: '2x', seed: 2, legs }).part;
    const both = gaugeResultOf([calm.part, again]).gauge;
    expect(both.stroke_count).toBe(calm.gauge.stroke_count + gaugeResultOf([again]).gauge.stroke_count);
    expect(trusted(both)).toBe(true);
    const other = gauged({
      simulator: 'twin',
      craft: '2x',
      legs,
      mount: { yawDeg: 90, pitchDeg: 0, rollDeg: 0 },
    }).part;
    expect(why(gaugeResultOf([calm.part, other]).gauge, 'mount')).toMatchObject({ yes: false });
  });
});

describe('a boat file that was gauged', () => {
  const mount = { yawDeg: 40, pitchDeg: 15, rollDeg: -70 };
  const { part, gauge } = gauged({ simulator: 'twin', craft: '1x', seed: 2, legs: lightly(18), mount });
  const boat = settle(gaugedBoat(gauge, [part], null));

  it('is valid, and completes an older one without losing it', () => {
    expect(boatFile.parse(boat)).toMatchObject({ craft: '1x', placement: 'hull' });
    const before: BoatFile = {
      craft: '2x',
      hull_length_m: 9.9,
      bow_offset_m: 4.2,
      position_sd_m: 1.1,
      noise_mps2: 3,
    };
    const after = gaugedBoat(gauge, [part], before);
    expect(after).toMatchObject({ craft: '2x', hull_length_m: 9.9, bow_offset_m: 4.2, position_sd_m: 1.1 });
    expect(after.noise_mps2).toBe(gauge.noise_mps2);
  });

  it('keeps what an older one says of what could not be gauged', () => {
    const nothing = { ...gauge, noise_mps2: null, mount: null };
    expect(gaugedBoat(nothing, [part], { noise_mps2: 0.2 })).toMatchObject({ noise_mps2: 0.2 });
  });

  const rowed = (chopMps2: number, more: Partial<HullAsk> = {}) =>
    simulatedHull({
      simulator: 'twin',
      craft: '1x',
      seed: 21,
      legs: [{ restS: 40 }, { rowS: 100, rateSpm: 18 }, { restS: 25 }],
      chopMps2,
      mount,
      ...more,
    });
  const codes = (made: ReturnType<typeof rowed>, known: BoatFile | null) =>
    openOuting([made.track, made.imu], known === null ? {} : { boat: known }).warnings.map(
      ({ code }) => code,
    );

  it('tells later outings their craft, placement and mount', () => {
    const made = rowed(0);
    const outing = openOuting([made.track, made.imu], { boat });
    expect(outing).toMatchObject({ craft: '1x', placement: 'hull' });
    expect(outing.strokes.signals[0]!.surge.given).toBe(true);
    expect(codes(made, boat)).toEqual([]);
    expect(codes(made, null)).toEqual(expect.arrayContaining(['craft-guessed', 'placement-guessed']));
  });

  it('is doubted where the outing is not as it was gauged', () => {
    expect(codes(rowed(0.2), boat)).toContain('rougher-than-gauged');
    expect(codes(rowed(0), { ...boat, stroke_strength_mps2: 9 })).toContain('weaker-than-gauged');
    expect(codes(rowed(0), { ...boat, rate_from_spm: 22, rate_to_spm: 30 })).toContain('rate-not-usable');
    expect(codes(rowed(0, { mount: { yawDeg: 0, pitchDeg: 0, rollDeg: 0 } }), boat)).toContain(
      'mount-differs',
    );
  });
});
