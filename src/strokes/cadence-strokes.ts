import type { Channel } from '../recording/index.js';

export const CADENCE_SETTINGS = Object.freeze({
  /**
   * A reading tells of so many strokes ago; 1 to 3: watches show the mean of about three strokes that are over
   * (common practice).
   */
  lagStrokes: 2,
  /** strokes per minute; a reading below tells of no rowing. 2 to 8: nobody rows a stroke in more than 12 s. */
  leastSpm: 5,
  /** A reading speaks for no longer than this, s; 60 to 300: devices that thin out what they write do so every minute at
   * least (common practice). It also bounds the strokes that a damaged clock can make. */
  longestStepS: 120,
});

/** Where readings end that nothing follows: at the log's gaps, and wherever the next one is too far off to go with it. */
const breaksOf = ({ atS, gaps }: Channel): ReadonlySet<number> => {
  const breaks = new Set(gaps.map((gap) => gap.fromS));
  for (let i = 1; i < atS.length; i++)
    if (atS[i]! - atS[i - 1]! > CADENCE_SETTINGS.longestStepS) breaks.add(atS[i - 1]!);
  return breaks;
};

/** A record's rate as it was then: that of the record which tells of it, up to the next stop or gap. */
const withoutLag = ({ atS, columns }: Channel, breaks: ReadonlySet<number>): Float64Array => {
  const cadence = columns[0]!.map((rate) => (rate < CADENCE_SETTINGS.leastSpm ? 0 : rate));
  const now = new Float64Array(cadence.length);
  let [begun, last] = [0, 0];
  for (let i = 0; i < cadence.length; i++) {
    if (cadence[i] === 0) continue;
    if (i === 0 || cadence[i - 1] === 0 || breaks.has(atS[i - 1]!)) begun = i;
    last = Math.max(last, i);
    // After a stop there are fewer strokes to take the mean of.
    const lagS = Math.min((60 * CADENCE_SETTINGS.lagStrokes) / cadence[i]!, atS[i]! - atS[begun]!);
    const knownS = atS[i]! + lagS;
    const runsOn = () => cadence[last + 1]! > 0 && !breaks.has(atS[last]!);
    while (atS[last + 1]! <= knownS && runsOn()) last++;
    const next = atS[last + 1]! > knownS && knownS > atS[last]! && runsOn() ? last + 1 : last;
    const share = next === last ? 0 : (knownS - atS[last]!) / (atS[next]! - atS[last]!);
    now[i] = cadence[last]! + share * (cadence[next]! - cadence[last]!);
  }
  return now;
};

/**
 * Strokes counted out of a logged cadence: the cadence integrated, a stroke at every whole number. Their number
 * is right, their places within a stroke are not known.
 * @param channel cadence, strokes per minute
 * @param strokesPerCount strokes that one count stands for
 * @returns times, s; across gaps of the log, and across steps too long for a reading, nothing is counted
 */
export const cadenceStrokes = (channel: Channel, strokesPerCount: 1 | 2): number[] => {
  const marksS: number[] = [];
  const breaks = breaksOf(channel);
  const cadence = withoutLag(channel, breaks);
  let phase = 1;
  for (let i = 0; i + 1 < channel.atS.length; i++) {
    const [fromS, toS] = [channel.atS[i]!, channel.atS[i + 1]!];
    const [first, last] = [cadence[i]!, cadence[i + 1]!];
    if (breaks.has(fromS) || first === 0) {
      phase = 1;
      continue;
    }
    // a record says how the strokes before it went: the rate in between is the mean, or the first before a stop
    const perS = (strokesPerCount * (last === 0 ? first : (first + last) / 2)) / 60;
    let atS = fromS + (1 - phase) / perS;
    // The first reading after a stop tells of a stroke that is over.
    const beforeS =
      phase === 1 && i > 0 && cadence[i - 1] === 0 ? fromS - 1 / perS : Number.NEGATIVE_INFINITY;
    if (beforeS > (marksS.at(-1) ?? channel.atS[0]!)) marksS.push(beforeS);
    while (atS < toS) {
      marksS.push(atS);
      atS += 1 / perS;
    }
    phase = 1 - (atS - toS) * perS;
  }
  return marksS;
};
