import type { BestRow, OutingRow } from '../contract/outing.js';
import { estimateStream } from '../motion/index.js';
import type { Warning } from '../recording/index.js';
import { formatClock } from '../units/clock-time.js';
import { isoTimeOrNull } from '../units/instant.js';
import { type Best, type BestAsk, bestStretches } from './best.js';
import { coveredM, coveredS } from './coverage.js';
import { heartRateWithin } from './heart-rate.js';
import type { Outing } from './outing.js';
import { rateBands } from './rate-bands.js';
import { movingIntervalsOf, type RowingInterval, rowingIntervalsOf } from './rowing-interval.js';
import { rateOfStrokes, strokesWithin } from './stretch.js';
import { waterDistanceM } from './water-distance.js';

/** How an outing is summed up. */
export interface SummaryAsk {
  /** Bounds of the rate bands, spm, rising. */
  readonly boundsSpm?: readonly number[];
  readonly best?: readonly BestAsk[];
  /** As found by the pieces; null where they were not looked for. */
  readonly pieceCount: number | null;
}

/** One outing at a glance, and what has to be said of it beyond what the outing itself says. */
export interface Summary {
  readonly row: OutingRow;
  readonly warnings: readonly Warning[];
}

/** Lengths of best stretches looked for unless the user gives his own: trial, sprint and race distances. */
export const USUAL_BESTS: readonly BestAsk[] = Object.freeze(
  [500, 1000, 2000, 5000].map((metres) => Object.freeze({ metres })),
);

/** A best stretch faster than this in still water is not one, m/s: 1:15 over 500 m (world best eights: 1:20). */
const BELIEVABLE_MPS = 500 / 75;

/** Luck below this is not worth a sentence, s. */
const LUCK_WORTH_SAYING_S = 0.1;

const bestRow = (outing: Outing, best: Best): BestRow => ({
  ...('metres' in best.ask ? { asked_m: best.ask.metres } : { asked_s: best.ask.seconds }),
  duration_s: best.toS - best.fromS,
  duration_sd_s: best.durationSdS,
  distance_m: best.distanceM,
  distance_sd_m: 'metres' in best.ask ? null : best.distanceSdM,
  start_time: timeAt(outing, best.fromS),
  rate_spm: outing.strokes.source === null ? null : rateOfStrokes(strokesWithin(outing, best)),
});

const timeAt = (outing: Outing, atS: number): string | null =>
  isoTimeOrNull(outing.recording.startUnixS === null ? null : outing.recording.startUnixS + atS);

/** Seconds by which a best stretch over a distance may be flattered: sd · sqrt(2 ln choices). */
const luckS = ({ durationSdS, choices }: Best): number =>
  (durationSdS ?? 0) * Math.sqrt(2 * Math.log(choices));

/** What has to be said of best stretches: luck, and speeds that no crew has. */
export const bestWarnings = (outing: Pick<Outing, 'file'>, bests: readonly Best[]): Warning[] => {
  const warnings: Warning[] = [];
  const biased = bests
    .filter((best) => luckS(best) >= LUCK_WORTH_SAYING_S)
    .sort((a, b) => luckS(b) - luckS(a))[0];
  if (biased && 'metres' in biased.ask)
    warnings.push({
      code: 'best-is-fast',
      file: outing.file,
      where: null,
      message: `Best stretches come out a little fast, being the fastest of many: by up to ${luckS(biased).toFixed(1)} s for the ${biased.ask.metres} m, beyond their ±.`,
    });
  const wild = bests.find((best) => best.distanceM / (best.toS - best.fromS) > BELIEVABLE_MPS);
  if (wild)
    warnings.push({
      code: 'speed-not-believable',
      file: outing.file,
      where: `at ${wild.fromS.toFixed(1)} s`,
      message: `A best stretch is faster than 1:15 over 500 m: suspect a strong stream, a bad track, or a log that went on in a car; look at the log there.`,
    });
  return warnings;
};

const sumOf = <Item>(items: readonly Item[], value: (item: Item) => number | null): number =>
  items.reduce((sum, item) => sum + (value(item) ?? 0), 0);

const movementWarning = (outing: Outing, rowingIntervals: readonly RowingInterval[] | null): Warning[] => {
  if (outing.strokes.source !== null) return [];
  return [
    {
      code: rowingIntervals === null ? 'rowing-unknown' : 'rowing-from-movement',
      file: outing.file,
      where: null,
      message:
        rowingIntervals === null
          ? 'There are neither strokes nor positions in this log, so time and distance are not known.'
          : 'No strokes were found, so time and distance are those of movement faster than 0.5 m/s: drifting on a stream or a tow counts too.',
    },
  ];
};

/** When distance and time rowed may be too small. */
const COVER_SETTINGS = Object.freeze({
  /** Rowing without positions is worth a sentence from here on, s. */
  unseenS: 10,
  /** A boat faster than this is rowed or towed, m/s; 1.2 to 2: no stream drifts it there on rowable water. */
  drivenMps: 1.5,
  /** … for longer than this, s, with strokes for less than this share of it; 30 to 120, 0.4 to 0.7. */
  drivenS: 60,
  strokeShare: 0.5,
});

const coverWarnings = (outing: Outing, rowingS: number | null, knownS: number | null): Warning[] => {
  const { track, strokes, file } = outing;
  if (track === null || rowingS === null || knownS === null) return [];
  const warnings: Warning[] = [];
  if (rowingS - knownS > COVER_SETTINGS.unseenS)
    warnings.push({
      code: 'rowing-without-positions',
      file,
      where: null,
      message: `For ${formatClock(rowingS - knownS, 0)} of ${formatClock(rowingS, 0)} of work the track holds no positions, so distances leave that time out.`,
    });
  const drivenS = sumOf(movingIntervalsOf(track, COVER_SETTINGS.drivenMps), ({ fromS, toS }) => toS - fromS);
  if (
    strokes.source !== null &&
    drivenS > COVER_SETTINGS.drivenS &&
    rowingS < COVER_SETTINGS.strokeShare * drivenS
  )
    warnings.push({
      code: 'few-strokes-found',
      file,
      where: null,
      message: `The boat moved faster than ${COVER_SETTINGS.drivenMps} m/s for ${formatClock(drivenS, 0)} but strokes were found for ${formatClock(rowingS, 0)} only: unless it was towed or carried, time, distance and strokes are too small.`,
    });
  return warnings;
};

/** A stream counts as shown from so many of its sd on, and when it is worth a sentence, m/s. */
const STREAM_SHOWN = Object.freeze({
  sds: 2.5,
  leastMps: 0.1,
  /** Rates of both ways are alike within this share: else a change of effort looks the same; 0.05 to 0.1. */
  rateShare: 0.08,
});

/** That rowing both ways shows a stream not given, so that speeds over ground are not the crew's. */
const streamWarnings = (outing: Outing, rowingIntervals: readonly RowingInterval[] | null): Warning[] => {
  if (outing.track === null || outing.stream !== null || rowingIntervals === null) return [];
  const { estimate } = estimateStream(outing.track, rowingIntervals, (window) => {
    const within = strokesWithin(outing, window);
    return within.length < 3 ? null : rateOfStrokes(within);
  });
  if (estimate === null) return [];
  const { stream, sdMps, legCount, rateRatio } = estimate;
  if (rateRatio === null || Math.abs(Math.log(rateRatio)) > STREAM_SHOWN.rateShare) return [];
  if (stream.speedMps < Math.max(STREAM_SHOWN.leastMps, STREAM_SHOWN.sds * sdMps)) return [];
  const [mps, toDeg] = [stream.speedMps.toFixed(2), (Math.round(stream.toDeg) % 360).toFixed(0)];
  return [
    {
      code: 'stream-suggested',
      file: outing.file,
      where: null,
      message: `Speed up and down (${legCount} legs) suggests a stream of ${mps} m/s (sd ${sdMps.toFixed(2)}) towards ${toDeg}°, but a steady wind or a harder effort one way looks the same: speeds here are over ground; give --stream ${mps}@${toDeg} if you believe it.`,
    },
  ];
};

/** One outing at a glance: what was rowed, how far, how hard, and its best stretches. */
export const summarise = (outing: Outing, ask: SummaryAsk): Summary => {
  const { track, recording, strokes } = outing;
  const rowingIntervals = rowingIntervalsOf(outing);
  const rowingS = rowingIntervals === null ? null : sumOf(rowingIntervals, ({ fromS, toS }) => toS - fromS);
  const rowedM =
    track === null || rowingIntervals === null
      ? null
      : sumOf(rowingIntervals, (rowing) => coveredM(track, rowing));
  const groundM = track === null ? null : coveredM(track, track);
  // Speed is over the time for which the track tells a length.
  const knownS =
    track === null || rowingIntervals === null
      ? null
      : sumOf(rowingIntervals, (rowing) => coveredS(track, rowing));
  const waterM =
    track === null || rowingIntervals === null || outing.stream === null
      ? null
      : sumOf(
          rowingIntervals,
          (rowing) => waterDistanceM(track, rowing, outing.stream!) ?? coveredM(track, rowing),
        );
  const speed = rowedM === null || !knownS ? null : (waterM ?? rowedM) / knownS;
  const forward =
    strokes.source === null ? null : strokesWithin(outing, { fromS: 0, toS: Number.POSITIVE_INFINITY });
  const rate = forward === null ? null : rateOfStrokes(forward);
  const bests =
    track === null || rowingIntervals === null
      ? []
      : bestStretches(track, rowingIntervals, ask.best ?? USUAL_BESTS);
  return {
    row: {
      file: outing.file,
      crew: outing.sheet?.crew ?? null,
      craft: outing.craft,
      place: recording.land ? 'land' : 'water',
      start_time: timeAt(outing, 0),
      end_time: timeAt(outing, recording.durationS),
      duration_s: recording.durationS,
      rowing_s: rowingS,
      distance_m: rowedM,
      over_ground_m: groundM,
      drift_m: groundM === null || rowedM === null ? null : Math.max(0, groundM - rowedM),
      furthest_m: track?.furthestM ?? null,
      stroke_count: forward?.length ?? null,
      rate_spm: rate,
      speed_mps: speed,
      speed_over: outing.stream === null ? 'ground' : 'water',
      distance_per_stroke_m: speed === null || rate === null ? null : (60 * speed) / rate,
      heart_rate_mean_bpm:
        heartRateWithin(recording, rowingIntervals ?? [{ fromS: 0, toS: recording.durationS }])?.meanBpm ??
        null,
      rate_bands: [...rateBands(outing, ask.boundsSpm)],
      best: bests.map((best) => bestRow(outing, best)),
      piece_count: ask.pieceCount,
    },
    warnings: [
      ...movementWarning(outing, rowingIntervals),
      ...coverWarnings(outing, rowingS, knownS),
      ...streamWarnings(outing, rowingIntervals),
      ...bestWarnings(outing, bests),
    ],
  };
};
