import type { HeartRateZoneRow } from '../contract/season.js';
import type { WarningCode } from '../contract/severity.js';
import type { LogSummary } from './log-summary.js';

/** Time of rowing by ranges of heart rate: below the first bound, between bounds, from the last on. */
export const heartRateZones = (
  summaries: readonly LogSummary[],
  boundsBpm: readonly number[],
): HeartRateZoneRow[] => {
  const all = summaries.flatMap(({ heartRates }) => heartRates);
  const total = all.reduce((sum, { seconds }) => sum + seconds, 0);
  const edges = [null, ...boundsBpm, null];
  return edges.slice(1).map((to, i) => {
    const from = edges[i]!;
    const seconds = all
      .filter(({ bpm }) => bpm >= (from ?? 0) && bpm < (to ?? Number.POSITIVE_INFINITY))
      .reduce((sum, row) => sum + row.seconds, 0);
    return {
      from_bpm: from,
      to_bpm: to,
      duration_s: seconds,
      share_pct: total === 0 ? null : (100 * seconds) / total,
    };
  });
};

/**
 * Polarization index, log10(Z1 / Z2 · Z3 · 100) of the fractions of time in three zones (Treff et al., Front.
 * Physiol. 2019, 10:707). Their zero cases: with nothing in zone 2 it is log10(Z1 / 0.01 · (Z3 - 0.01) · 100);
 * with nothing in zone 3 it is 0; with more in zone 3 than in zone 1 it must not be computed.
 * @returns null where it is not defined: not three zones, no time, Z3 above Z1, or no positive argument
 * @example polarizationIndex([0.8, 0.05, 0.15]) // 2.3802
 */
export const polarizationIndex = (fractions: readonly number[]): number | null => {
  if (fractions.length !== 3) return null;
  const [low, middle, high] = fractions as [number, number, number];
  if (high > low) return null;
  if (high === 0) return low > 0 ? 0 : null;
  const argument = middle === 0 ? (low / 0.01) * (high - 0.01) * 100 : (low / middle) * high * 100;
  return argument > 0 ? Math.log10(argument) : null;
};

/** Why heart-rate zones that were asked for do not tell all: no heart rate, or no index of three zones. */
export const zoneWarnings = (
  zones: readonly HeartRateZoneRow[],
  index: number | null,
): { readonly code: WarningCode; readonly file: null; readonly where: null; readonly message: string }[] => {
  const warning = (code: WarningCode, message: string) => [{ code, file: null, where: null, message }];
  if (zones.every(({ duration_s }) => duration_s === 0))
    return warning(
      'no-heart-rate',
      'No outing that is counted has a heart rate during work, so the zones are empty.',
    );
  if (zones.length !== 3 || index !== null) return [];
  const [low, , high] = zones.map(({ duration_s }) => duration_s) as [number, number, number];
  return warning(
    'no-polarization-index',
    high > low
      ? 'No polarization index: there is more time in the third zone than in the first, where it is not defined.'
      : 'No polarization index: there is too little time in the first or the third zone for it to be defined.',
  );
};
