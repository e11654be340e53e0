import type { Mount } from '../contract/boat.js';
import type { DrawnGauge } from '../contract/drawn.js';
import type { Gauge, GaugeResult } from '../contract/gauge.js';
import type { Warning } from '../recording/index.js';
import {
  GAUGE_SETTINGS,
  type InjectionResult,
  SIGNAL_SETTINGS,
  speedRateNeededHz,
} from '../strokes/index.js';
import { craftFamily, RATE_RANGE_SPM } from '../units/craft.js';
import { distinctWarnings } from './distinct-warnings.js';
import type { GaugePart } from './gauge-part.js';

type Line = Gauge['verdict'][number];
type Range = readonly [number, number];

/** Cosine above which two logs show one mount: 15 degrees. */
const SAME_MOUNT = 0.966;

const line = (can: string, yes: boolean, why: string): Line => ({ can, yes, why });

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0);

/** Root of the mean of squares known, each with its weight; null where none is. */
const rootMean = (squares: readonly (readonly [number | null, number])[]): number | null => {
  const known = squares.filter((one): one is readonly [number, number] => one[0] !== null && one[1] > 0);
  return known.length === 0
    ? null
    : Math.sqrt(
        sum(known.map(([square, weight]) => square * weight)) / sum(known.map(([, weight]) => weight)),
      );
};

/** Rates without a break, around the one that was rowed, at which the detector did well in every log. */
const usableRange = (
  injections: readonly (readonly InjectionResult[])[],
  rowedSpm: number | null,
): Range | null => {
  const [first] = injections;
  if (first === undefined || first.length === 0 || rowedSpm === null) return null;
  const good = first.map((_, i) => injections.every((one) => (one[i]?.f1 ?? 0) >= GAUGE_SETTINGS.leastF1));
  const near = first.reduce(
    (best, { rateSpm }, i) =>
      Math.abs(rateSpm - rowedSpm) < Math.abs(first[best]!.rateSpm - rowedSpm) ? i : best,
    0,
  );
  if (!good[near]) return null;
  let [low, high] = [near, near];
  while (good[low - 1]) low--;
  while (good[high + 1]) high++;
  // one rate alone among those tried is luck: its neighbours are as strong
  return low === high ? null : [first[low]!.rateSpm, first[high]!.rateSpm];
};

const cosine = (p: readonly number[], q: readonly number[]): number =>
  sum(p.map((value, i) => value * q[i]!));

const agree = (mounts: readonly Mount[]): boolean =>
  mounts.every(
    ({ forward_axis, up_axis }) =>
      cosine(forward_axis, mounts[0]!.forward_axis) > SAME_MOUNT &&
      cosine(up_axis, mounts[0]!.up_axis) > SAME_MOUNT,
  );

const mountLine = (parts: readonly GaugePart[], mounts: readonly Mount[]): Line => {
  const can = 'mount';
  if (parts.some(({ moved }) => moved))
    return line(
      can,
      false,
      'the sensor was put back another way round within a log: gauge one mount at a time',
    );
  if (mounts.length < parts.length)
    return line(
      can,
      false,
      'gravity does not show in the accelerometer, so its tilt is lost: log the raw sensor',
    );
  if (!agree(mounts)) return line(can, false, 'the logs show different mounts: gauge one mount at a time');
  return line(can, true, 'the direction of the hull and the upright were found');
};

const samplingLine = (part: GaugePart): Line => {
  const can = 'sampling';
  const hz = part.rateHz ?? 0;
  const fastest = RATE_RANGE_SPM[part.craft === null ? 'rowing' : craftFamily(part.craft)][1];
  const neededHz =
    part.source === 'imu'
      ? Math.max(SIGNAL_SETTINGS.leastRateHz, speedRateNeededHz(fastest))
      : speedRateNeededHz(fastest);
  const words = `${Number(hz.toPrecision(3))} Hz`;
  return hz >= 0.98 * neededHz
    ? line(can, true, `${words} is enough for ${fastest} strokes a minute, this craft's highest rate`)
    : line(
        can,
        false,
        `${words} is too slow for ${fastest} strokes a minute, this craft's highest rate, which takes ${Number(neededHz.toPrecision(3))} Hz`,
      );
};

interface Measured {
  readonly noise: number | null;
  readonly strength: number | null;
  readonly range: Range | null;
  /** Strokes a minute found while the track shows that the boat lay still, and in rest looked at by itself. */
  readonly stillPerMin: number;
  readonly restPerMin: number;
}

const strokesLine = ({ noise, strength, range, stillPerMin, restPerMin }: Measured): Line => {
  const can = 'strokes';
  if (noise === null || strength === null)
    return line(
      can,
      false,
      'strokes cannot be set against the noise before there is enough rest and enough rowing',
    );
  const ratio = strength / noise;
  const against = `strokes of ${strength.toFixed(2)} m/s² in noise of ${noise.toFixed(2)} m/s²`;
  if (ratio < GAUGE_SETTINGS.leastRatio)
    return line(can, false, `${against}: what was found may be waves; gauge in calmer water`);
  if (restPerMin > 0 || stillPerMin > GAUGE_SETTINGS.mostFalsePerMin)
    return line(
      can,
      false,
      `${against}: in its rest ${Math.max(restPerMin, stillPerMin).toFixed(1)} strokes a minute were found, so waves pass for strokes; gauge in calmer water, or fix the logger more firmly`,
    );
  if (range === null)
    return line(can, false, `${against}: tried over the rest of this log, they are not found well enough`);
  return line(
    can,
    true,
    `${against}: tried over the rest of this log, they are found from ${range[0]} to ${range[1]} spm`,
  );
};

const NOTHING: Omit<Gauge, 'craft' | 'verdict'> = {
  source: null,
  rest_s: 0,
  stroke_count: 0,
  noise_mps2: null,
  stroke_strength_mps2: null,
  ratio: null,
  rate_from_spm: null,
  rate_to_spm: null,
  mount: null,
};

const gaugeOf = (parts: readonly GaugePart[]): Gauge => {
  const craft = parts.find((part) => part.craft !== null)?.craft ?? null;
  const sources = parts.filter(({ source }) => source !== null);
  const used = sources.filter(
    ({ source }) => source === (sources.some((one) => one.source === 'imu') ? 'imu' : 'speed'),
  );
  if (used.length === 0) return { craft, ...NOTHING, verdict: [line('strokes', false, parts[0]!.whyNone!)] };
  const gauges = used.map(({ gauge }) => gauge!);
  const restS = sum(gauges.map((one) => one.restS));
  const strokeCount = sum(gauges.map((one) => one.strokeCount));
  const noise = rootMean(gauges.map((one) => [one.noiseSquare, one.restS]));
  const strength = rootMean(gauges.map((one) => [one.strengthSquare, one.strokeCount]));
  const rowed = gauges.find(({ rateSpm }) => rateSpm !== null)?.rateSpm ?? null;
  const range = usableRange(
    used.map(({ injected }) => injected).filter((one) => one.length > 0),
    rowed,
  );
  const stillPerMin = restS === 0 ? 0 : sum(gauges.map((one) => (one.falsePerMin ?? 0) * one.restS)) / restS;
  const restPerMin = Math.max(...used.map((part) => part.falsePerMin ?? 0));
  const mounts = used.flatMap((part) => part.mount ?? []);
  const isImu = used[0]!.source === 'imu';
  const { leastRestS, leastStrokes } = GAUGE_SETTINGS;
  const strokes = strokesLine({ noise, strength, range, stillPerMin, restPerMin });
  return {
    craft,
    source: used[0]!.source,
    rest_s: restS,
    stroke_count: strokeCount,
    noise_mps2: noise,
    stroke_strength_mps2: strength,
    ratio: noise === null || strength === null || noise === 0 ? null : strength / noise,
    rate_from_spm: strokes.yes ? range![0] : null,
    rate_to_spm: strokes.yes ? range![1] : null,
    mount: mounts.length > 0 && mountLine(used, mounts).yes ? mounts[0]! : null,
    verdict: [
      line(
        'rest',
        noise !== null,
        noise === null
          ? `${restS.toFixed(0)} s of rest are too little to measure the noise: sit still for a minute (${leastRestS} s at least)`
          : `${restS.toFixed(0)} s of rest`,
      ),
      line(
        'rowing',
        strength !== null,
        strength === null
          ? `${strokeCount} steady strokes are too few to measure their strength: row lightly for two minutes (${leastStrokes} strokes at least)`
          : `${strokeCount} steady strokes, usually at ${rowed!.toFixed(0)} spm`,
      ),
      ...(isImu ? [mountLine(used, mounts)] : []),
      samplingLine(used[0]!),
      strokes,
    ],
  };
};

/** A power as decibels; nothing is quieter than the least that a picture can show. */
const decibels = (power: number): number => 10 * Math.log10(Math.max(power, 1e-12));

/** What pictures of a gauge are drawn from: of several logs the worst share found, and the spectra of the first. */
const drawnOf = (parts: readonly GaugePart[]): DrawnGauge => {
  const injected = parts.map((part) => part.injected).filter((one) => one.length > 0);
  const spectra = parts.find((part) => part.spectra !== null)?.spectra ?? { hz: [], rest: [], rowing: [] };
  return {
    found: (injected[0] ?? []).map(({ rateSpm }, i) => ({
      rate_spm: rateSpm,
      found_pct: 100 * Math.min(...injected.map((one) => one[i]?.f1 ?? 1)),
    })),
    least_pct: 100 * GAUGE_SETTINGS.leastF1,
    spectra: spectra.hz.map((hz, k) => ({
      hz,
      rest_db: decibels(spectra.rest[k]!),
      rowing_db: decibels(spectra.rowing[k]!),
    })),
  };
};

/**
 * What logs of light rowing and rest tell of a boat and its logger.
 * @param parts see `gaugePartOf`; several logs are of one boat, one logger and one mount
 * @param drawn whether to give what pictures are drawn from besides
 */
export const gaugeResultOf = (parts: readonly GaugePart[], drawn = false): GaugeResult => {
  const gauge = gaugeOf(parts);
  const faults = gauge.verdict.filter(({ yes }) => !yes);
  const untrusted = (): Warning => ({
    code: 'not-to-be-trusted',
    file: parts[0]!.file,
    where: null,
    message:
      gauge.source === null
        ? `There is nothing here to gauge: ${faults[0]!.why}.`
        : `This logger cannot be trusted in this water: ${faults[0]!.why}.`,
  });
  return {
    schema: 'thole/gauge/1',
    files: parts.flatMap(({ files }) => [...files]),
    warnings: distinctWarnings([
      ...parts.flatMap(({ warnings }) => [...warnings]),
      ...(faults.length === 0 ? [] : [untrusted()]),
    ]),
    gauge,
    ...(drawn ? { drawn: drawnOf(parts) } : {}),
  };
};
