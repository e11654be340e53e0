import type { SummaryAsk } from '../outing/index.js';
import { type Outing, rowingIntervalsOf, summarise } from '../outing/index.js';
import { findPieces, pieceRow } from '../pieces/index.js';
import { usualIntervalS } from '../recording/index.js';
import type { LogSummary, MinutePlace } from './log-summary.js';
import { otherSport } from './other-sport.js';
import { rateTraceOf } from './rate-trace.js';
import { SEASON_BESTS } from './season-bests.js';
import { steadyRowing } from './steady-rowing.js';

/** A heart rate counts until the next one, but no longer than this, s: straps drop out. */
const HEART_RATE_REACH_S = 5;

const heartRatesOf = (outing: Outing): LogSummary['heartRates'] => {
  const channel = outing.recording.channels.heart_rate;
  const rowingIntervals = rowingIntervalsOf(outing);
  if (channel === undefined || rowingIntervals === null) return [];
  const seconds = new Map<number, number>();
  let rowing = 0;
  for (let i = 0; i < channel.atS.length; i++) {
    const atS = channel.atS[i]!;
    while (rowing < rowingIntervals.length && rowingIntervals[rowing]!.toS <= atS) rowing++;
    if (rowing === rowingIntervals.length) break;
    if (atS < rowingIntervals[rowing]!.fromS) continue;
    const untilS = Math.min(
      channel.atS[i + 1] ?? atS,
      atS + HEART_RATE_REACH_S,
      rowingIntervals[rowing]!.toS,
    );
    const bpm = Math.round(channel.columns[0]![i]!);
    seconds.set(bpm, (seconds.get(bpm) ?? 0) + untilS - atS);
  }
  return [...seconds].map(([bpm, spent]) => ({ bpm, seconds: spent })).sort((a, b) => a.bpm - b.bpm);
};

/** Minutes after a fix for which the way is looked at; in a longer pause nothing moves, and a log may pause for months. */
const MINUTES_AFTER_FIX = 10;

const minutesOf = ({ track, recording }: Outing): MinutePlace[] => {
  const { position } = recording.channels;
  if (track === null || track.startUnixS === null || position === undefined) return [];
  const { startUnixS, fromS, toS } = track;
  const minutes: MinutePlace[] = [];
  let next = Math.ceil((startUnixS + fromS) / 60);
  for (let i = 0; i < position.atS.length; i++) {
    const untilS = Math.min(toS, position.atS[i]! + 60 * MINUTES_AFTER_FIX, position.atS[i + 1] ?? toS);
    next = Math.max(next, Math.ceil((startUnixS + position.atS[i]!) / 60));
    for (; next * 60 <= startUnixS + untilS; next++) {
      const place = track.placeAt(next * 60 - startUnixS);
      if (place !== null) minutes.push({ minute: next, latDeg: place.latDeg, lonDeg: place.lonDeg });
    }
  }
  return minutes;
};

/** All that a season needs of one outing. */
export const logSummaryOf = (outing: Outing, ask: Pick<SummaryAsk, 'boundsSpm'> = {}): LogSummary => {
  const found = findPieces(outing, { kind: 'unaided' });
  const { row, warnings } = summarise(outing, {
    ...ask,
    best: SEASON_BESTS,
    pieceCount: found.pieces.length,
  });
  const positions = outing.recording.channels.position;
  const intervalS = positions === undefined ? null : usualIntervalS(positions.atS);
  return {
    files: outing.files,
    outing: row,
    strokeSource: outing.strokes.source,
    positionRateHz: intervalS === null ? null : 1 / intervalS,
    pieces: found.pieces.flatMap((piece, i) => {
      const { distance_m, ...rest } = pieceRow(outing, piece, i + 1, { by: 'time', count: 1 });
      if (distance_m === null) return [];
      const { duration_s, duration_sd_s, distance_sd_m, rate_spm, start_time } = rest;
      return { piece: i + 1, duration_s, duration_sd_s, distance_m, distance_sd_m, rate_spm, start_time };
    }),
    heartRates: heartRatesOf(outing),
    minutes: minutesOf(outing),
    sport: outing.recording.provenance.sport,
    otherSport: otherSport(outing),
    givenCrew: outing.sheet?.crew ?? null,
    givenCraft: outing.sheet?.craft ?? null,
    rates: rateTraceOf(outing),
    steady: steadyRowing(outing, ask.boundsSpm),
    warnings: [...outing.warnings, ...warnings],
  };
};

/** The same summary for logs that have other names now. */
export const renamed = (summary: LogSummary, files: readonly string[]): LogSummary => {
  const nameOf = (file: string): string => files[summary.files.indexOf(file)] ?? file;
  return {
    ...summary,
    files,
    outing: { ...summary.outing, file: nameOf(summary.outing.file) },
    warnings: summary.warnings.map((warning) =>
      warning.file === null ? warning : { ...warning, file: nameOf(warning.file) },
    ),
  };
};
