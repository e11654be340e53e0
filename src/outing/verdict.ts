import type { RecordingRow } from '../contract/inspect.js';
import { type Track, unbridgedGaps } from '../motion/index.js';
import { type Channel, type Placement, usualIntervalS } from '../recording/index.js';
import { median } from '../signal/index.js';
import type { StrokeSource } from '../strokes/stroke.js';
import { formatClock } from '../units/clock-time.js';
import type { JoinedOuting } from './joined-outing.js';
import type { Outing } from './outing.js';
import { QUICK_LOOK_SETTINGS, type QuickLook } from './quick-look.js';
import { rowingIntervalsOf } from './rowing-interval.js';

/** What a line is judged by; the track may be a part of it, in which sections are known to begin. */
type Judged = JoinedOuting & Pick<Outing, 'track'> & Partial<Pick<QuickLook, 'sectionStartsS'>>;

/** What a log can carry, and why. */
type Line = RecordingRow['verdict'][number];

/** Limits of the verdict. */
export const VERDICT_SETTINGS = Object.freeze({
  /** Length over which a split is judged, m. */
  splitM: 500,
  /** sd of a split up to which a tenth of a second, and a whole second, mean something, s. */
  tenthSdS: 0.1,
  secondSdS: 1,
  /** Starts of sections are tried this far apart, s, and no more of them than that. */
  tryEveryS: 30,
  mostTries: 200,
  /** A boat slower than this is not on a section, m/s; looked at every so many seconds. */
  slowestMps: 1,
  lookEveryS: 10,
  /** Share of the time without positions above which that is said, and above which it is nearly all. */
  outageShare: 0.02,
  nearlyAllShare: 0.985,
  /** Fixes rarer than this are too rare, s: a boat turns or stops in between. */
  rareFixS: 1.9,
  /** Fewer strokes than this are chance, and no stretch of rowing is shorter than this, s. */
  fewestStrokes: 5,
  shortestIntervalS: 10,
  /** m/s²; a usual specific force farther from gravity than this is no accelerometer in the unit it states. */
  gravityMps2: 9.81,
  gravityOffMps2: 1.5,
  /** Most samples of acceleration of which the usual size is taken: enough for 0.01 m/s². */
  mostSizes: 20_000,
  /** Share of samples at the sensor's limit above which strokes are cut off. */
  clippedShare: 0.002,
  /** Samples a second that an accelerometer needs to show a catch (the stroke detector asks the same). */
  leastImuHz: 18,
});

const hz = (channel: Channel): string => {
  const intervalS = usualIntervalS(channel.atS);
  if (intervalS === null || intervalS <= 0) return 'one sample only';
  const rate = 1 / intervalS;
  return rate >= 0.95
    ? `${Number(rate.toPrecision(rate >= 10 ? 3 : 2))} Hz`
    : `one every ${Number(intervalS.toPrecision(2))} s`;
};

const count = (number: number, one: string, many: string): string => `${number} ${number === 1 ? one : many}`;

const yes = (can: string, why: string): Line => ({ can, yes: true, why });
const no = (can: string, why: string): Line => ({ can, yes: false, why });

/** What the cadence of other sports counts. */
const OTHER_SPORTS: readonly (readonly [RegExp, string])[] = [
  [/run|walk|hik/i, 'steps'],
  [/cycl|bik|ride/i, 'pedal turns'],
  [/swim/i, 'arm strokes'],
];

const otherMovement = (sport: string | null): string => {
  const other = sport === null ? undefined : OTHER_SPORTS.find(([name]) => name.test(sport));
  return other === undefined ? '' : `; the log calls itself ${sport}, so they may be ${other[1]}`;
};

const strokesLine = ({ strokes, recording }: Outing): Line => {
  const can = 'strokes';
  const { acceleration, speed, cadence } = recording.channels;
  const found = count(strokes.strokes.length, 'stroke', 'strokes');
  if (strokes.source !== null && strokes.strokes.length < VERDICT_SETTINGS.fewestStrokes)
    return no(can, `only ${found} in the whole log, which may be chance`);
  if (strokes.source === 'imu')
    return yes(can, `${found} found with the accelerometer (${hz(acceleration!)})`);
  if (strokes.source === 'speed')
    return yes(
      can,
      `${found} found in the logged speed (${hz(speed!)}); an accelerometer would time them better`,
    );
  if (strokes.source === 'cadence')
    return yes(
      can,
      `${found} counted from the logged stroke rate, so how many but not exactly when${otherMovement(recording.provenance.sport)}`,
    );
  if (acceleration !== undefined) {
    const intervalS = usualIntervalS(acceleration.atS);
    return intervalS === null || 1 / intervalS < VERDICT_SETTINGS.leastImuHz
      ? no(
          can,
          `the accelerometer is too slow (${hz(acceleration)}); set it to ${VERDICT_SETTINGS.leastImuHz} Hz or more, better 50`,
        )
      : no(can, `the accelerometer (${hz(acceleration)}) shows no strokes`);
  }
  if (cadence !== undefined) return no(can, 'the logged stroke rate is 0 throughout');
  return no(
    can,
    speed === undefined
      ? 'nothing in the log shows them; add an accelerometer log, or let the device log the stroke rate'
      : `the logged speed (${hz(speed)}) is too slow to show them; add an accelerometer log, or let the device log the stroke rate`,
  );
};

const WHERE: Readonly<Record<Exclude<Placement, 'hull'>, string>> = {
  cox: 'on the cox',
  wrist: 'on a wrist',
  pocket: 'in a pocket',
  body: 'on a body',
  unknown: 'somewhere that is not known',
};

/** What was seen of the strokes of a long log. */
const quickLookStrokesLine = ({ recording }: Judged, { source, rhythms, lookCount }: QuickLook): Line => {
  const rates = rhythms.map(({ rateSpm }) => Math.round(rateSpm));
  const [low, high] = [Math.min(...rates), Math.max(...rates)];
  const { acceleration, speed } = recording.channels;
  const sensor =
    source === 'imu' ? `the accelerometer (${hz(acceleration!)})` : `the logged speed (${hz(speed!)})`;
  const better = source === 'imu' ? '' : '; an accelerometer would time them better';
  return yes(
    'strokes',
    `a steady rhythm of ${low === high ? low : `${low} to ${high}`} a minute in ${sensor}, in ${rhythms.length} of ${lookCount} looks of ${QUICK_LOOK_SETTINGS.lookS} s at this long log${better}`,
  );
};

const withinStrokeLine = (source: StrokeSource | null, { placement, track }: Judged): Line => {
  const can = 'speed within the stroke';
  if (source !== 'imu') return no(can, 'it takes an accelerometer fixed to the hull');
  if (placement !== 'hull')
    return no(can, `the logger sat ${WHERE[placement]}; if it was fixed to the hull, say --placement hull`);
  if (track === null) return no(can, 'it takes a track too; give the track, and this log with --imu');
  return yes(can, 'the accelerometer was on the hull, and there is a track');
};

/** Times at which sections of a track are tried, s. */
const triesOf = ({ fromS, toS }: Track): number[] => {
  const stepS = Math.max(VERDICT_SETTINGS.tryEveryS, (toS - fromS) / VERDICT_SETTINGS.mostTries);
  return Array.from({ length: Math.ceil((toS - fromS) / stepS) }, (_, i) => fromS + i * stepS);
};

/** sd of the time over a section, s; null where the boat never goes that far without a stop. */
const sectionSd = ({ track, sectionStartsS }: Judged, lengthM: number): number | null => {
  if (track === null) return null;
  const sds: number[] = [];
  const isUnderWay = (atS: number): boolean => (track.speedAt(atS) ?? 0) >= VERDICT_SETTINGS.slowestMps;
  for (const fromS of sectionStartsS ?? triesOf(track)) {
    const end = isUnderWay(fromS) ? track.timeAfter(fromS, lengthM) : null;
    if (end === null) continue;
    let atS = fromS;
    while (atS < end.atS && isUnderWay(atS)) atS += VERDICT_SETTINGS.lookEveryS;
    if (atS >= end.atS) sds.push(end.durationSdS);
  }
  return sds.length === 0 ? null : median(sds);
};

const outageWords = ({ recording }: Judged): string => {
  const { position } = recording.channels;
  const outages = position === undefined ? [] : unbridgedGaps(position);
  const missingS = outages.reduce((sum, { fromS, toS }) => sum + toS - fromS, 0);
  const share = recording.durationS > 0 ? missingS / recording.durationS : 0;
  if (share <= VERDICT_SETTINGS.outageShare) return '';
  return share > VERDICT_SETTINGS.nearlyAllShare
    ? '; nearly all the time there are no positions'
    : `; no positions for ${Math.round(share * 100)} % of the time`;
};

const rareWords = (position: Channel): string =>
  (usualIntervalS(position.atS) ?? 0) > VERDICT_SETTINGS.rareFixS
    ? '; set the device to record every second'
    : '';

const splitsLines = (outing: Judged, sdS: number | null): Line[] => {
  const [tenth, second] = ['splits to a tenth', 'splits to a second'];
  const { position } = outing.recording.channels;
  const both = (why: string): Line[] => [no(second, why), no(tenth, why)];
  if (position === undefined) return both('the log holds no positions');
  if (outing.track === null)
    return both(`${count(position.atS.length, 'position is', 'positions are')} too few for a track`);
  if (sdS === null)
    return both(
      `the boat never moves ${VERDICT_SETTINGS.splitM} m in one go${outageWords(outing)}${rareWords(position)}`,
    );
  const good = `${sdS < 0.3 ? sdS.toFixed(2) : sdS.toFixed(1)} s over ${VERDICT_SETTINGS.splitM} m`;
  const care = `${outageWords(outing)}${rareWords(position)}`;
  const why = `positions (${hz(position)}) are good to about ${good}${care}`;
  const [isSecond, isTenth] = [sdS <= VERDICT_SETTINGS.secondSdS, sdS <= VERDICT_SETTINGS.tenthSdS];
  if (isSecond && !isTenth) return [yes(second, why), no(tenth, `about ${good} is more than a tenth`)];
  return [
    { can: second, yes: isSecond, why },
    { can: tenth, yes: isTenth, why },
  ];
};

const piecesLine = (outing: Outing): Line => {
  const can = 'pieces';
  const { strokes, track } = outing;
  const few = strokes.strokes.length < VERDICT_SETTINGS.fewestStrokes;
  const source = few ? null : strokes.source;
  const rowingIntervals = rowingIntervalsOf({ strokes: { ...strokes, source }, track, stream: null });
  if (rowingIntervals === null) return no(can, 'there are no strokes and no track to find them by');
  const longestS = rowingIntervals.reduce((most, { fromS, toS }) => Math.max(most, toS - fromS), 0);
  if (longestS < VERDICT_SETTINGS.shortestIntervalS) return no(can, 'nothing in the log looks like strokes');
  const found = `${count(rowingIntervals.length, 'stretch', 'stretches')} of work, the longest ${formatClock(longestS, 0)}`;
  if (track === null) return yes(can, `${found}; times and rates only, as there are no positions`);
  return source === null
    ? yes(can, `${found}; by speed alone, so starts and ends are good to some 2 s`)
    : yes(can, `${found}; by ${source === 'cadence' ? 'stroke rate' : 'strokes'} and speed`);
};

/** What was seen of the pieces of a long log. */
const quickLookPiecesLine = ({ track, moves }: QuickLook): Line => {
  if (track === null)
    return yes(
      'pieces',
      'there is a rhythm of strokes to find them by; times and rates only, as there are no positions',
    );
  const longestS = moves.reduce((most, { fromS, toS }) => Math.max(most, toS - fromS), 0);
  return yes(
    'pieces',
    `${count(moves.length, 'stretch', 'stretches')} of movement, the longest about ${formatClock(longestS, 0)}; strokes and speed mark the pieces in them`,
  );
};

const othersLine = ({ recording, track }: Judged): Line => {
  const can = 'times against other boats';
  if (track === null) return no(can, 'there is no track that could cross a line');
  if (recording.clock === 'relative') return no(can, 'the log has no date and time of day');
  return yes(can, 'positions carry date and time');
};

/** How far from 0 the farthest value lies. */
const limitOf = (column: Float64Array): number => {
  let low = 0;
  let high = 0;
  for (let i = 0; i < column.length; i++) {
    const value = column[i]!;
    if (value > high) high = value;
    if (value < low) low = value;
  }
  return Math.max(high, -low);
};

/** Samples at a sensor's limit: as far from 0 as any. */
const clippedCount = (column: Float64Array): number => {
  const near = 0.999 * limitOf(column);
  let count = 0;
  for (let i = 0; i < column.length; i++) if (Math.abs(column[i]!) > near) count++;
  return count;
};

/** Whether the accelerometer itself can be believed; nothing where there is none. */
const sensorLines = ({ recording }: Judged): Line[] => {
  const { acceleration } = recording.channels;
  if (acceleration === undefined) return [];
  const can = 'accelerometer';
  const [x, y, z] = acceleration.columns as [Float64Array, Float64Array, Float64Array];
  const stride = Math.ceil(x.length / VERDICT_SETTINGS.mostSizes);
  const sizes = new Float64Array(Math.ceil(x.length / stride));
  for (let k = 0; k < sizes.length; k++)
    sizes[k] = Math.hypot(x[k * stride]!, y[k * stride]!, z[k * stride]!);
  const usualMps2 = median(sizes);
  const { gravityMps2, gravityOffMps2, clippedShare } = VERDICT_SETTINGS;
  const off = Math.abs(usualMps2 - gravityMps2);
  if (usualMps2 < gravityOffMps2)
    return [no(can, 'gravity was taken out of it by the device, so its tilt is lost; log the raw sensor')];
  if (off > gravityOffMps2)
    return [
      no(
        can,
        `it reads ${usualMps2.toFixed(1)} m/s² as a rule where gravity is 9.8: its unit or its calibration is wrong`,
      ),
    ];
  const worst = Math.max(...acceleration.columns.map(clippedCount)) / x.length;
  if (worst > clippedShare)
    return [
      no(can, `it hits its limit in ${(worst * 100).toFixed(1)} % of the samples; set it to a wider range`),
    ];
  return [yes(can, `it reads ${usualMps2.toFixed(2)} m/s² as a rule, as gravity says it should`)];
};

/** What one outing's logs can carry: a line an analysis, with a reason that can be acted on. */
export const verdictOf = (outing: Outing): readonly Line[] => {
  if (outing.recording.land) {
    const why = 'the log was made on land, where no boat moves';
    const strokes = strokesLine(outing);
    return [
      strokes,
      no('speed within the stroke', why),
      no('splits to a second', why),
      no('splits to a tenth', why),
      no('pieces', why),
      no('times against other boats', why),
    ];
  }
  const sdS = sectionSd(outing, VERDICT_SETTINGS.splitM);
  return linesOf(outing, outing.strokes.source, sdS, strokesLine(outing), piecesLine(outing));
};

/**
 * What a long outing's logs can carry, as far as a quick look tells.
 * @returns null where what it saw of the track does not tell how good splits are
 */
export const quickLookVerdict = (joined: JoinedOuting, quick: QuickLook): readonly Line[] | null => {
  const { track, sectionStartsS, source } = quick;
  const judged = { ...joined, track, sectionStartsS };
  const sdS = sectionSd(judged, VERDICT_SETTINGS.splitM);
  if (track !== null && sdS === null) return null;
  return linesOf(judged, source, sdS, quickLookStrokesLine(judged, quick), quickLookPiecesLine(quick));
};

const linesOf = (
  judged: Judged,
  source: StrokeSource | null,
  sdS: number | null,
  strokes: Line,
  pieces: Line,
): readonly Line[] => [
  strokes,
  withinStrokeLine(source, judged),
  ...splitsLines(judged, sdS),
  pieces,
  othersLine(judged),
  ...sensorLines(judged),
];
