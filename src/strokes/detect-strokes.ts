import type { BoatFile, Mount } from '../contract/boat.js';
import type { WarningCode } from '../contract/severity.js';
import { throughWater } from '../motion/index.js';
import type { Interval, Progress, Track } from '../motion/track.js';
import { type Channel, type Placement, type Recording, shortened, type Warning } from '../recording/index.js';
import { median } from '../signal/index.js';
import { type Craft, type CraftFamily, craftFamily, RATE_RANGE_SPM } from '../units/craft.js';
import type { Stream } from '../units/stream.js';
import { isBacking } from './backing.js';
import { strokesPerCount } from './cadence-pairs.js';
import { cadenceStrokes } from './cadence-strokes.js';
import { type MountSpan, mountSpans, spanOf } from './mounts.js';
import { type DoubtedStretch, judgeRowing } from './rowing-judgement.js';
import { rowingWarnings } from './rowing-warnings.js';
import { speedRateNeededHz } from './speed-signal.js';
import type { Stroke, StrokeSeries, StrokeSource } from './stroke.js';
import { NO_FIGURES, type StrokeFigures, strokeFigures, strokeSpeeds } from './stroke-figures.js';
import { EVENT_SETTINGS, PAUSE_S, SIGNAL_SETTINGS, SOURCE_SETTINGS } from './stroke-settings.js';
import type { StrokeSignal } from './stroke-signal.js';
import { imuStrokes, type SurgeStrokes, speedStrokes } from './surge-strokes.js';
import { rotationOf, tiltCorrected } from './tilt-corrected.js';

/** What is known of the boat and its logger beside the log. */
export interface StrokeOptions {
  /** Null where it is not given: rowing is assumed, and said. */
  readonly craft: Craft | null;
  /** Null where it is not given: what the log itself states, else unknown. */
  readonly placement: Placement | null;
  readonly boat: BoatFile | null;
  /** The stream, where it is known: speeds of and within strokes are through the water then. */
  readonly stream?: Stream | null;
}

/** Confidence of a stroke that was counted out of a cadence: it happened, its place is not known. */
const CADENCE_CONFIDENCE = 0.5;

const FAMILY_WORDS: Readonly<Record<CraftFamily, string>> = {
  rowing: 'rowing',
  kayak: 'a kayak',
  canoe: 'a canoe',
  dragon: 'a dragon boat',
};

interface Marked {
  readonly atS: number;
  readonly confidence: number;
  readonly source: StrokeSource;
  readonly figures: StrokeFigures;
}

interface Found {
  readonly signal?: StrokeSignal;
  readonly source: StrokeSource;
  readonly marked: readonly Marked[];
  /** Stretches that this source covers. */
  readonly cover: readonly Interval[];
}

/** A gap longer than this is cut down to it before strokes are sought, s: none reaches over it. */
const LONGEST_GAP_S = 120;

/** A track asked on a clock whose long gaps are cut short. */
const onShortened = (track: Progress | null, toLog: (atS: number) => number): Progress | null =>
  track && { speedAt: (at) => track.speedAt(toLog(at)), alongAt: (at) => track.alongAt(toLog(at)) };

const coverOf = (channel: Channel): Interval[] => {
  const cover: Interval[] = [];
  let fromS = channel.atS[0]!;
  for (const gap of channel.gaps) {
    if (gap.toS - gap.fromS < SOURCE_SETTINGS.leastFallbackS) continue;
    cover.push({ fromS, toS: gap.fromS });
    fromS = gap.toS;
  }
  cover.push({ fromS, toS: channel.atS[channel.atS.length - 1]! });
  return cover;
};

const endsOf = (marksS: readonly number[], family: CraftFamily): (number | null)[] => {
  const mostS = 60 / RATE_RANGE_SPM[family][0] + PAUSE_S[family];
  return marksS.map((atS, i) => {
    const next = marksS[i + 1];
    return next !== undefined && next - atS <= mostS ? next : null;
  });
};

const withFigures = (
  source: StrokeSource,
  found: SurgeStrokes,
  channel: Channel,
  toLog: (atS: number) => number,
  track: Progress | null,
  family: CraftFamily,
  inside: boolean,
): Found => {
  const { marksS } = found;
  const endsS = endsOf(marksS, family);
  const speedsMps = strokeSpeeds(marksS, endsS, track);
  const figures = inside ? strokeFigures(found.surge, found.markBand, marksS, endsS, speedsMps) : null;
  const marked = marksS.map((atS, i) => ({
    atS: toLog(atS),
    source,
    confidence: found.confidence[i]!,
    figures: figures?.[i] ?? NO_FIGURES,
  }));
  const { surge, rawMps2, confidence } = found;
  return {
    source,
    marked,
    cover: coverOf(channel),
    signal: { source, surge, rawMps2, marksS, confidence, endsS, speedsMps, toLog },
  };
};

/** Strokes of a stretch in which the sensor sat one way. */
interface Mounted {
  readonly span: MountSpan;
  readonly found: SurgeStrokes;
}

/** Strokes of each mount that shows any, the longest first: it tells the family where it is not given. */
const byMount = (
  channel: Channel,
  rotation: Channel | null,
  track: Progress | null,
  given: CraftFamily | null,
  mount: Mount | null,
): Mounted[] => {
  const longest = [...mountSpans(channel)].sort((p, q) => q.to - q.from - (p.to - p.from));
  const mounted: Mounted[] = [];
  for (const span of longest) {
    const own = spanOf(channel, span);
    const level = rotation ? tiltCorrected(own, spanOf(rotation, span)) : own;
    const found = imuStrokes(level, track, given ?? mounted[0]?.found.family ?? null, mount);
    if (found && found.marksS.length > 0) mounted.push({ span, found });
  }
  return mounted;
};

/** Strokes of the best source, and of the next best where the best has nothing for a while. */
const joined = (sources: readonly Found[]): Marked[] => {
  const marked: Marked[] = [];
  const covered: Interval[] = [];
  for (const { marked: own, cover } of sources) {
    const edge = SOURCE_SETTINGS.leastFallbackS / 4;
    const free = own.filter(({ atS }) =>
      covered.every(({ fromS, toS }) => atS < fromS - edge || atS > toS + edge),
    );
    marked.push(...free);
    covered.push(...cover);
  }
  return marked.sort((p, q) => p.atS - q.atS);
};

/** True where a source that covers these times leaves no sample of a channel to fall back on. */
const leavesNothing = (cover: readonly Interval[], { atS }: Channel): boolean => {
  const edge = SOURCE_SETTINGS.leastFallbackS / 4;
  let reachS = atS[0]!;
  for (const { fromS, toS } of cover) if (fromS - edge <= reachS) reachS = Math.max(reachS, toS + edge);
  return reachS >= atS[atS.length - 1]!;
};

const whyNone = (recording: Recording, family: CraftFamily): string => {
  const { acceleration, speed } = recording.channels;
  const fastest = RATE_RANGE_SPM[family][1];
  const parts = [
    acceleration
      ? `its accelerometer is sampled more slowly than ${SIGNAL_SETTINGS.leastRateHz} Hz or shows no strokes`
      : 'no accelerometer is logged',
    speed
      ? `its speed is logged more slowly than the ${speedRateNeededHz(fastest).toFixed(1)} Hz that show strokes of ${fastest} a minute, or shows none`
      : 'no speed is logged often enough',
    'no cadence is logged',
  ];
  return `No strokes: ${parts.join(', ')}; add an accelerometer log (--imu FILE) or record faster.`;
};

/**
 * Every stroke of an outing, in time order: from the accelerometer where there is one, else from a speed that
 * is logged often enough, else from the logged cadence; where the best source fails for a while, from the next.
 * @param recording track and IMU channels on one clock
 * @param track the smoothed track; null where there is no position
 */
export const detectStrokes = (
  recording: Recording,
  track: Track | null,
  options: StrokeOptions,
): StrokeSeries => {
  const file = recording.provenance.file;
  const warnings: Warning[] = [];
  const warn = (code: WarningCode, message: string, where: string | null = null): void => {
    warnings.push({ code, file, where, message });
  };
  const craft = options.craft ?? options.boat?.craft ?? null;
  const placement = options.placement ?? options.boat?.placement ?? recording.statedPlacement ?? 'unknown';
  const { acceleration, rotation, speed, cadence } = recording.channels;
  const sources: Found[] = [];

  const given = craft === null ? null : craftFamily(craft);
  const imuShort = acceleration ? shortened(acceleration, LONGEST_GAP_S) : null;
  const imuTrack = imuShort ? onShortened(track, imuShort.toLog) : null;
  const overWater = track && options.stream ? throughWater(track, options.stream) : track;
  const figuresTrack = imuShort ? onShortened(overWater, imuShort.toLog) : null;
  const givenMount = options.boat?.mount ?? null;
  const detected = imuShort
    ? byMount(imuShort.channel, rotationOf(acceleration!, rotation), imuTrack, given, givenMount)
    : [];
  const strengthMps2 = options.boat?.stroke_strength_mps2 ?? null;
  const doubted: DoubtedStretch[] = [];
  const mounted = detected.flatMap(({ span, found }) => {
    const about = { track, toLog: imuShort!.toLog, strengthMps2, showsCycles: true };
    const judged = judgeRowing(found, about);
    doubted.push(...judged.doubted);
    return judged.strokes.marksS.length > 0 ? [{ span, found: judged.strokes }] : [];
  });
  const family: CraftFamily = given ?? detected[0]?.found.family ?? 'rowing';
  if (craft === null)
    warn(
      'craft-guessed',
      `The craft is not given: ${FAMILY_WORDS[family]} is assumed; give it with --craft, in the outing sheet, the boat file or thole.json.`,
    );
  if (acceleration && imuShort && mounted.length > 0) {
    const hull = placement === 'hull';
    for (const { span, found } of mounted)
      sources.push(
        withFigures('imu', found, spanOf(acceleration, span), imuShort.toLog, figuresTrack, family, hull),
      );
    for (const { from } of mounted.map(({ span }) => span).filter(({ from }) => from > 0))
      warn(
        'sensor-moved',
        'The accelerometer was put back another way round here: what lies before and after is read each by itself.',
        `${acceleration.atS[from]!.toFixed(0)} s`,
      );
    if (givenMount && mounted.some(({ found }) => !found.surge.given))
      warn(
        'mount-differs',
        'The accelerometer does not sit as the boat file says, so its mount is found from the log itself: gauge it anew.',
      );
    if (!hull)
      warn(
        'placement-not-hull',
        `Speed within the stroke, catch deceleration and drive are left out: the logger's place is ${placement}, not the hull; if it was fixed to the hull, give --placement hull.`,
      );
    else if (!track)
      warn('no-speed-within-stroke', 'Speed within the stroke is left out: there is no track.');
  }
  const spare = speed !== undefined && sources[0] !== undefined && leavesNothing(sources[0].cover, speed);
  const speedShort = speed && !spare ? shortened(speed, LONGEST_GAP_S) : null;
  const inSpeed = speedShort ? speedStrokes(speedShort.channel, family) : null;
  const judgedSpeed =
    inSpeed &&
    judgeRowing(inSpeed, { track, toLog: speedShort!.toLog, strengthMps2: null, showsCycles: false });
  const bySpeed = judgedSpeed?.strokes ?? null;
  if (sources.length === 0) doubted.push(...(judgedSpeed?.doubted ?? []));
  if (speed && speedShort && bySpeed && bySpeed.marksS.length > 0)
    sources.push(withFigures('speed', bySpeed, speed, speedShort.toLog, null, family, false));
  const perCount =
    cadence && family !== 'rowing'
      ? strokesPerCount(
          cadence,
          joined(sources).map(({ atS }) => atS),
        )
      : 1;
  const byCadence = cadence ? cadenceStrokes(cadence, perCount ?? 1) : [];
  if (cadence && byCadence.length > 0) {
    sources.push({
      source: 'cadence',
      cover: coverOf(cadence),
      marked: byCadence.map((atS) => ({
        atS,
        source: 'cadence' as const,
        confidence: CADENCE_CONFIDENCE,
        figures: NO_FIGURES,
      })),
    });
  }
  const marked = joined(sources);
  const used = new Set(marked.map((mark) => mark.source));
  if (used.has('cadence'))
    warn(
      'strokes-from-cadence',
      'Strokes are counted from the logged cadence: their number is as good as the cadence, and where in a stroke the catch lies is not known.',
    );
  if (used.has('cadence') && perCount === 2)
    warn(
      'cadence-counts-pairs',
      'The logged cadence counts every second stroke, as the strokes beside it show: it is taken twice.',
    );
  if (used.has('cadence') && perCount === null)
    warn(
      'cadence-pairs-unknown',
      'The logged cadence of a paddled craft may count every stroke or every second one, and nothing in the log shows which: rates and numbers of strokes may be half of what was paddled.',
    );
  const first = sources[0]?.source ?? null;
  for (const source of used)
    if (source !== first)
      warn('source-fell-back', `Some stretches have no ${first} strokes; theirs come from the ${source}.`);
  const usual = median([0, ...marked.map((mark) => mark.confidence)]);
  if (
    marked.length > 0 &&
    first === 'imu' &&
    (mounted[0]?.found.heaveShare ?? 0) > EVENT_SETTINGS.mostHeaveShare
  )
    warn(
      'strokes-doubtful',
      'What repeats here moves the sensor up and down more than along, as walking or running does and no stroke: check what was done before you use it.',
    );
  else if (marked.length > 0 && first !== 'cadence' && usual < EVENT_SETTINGS.doubtful)
    warn(
      'strokes-doubtful',
      'The strokes hardly stand out from what else moved the sensor: check where it sat and what was done before you use them.',
    );
  const left = rowingWarnings(doubted, track !== null, file);
  warnings.push(...left);
  if (marked.length === 0)
    warn(
      'no-strokes',
      left.length > 0 ? 'No strokes: what repeats in this log was not rowed.' : whyNone(recording, family),
    );

  const endsS = endsOf(
    marked.map((mark) => mark.atS),
    family,
  );
  const strokes = marked.map((mark, i): Stroke => {
    const endS = endsS[i]!;
    const alone = endS === null && (i === 0 || endsS[i - 1] === null);
    return {
      atS: mark.atS,
      rateSpm: endS === null ? null : 60 / (endS - mark.atS),
      source: mark.source,
      confidence: mark.confidence,
      kind:
        track && isBacking(track, mark.atS, endS ?? mark.atS + 2) ? 'backing' : alone ? 'single' : 'rowing',
      ...mark.figures,
    };
  });
  return {
    strokes,
    source: marked.length > 0 ? first : null,
    craft,
    signals: sources.flatMap(({ signal }) => (signal ? [signal] : [])),
    warnings,
  };
};
