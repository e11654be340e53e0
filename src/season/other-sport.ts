import type { Outing } from '../outing/index.js';
import { median } from '../signal/index.js';
import { type Craft, craftFamily, RATE_RANGE_SPM } from '../units/craft.js';

/** When the movement in a log is not that of a crew in a boat. */
export const OTHER_SPORT_SETTINGS = Object.freeze({
  /** Usual speed under way above this is a bicycle, a car or a launch, m/s; 7 to 9: world bests are 6.3, on a stream 7.5. */
  mostMps: 8,
  /** Slower than this is not under way, m/s; 0.3 to 0.8. */
  movingMps: 0.5,
  /** Usual distance per stroke below this is made by legs or arms, m; 2 to 3.5: light rowing makes 4 and more (common practice). */
  leastM: 2.5,
  /** Fewest samples that show what is usual; 30 to 120. */
  fewest: 60,
  /** Share beyond a craft's highest rate that is still believed; 0.05 to 0.2. */
  beyond: 0.1,
});

/** What a log calls a sport of boats. */
const BOATS = /row|scull|paddl|kayak|canoe|dragon|outrigger|surf ?ski|regatta/i;

/** Words of other sports, at the start of a word. */
const OTHERS =
  /\b(?:run|jog|walk|hik|trek|e?bik|e?cycl|ride|riding|swim|ski|snow|skat|golf|tennis|soccer|football|basket|climb|mountain|yoga|strength|driv|motor|sail|surf|windsurf|kitesurf|wakeboard|div(?:e|ing)|horse|fly|hunt|fish|box)/i;

/** Codes of type `sport` of the FIT profile that name no sport of their own, where the log gives the number alone. */
const NEUTRAL_CODES: readonly number[] = [3, 10, 18, 23, 42, 254];

/**
 * Why what a log says of its sport is not of a boat.
 * @returns null where it says nothing, or nothing that speaks against a boat
 */
export const statedOtherSport = (sport: string | null): string | null => {
  if (sport === null) return null;
  const words = sport.replace(/[_-]/g, ' ');
  if (BOATS.test(words)) return null;
  const code = /^sport (\d+)$/i.exec(words);
  const isOther = code === null ? OTHERS.test(words) : !NEUTRAL_CODES.includes(Number(code[1]));
  return isOther ? `it calls itself ${sport}` : null;
};

/** What is usual in a log under way, as far as it tells. */
export interface Movement {
  readonly speedMps: number | null;
  /** Of the logged cadence, a minute. */
  readonly cadence: number | null;
}

const usual = (values: readonly number[]): number | null =>
  values.length < OTHER_SPORT_SETTINGS.fewest ? null : median(values);

/** Usual speed and logged cadence of an outing while it moved. */
export const movementOf = ({ track, recording }: Pick<Outing, 'track' | 'recording'>): Movement => {
  const { movingMps } = OTHER_SPORT_SETTINGS;
  const { cadence } = recording.channels;
  const counted: number[] = [];
  const samples = cadence === undefined ? [] : [...cadence.columns[0]!];
  samples.forEach((value, i) => {
    if (value > 0 && (track === null || (track.speedAt(cadence!.atS[i]!) ?? 0) >= movingMps))
      counted.push(value);
  });
  return {
    speedMps: track === null ? null : usual([...track.speedMps].filter((mps) => mps >= movingMps)),
    cadence: usual(counted),
  };
};

/**
 * Why a movement is not that of a boat.
 * @param craft as given; null where none was, and then a boat is rowed
 */
export const movementOfOtherSport = ({ speedMps, cadence }: Movement, craft: Craft | null): string | null => {
  const { mostMps, leastM, beyond } = OTHER_SPORT_SETTINGS;
  if (speedMps !== null && speedMps > mostMps)
    return `it usually moved at ${speedMps.toFixed(1)} m/s, faster than any crew`;
  const family = craft === null ? 'rowing' : craftFamily(craft);
  const most = RATE_RANGE_SPM[family][1] * (1 + beyond);
  const paddled = craft === null ? '; if it was paddled, say the craft' : '';
  if (cadence !== null && cadence > most)
    return `its cadence is usually ${cadence.toFixed(0)} a minute, more than ${craft ?? 'rowing'} has${paddled}`;
  if (cadence !== null && speedMps !== null && family === 'rowing' && (60 * speedMps) / cadence < leastM)
    return `it usually made ${((60 * speedMps) / cadence).toFixed(1)} m for each turn of its cadence, less than rowing does${paddled}`;
  return null;
};

/**
 * Why an outing is not one of a crew in a boat: it says so, or it moved like nothing that is rowed or paddled. What
 * calls itself a sport of boats is believed.
 */
export const otherSport = (outing: Outing): string | null => {
  const { sport } = outing.recording.provenance;
  const stated = statedOtherSport(sport);
  if (stated !== null || outing.recording.land) return stated;
  if (sport !== null && BOATS.test(sport.replace(/[_-]/g, ' '))) return null;
  return movementOfOtherSport(movementOf(outing), outing.craft);
};
