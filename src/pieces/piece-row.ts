import type { PartRow, PieceRow } from '../contract/pieces.js';
import { type Interval, lengthBetween } from '../motion/index.js';
import {
  type Outing,
  type Stretch,
  speedWithin,
  stretchOf,
  type Target,
  targetPct,
} from '../outing/index.js';
import { isoTimeOrNull } from '../units/instant.js';
import { splitOfSpeed } from '../units/speed.js';
import { interruptedS } from './interruption-warnings.js';
import { lengthOf, type Part, type PartAsk, partsOf } from './part.js';
import type { Piece } from './piece.js';
import { strokeDropouts, unexplained } from './stroke-dropout.js';
import { windOn } from './wind.js';

const timeAt = ({ recording }: Outing, atS: number): string | null =>
  isoTimeOrNull(recording.startUnixS === null ? null : recording.startUnixS + atS);

/** What pieces and their parts have in common. */
const shared = (outing: Outing, stretch: Stretch, piece: Piece) => ({
  // Where strokes are missing their number is not known; the warnings say where.
  stroke_count:
    stretch.strokes === null || unexplained(strokeDropouts(outing, stretch), piece).length > 0
      ? null
      : stretch.strokes.length,
  rate_spm: stretch.rateSpm,
  speed_mps: stretch.speedMps,
  split_s_per_500m:
    stretch.speedMps === null || stretch.speedMps <= 0 ? null : splitOfSpeed(stretch.speedMps),
  distance_per_stroke_m: stretch.distancePerStrokeM,
  // Null without a reference other than the piece itself.
  speed_against_curve_pct: null,
  heart_rate_mean_bpm: stretch.heartRate?.meanBpm ?? null,
});

const partRow = (outing: Outing, piece: Piece, part: Part, index: number, target: Target | null): PartRow => {
  const stretch = stretchOf(outing, part, index === 0 ? piece.strokesFromS : part.fromS);
  return {
    part: index + 1,
    from_along_m: part.fromM,
    to_along_m: part.toM,
    duration_s: part.toS - part.fromS,
    duration_sd_s: part.durationSdS,
    cumulative_s: part.toS - piece.fromS,
    bridged_s: bridgedS(outing, part),
    distance_m: part.fromM === null || part.toM === null ? null : part.toM - part.fromM,
    distance_sd_m: part.distanceSdM,
    ...shared(outing, stretch, piece),
    target_pct: targetPct(target, stretch.speedMps),
  };
};

/** Time of a stretch that lies between fixes and was bridged, s. */
const bridgedS = ({ track }: Outing, { fromS, toS }: Interval): number =>
  (track?.bridges ?? []).reduce(
    (sum, bridge) => sum + Math.max(0, Math.min(toS, bridge.toS) - Math.max(fromS, bridge.fromS)),
    0,
  );

/** Distance per stroke of a piece, m: stops in it have neither strokes nor a rate, so their way and time are left out. */
const whileRowing = (outing: Outing, piece: Piece, stretch: Stretch): number | null => {
  const stops = piece.interruptions.filter(({ kind }) => kind === 'stop');
  if (stops.length === 0 || stretch.speedMps === null || stretch.rateSpm === null)
    return stretch.distancePerStrokeM;
  let [metres, seconds] = [stretch.speedMps * stretch.durationS, stretch.durationS];
  for (const stop of stops) {
    const { speedMps } = speedWithin(outing, stop);
    if (speedMps === null) return null;
    metres -= speedMps * (stop.toS - stop.fromS);
    seconds -= stop.toS - stop.fromS;
  }
  return (60 * metres) / seconds / stretch.rateSpm;
};

/** sd of the time that a piece took, s. */
const durationSdS = (outing: Outing, piece: Piece): number | null => {
  if (piece.exactS !== null) return 0;
  if (piece.endSdS !== null) return Math.hypot(piece.startSdS, piece.endSdS);
  if (piece.exactM === null) return null;
  const end = outing.track?.timeAfter(piece.fromS, piece.exactM);
  if (!end) return null;
  // A start at speed that is taken too late moves the end of the same length too.
  const [first, last] = [piece.fromS, end.atS].map((atS) => outing.track?.speedAt(atS) ?? 0) as [
    number,
    number,
  ];
  const kept = piece.start === 'standing' || last <= 0 ? 1 : Math.min(1, Math.abs(1 - first / last));
  return Math.hypot(kept * piece.startSdS, end.durationSdS);
};

/** sd of the length of a piece, m: that of the path, and of the moments at its ends. */
const distanceSdM = (outing: Outing, piece: Piece): number | null => {
  const length = lengthOf(outing, piece);
  if (length === null) return null;
  if (piece.exactM !== null) return 0;
  const [first, last] = [piece.fromS, piece.toS].map((atS) => outing.track?.speedAt(atS) ?? 0) as [
    number,
    number,
  ];
  if (piece.exactS === null) return Math.hypot(length.sd, first * piece.startSdS, last * (piece.endSdS ?? 0));
  // Where the time is exact, both ends move with the start: at a standing start one of them at rest.
  return Math.hypot(length.sd, (last - (piece.start === 'standing' ? 0 : first)) * piece.startSdS);
};

/**
 * sd of the speed of a piece, m/s. A border in the wrong place takes or gives time and length together, so it
 * moves the speed only by how far the boat's speed there is from the mean.
 */
const speedSdMps = (outing: Outing, piece: Piece, speedMps: number | null): number | null => {
  const timeS = piece.toS - piece.fromS;
  const length = lengthOf(outing, piece);
  if (speedMps === null || length === null || timeS <= 0) return null;
  if (piece.exactM !== null) {
    const sdS = durationSdS(outing, piece);
    return sdS === null ? null : (speedMps * sdS) / timeS;
  }
  if (piece.exactS !== null) return (distanceSdM(outing, piece) ?? 0) / timeS;
  const meanMps = length.value / timeS;
  const [first, last] = [piece.fromS, piece.toS].map((atS) => (outing.track?.speedAt(atS) ?? 0) - meanMps);
  return Math.hypot(length.sd, first! * piece.startSdS, last! * (piece.endSdS ?? 0)) / timeS;
};

/**
 * One piece with its parts as the result writes it.
 * @param number of the piece within the log, from 1
 * @param target what its speed is compared with; null for nothing
 */
export const pieceRow = (
  outing: Outing,
  piece: Piece,
  number: number,
  parts?: PartAsk,
  target: Target | null = null,
): PieceRow => {
  const stretch = stretchOf(outing, piece, piece.strokesFromS);
  return {
    piece: number,
    file: outing.file,
    crew: outing.sheet?.crew ?? null,
    start_time: timeAt(outing, piece.fromS),
    end_time: timeAt(outing, piece.toS),
    start_at_s: piece.fromS,
    end_at_s: piece.toS,
    start: piece.start,
    outcome: piece.outcome,
    duration_s: piece.toS - piece.fromS,
    duration_sd_s: durationSdS(outing, piece),
    stopped_s: interruptedS(piece, 'stop'),
    slow_s: interruptedS(piece, 'slow'),
    uninterrupted_s: piece.toS - piece.fromS - interruptedS(piece, 'stop') - interruptedS(piece, 'slow'),
    bridged_s: bridgedS(outing, piece),
    distance_m: lengthOf(outing, piece)?.value ?? null,
    distance_sd_m: distanceSdM(outing, piece),
    speed_sd_mps: speedSdMps(outing, piece, stretch.speedMps),
    speed_over: outing.stream === null ? 'ground' : 'water',
    speed_variation: stretch.speedVariation,
    extra_drag_power_pct: stretch.extraDragPowerPct,
    heart_rate_max_bpm: stretch.heartRate?.maxBpm ?? null,
    heading_deg: stretch.headingDeg,
    ...windOn(outing.sheet, stretch.headingDeg),
    course_way: piece.courseWay ?? null,
    target_pct: targetPct(target, stretch.speedMps),
    interruptions: piece.interruptions.map(({ kind, fromS, toS }) => ({
      kind,
      at_s: fromS,
      along_m: lengthBetween(outing.track, piece.fromS, fromS),
      duration_s: toS - fromS,
    })),
    ...shared(outing, stretch, piece),
    distance_per_stroke_m: whileRowing(outing, piece, stretch),
    parts: (piece.legs ?? partsOf(outing, piece, parts)).map((part, i) =>
      partRow(outing, piece, part, i, target),
    ),
  };
};
