import type { Mount } from '../contract/boat.js';
import type { Interval } from '../motion/index.js';
import { type Channel, usualIntervalS } from '../recording/index.js';
import {
  falseStrokesPerMin,
  GAUGE_SETTINGS,
  gaugeStrokes,
  type InjectionResult,
  injectionRates,
  injectionTest,
  type StrokeGauge,
  type StrokeSignal,
  type SurgeSpectra,
  speedRateNeededHz,
  surgeSpectra,
} from '../strokes/index.js';
import { type Craft, type CraftFamily, craftFamily, RATE_RANGE_SPM } from '../units/craft.js';
import { distinctWarnings } from './distinct-warnings.js';
import type { Outing } from './outing.js';

/** What one log gives to a gauge. */
export interface GaugePart {
  readonly file: string;
  readonly files: readonly string[];
  readonly warnings: Outing['warnings'];
  readonly craft: Craft | null;
  readonly placement: Outing['placement'];
  /** Position error as the log itself states it; null where it does not. */
  readonly statedError: { readonly positionSdM: number; readonly correlationS: number } | null;
  /** Null where neither an accelerometer nor a speed shows strokes. */
  readonly source: 'imu' | 'speed' | null;
  /** Why there is no source; null where there is one. */
  readonly whyNone: string | null;
  /** Usual sampling rate of the source, Hz. */
  readonly rateHz: number | null;
  readonly gauge: StrokeGauge | null;
  readonly mount: Mount | null;
  /** The sensor was put back another way round within the log. */
  readonly moved: boolean;
  /** Strokes a minute found in the log's own rest; null where it is too short to tell. */
  readonly falsePerMin: number | null;
  /** How the detector did at each rate; empty where it could not be tried. */
  readonly injected: readonly InjectionResult[];
  /** Power of the surge at rest and outside the rests; null where it was not asked for or there is too little. */
  readonly spectra: SurgeSpectra | null;
}

const hzOf = (channel: Channel | undefined): number | null => {
  const intervalS = channel === undefined ? null : usualIntervalS(channel.atS);
  return intervalS === null || intervalS <= 0 ? null : 1 / intervalS;
};

const hzWords = (hz: number): string => `${Number(hz.toPrecision(3))} Hz`;

const whyNone = ({ recording, craft }: Outing): string => {
  const { acceleration, speed } = recording.channels;
  if (acceleration !== undefined)
    return 'the accelerometer shows no strokes: row lightly for two minutes, then sit still for one';
  const hz = hzOf(speed);
  const neededHz = speedRateNeededHz(RATE_RANGE_SPM[craft === null ? 'rowing' : craftFamily(craft)][1]);
  if (hz === null)
    return 'the log holds neither an accelerometer nor a speed: add an accelerometer log (--imu FILE)';
  return hz < neededHz
    ? `there is no accelerometer, and a speed logged at ${hzWords(hz)} is too slow for this craft's strokes, which take ${hzWords(neededHz)}: add an accelerometer log (--imu FILE)`
    : `there is no accelerometer, and the speed (${hzWords(hz)}) shows no strokes`;
};

const mountOf = ({ source, surge }: StrokeSignal): Mount | null =>
  source === 'imu' && surge.up !== null ? { forward_axis: [...surge.axis], up_axis: [...surge.up] } : null;

/** Rests cut at strokes that are believed: a few straighten a boat that lies still. @param marksS in order */
const withoutMarks = (rests: readonly Interval[], marksS: readonly number[]): Interval[] => {
  const clearS = GAUGE_SETTINGS.fromStrokeS;
  return rests.flatMap((rest) => {
    const inside = marksS.filter((atS) => atS > rest.fromS - clearS && atS < rest.toS + clearS);
    const starts = [rest.fromS, ...inside.map((atS) => atS + clearS)];
    const ends = [...inside.map((atS) => atS - clearS), rest.toS];
    return starts
      .map((fromS, i) => ({ fromS: Math.max(fromS, rest.fromS), toS: Math.min(ends[i]!, rest.toS) }))
      .filter(({ fromS, toS }) => toS > fromS);
  });
};

/** How the detector did over the log's own rest, with the log's own strokes laid on it and without. */
const triedOver = (
  outing: Outing,
  signal: StrokeSignal,
  gauge: StrokeGauge,
  family: CraftFamily,
): Pick<GaugePart, 'injected' | 'falsePerMin'> => {
  const { acceleration, speed } = outing.recording.channels;
  const channel = signal.source === 'imu' ? acceleration : speed;
  const { shapeMps2, restS } = gauge;
  if (channel === undefined || restS < GAUGE_SETTINGS.leastRestS) return { injected: [], falsePerMin: null };
  const rests = gauge.rests.map(({ fromS, toS }) => ({ fromS: signal.toLog(fromS), toS: signal.toLog(toS) }));
  const marksS = signal.marksS.map((markS) => signal.toLog(markS));
  const falsePerMin = falseStrokesPerMin({ channel, rests: withoutMarks(rests, marksS), family });
  if (shapeMps2 === null) return { injected: [], falsePerMin };
  const ask = { channel, rests, shapeMps2, axis: signal.surge.axis, family };
  return {
    injected: injectionRates(family).flatMap((rateSpm) => injectionTest(ask, rateSpm) ?? []),
    falsePerMin,
  };
};

/**
 * Gauge one log of a boat: its noise, its strokes, its mount, and the rates at which they show.
 * @param drawn whether to give the spectra of rest and rowing besides
 */
export const gaugePartOf = (outing: Outing, drawn = false): GaugePart => {
  const { recording, strokes, track } = outing;
  const imu = strokes.signals.filter(({ source }) => source === 'imu');
  // a speed that shows strokes says nothing good of an accelerometer that shows none
  const spare = recording.channels.acceleration === undefined ? strokes.signals[0] : undefined;
  const signal = imu[0] ?? (spare?.source === 'speed' ? spare : null);
  const craft = strokes.craft ?? outing.craft;
  const gauge = signal && gaugeStrokes(signal, track);
  const source = signal === null ? null : signal.source === 'imu' ? 'imu' : 'speed';
  const model = track?.errorModel;
  return {
    file: outing.file,
    files: outing.files,
    warnings: distinctWarnings(outing.warnings),
    craft,
    placement: outing.placement,
    statedError:
      model?.source === 'log' ? { positionSdM: model.positionSdM, correlationS: model.correlationS } : null,
    source,
    whyNone: signal === null ? whyNone(outing) : null,
    rateHz: hzOf(source === 'imu' ? recording.channels.acceleration : recording.channels.speed),
    gauge,
    mount: signal && mountOf(signal),
    moved: imu.length > 1,
    ...(signal && gauge
      ? triedOver(outing, signal, gauge, craft === null ? 'rowing' : craftFamily(craft))
      : { injected: [], falsePerMin: null }),
    spectra: drawn && signal && gauge ? surgeSpectra(signal, gauge.rests) : null,
  };
};
