import { destination, type Place } from '../../src/geodesy/index.js';
import {
  type ChannelDraft,
  makeRecording,
  type Recording,
  type RecordingDraft,
} from '../../src/recording/index.js';

const START: Place = { latDeg: 46, lonDeg: 7 };

/** A log of a boat that goes straight from 46° N 7° E in a direction, its distance a function of time. */
export const straightLog = (ask: {
  readonly atS: readonly number[];
  readonly alongM: (atS: number) => number;
  readonly bearingDeg?: number;
  readonly speedMps?: (atS: number) => number;
  readonly breaksS?: readonly number[];
  /** A way off the true place, m north, for a sample. */
  readonly offM?: (index: number) => number;
  readonly more?: Partial<RecordingDraft>;
}): Recording => {
  const places = ask.atS.map((at, i) => {
    const place = destination(START, ask.bearingDeg ?? 0, ask.alongM(at));
    const offM = ask.offM?.(i) ?? 0;
    return offM === 0 ? place : destination(place, 0, offM);
  });
  const atS = Float64Array.from(ask.atS);
  const position: ChannelDraft = {
    atS,
    columns: [
      Float64Array.from(places, ({ latDeg }) => latDeg),
      Float64Array.from(places, ({ lonDeg }) => lonDeg),
    ],
    ...(ask.breaksS ? { breaksS: ask.breaksS } : {}),
  };
  const speed = ask.speedMps ? { atS, columns: [Float64Array.from(ask.atS, ask.speedMps)] } : null;
  return makeRecording({
    provenance: { file: 'made.gpx', format: 'gpx', device: null, sport: null },
    originUnixS: 1_780_000_000,
    channels: speed ? { position, speed } : { position },
    ...ask.more,
  });
};

/** Times from 0 s at an even rate, up to the end. */
export const evenTimes = (endS: number, rateHz: number): number[] =>
  Array.from({ length: Math.round(endS * rateHz) + 1 }, (_, i) => i / rateHz);
