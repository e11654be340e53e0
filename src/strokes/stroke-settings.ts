import type { CraftFamily } from '../units/craft.js';

/** Tuning of the stroke signal: how an accelerometer's samples become one surge acceleration. */
export const SIGNAL_SETTINGS = Object.freeze({
  /** Hz; rate of the evenly sampled signal, or half of it for slower sensors. 50 keeps the 5 Hz band of the catch mark whole. */
  rateHz: 50,
  /** Hz; slower than this an accelerometer cannot show a catch (the issue asks for 25 Hz and up; 18 leaves room for drop-outs). */
  leastRateHz: 18,
  /** Hz; what is slower is tilt and drift, not strokes (10 spm is 0.167 Hz). */
  highPassHz: 0.09,
  /** Hz; band in which the surge axis is sought: above chop (0.4 to 1.2 Hz), below the sensor's own noise. */
  axisBandHz: [1.3, 6] as const,
  /** Hz; lowest frequency of the second guess at the axis, for sensors that a body carries: their strokes are smooth. */
  wideBandHz: 0.2,
  /** Cosine between the two guesses above which they are one. */
  sameAxis: 0.94,
  /** m/s²; a mean specific force below this is a log with gravity already taken out. */
  leastGravityMps2: 5,
  /** Cosine between the upright of a given mount and the log's own below which the sensor sits otherwise: 15 degrees. */
  sameUpright: 0.966,
  /** Gain of strokes along a given axis counts so much more than along a guess: a box may be put back turned. */
  givenMargin: 1.3,
  /** Correlation of mean surge with the track's change of speed beyond which the track tells which way is forward. */
  trackAgreement: 0.5,
});

/** Tuning of the events: which peaks of the matched signal are strokes. */
export const EVENT_SETTINGS = Object.freeze({
  /** Hz; rate at which the template is matched. */
  rateHz: 25,
  /** s; half the span over which the usual height of a stroke is judged (a start lasts about 10 s). */
  localHalfS: 12,
  /** Share of the strongest stretch below which a stretch is not judged by its own height but by that one. */
  floorShare: 0.22,
  /** Height in sd of noise below which a stretch is judged by the log's usual stroke, and from which by its own. */
  trustedSds: [3, 5] as const,
  /** The same at rest, whose noise is learnt from rest itself: light strokes that back or turn a boat stand 4 sd out and more. */
  trustedAtRestSds: [3, 4] as const,
  /** sd of noise by which the highest match of a stretch stands above a usual stroke: the highest of a few looks. */
  liftSds: 0.8,
  /** Least height in sd of noise at which strokes are sought: 1.5, or any noise would be as good as they. */
  leastUsualSds: 1.5,
  /** Height in sd of noise that is assumed of strokes before any is known; 2.2 to 4.5 find the same. */
  guessedSds: 2.2,
  /** s; how far from its mark the height of a known stroke is looked for. */
  nearS: 0.16,
  /** s; half the span over which the noise is judged. */
  noiseHalfS: 12,
  /** s; no stroke is sought nearer than this to the ends of the log. */
  edgeS: 0.4,
  /** Least interval between strokes, as a share of that at the craft's highest rate. */
  refractoryShare: 0.93,
  /** s; longest span in which at least one stroke of a rowing interval falls, for the usual height. */
  slowestS: 3.5,
  /** s; how often the noise is judged anew. */
  noiseEveryS: 3,
  /** s; how far apart the looks are that it is judged from. */
  noiseStrideS: 0.2,
  /** s; how far apart two looks at the matched noise are to be independent. */
  lookS: 0.2,
  /** Squared sd beyond what noise reaches by chance before a small drive counts against a stroke. */
  chanceMargin: 1,
  /** Share of the usual height at which a peak is as likely noise as stroke. */
  evenShare: 0.5,
  /** The same for one that stands this far out of the noise with this share of its drive. */
  light: { evenShare: 0.25, driveShare: 0.8, sds: 6 } as const,
  /** Greatest score for each unit of share above that: strokes vary by a fifth or so. */
  mostSlope: 9,
  /** Greatest score of a stroke, and score below which a peak is not worth carrying: of strokes that stand 3 sd out 1 in 150. */
  mostScore: 6,
  leastScore: -3,
  /** s; after this the check is over and the drive goes on. */
  checkS: 0.16,
  /** Size of the drive, as a share of the whole stroke's, below which a peak loses, and how much at most. */
  driveShare: 0.4,
  mostDriveLoss: 10,
  /** A stroke less likely than this is left out. */
  leastConfidence: 0.1,
  /** Median confidence below which the user is warned about them all. */
  doubtful: 0.8,
  /** Energy of the strokes up and down, as a share of that along, beyond which they are doubted: a hull below 0.1, a rower's body below 0.6, a walk 5. */
  mostHeaveShare: 1.5,
  /** Logits of confidence: at score 0, for each unit of own score, and of the mean score of so many strokes to either side; a logistic regression on 22,323 strokes rowed and paddled, three simulators, chop to 2 m/s². */
  confidence: { base: 0.2, own: 0.38, near: 0.63, reach: 4 } as const,
});

/** Tuning of how the crew's own stroke is learnt. */
export const LEARNING_SETTINGS = Object.freeze({
  /** s; length of the log, its highest-power minutes, from which the stroke is first learnt. */
  lengthS: 480,
  blockS: 60,
  /** Times that templates, noise and strokes are found anew from one another, for each first guess. */
  firstRounds: 3,
  /** The same for the whole log, with a template for each range of rates. */
  lastRounds: 3,
  /** Share of the best first guess's total below which a guess is not worth learning from: 0.3 to 0.6 find the same. */
  worthShare: 0.5,
  /** Points (0.1 Hz each) to either side over which the log's own spectrum is smoothed before any stroke is known, strokes and all; and over which what strokes leave is. */
  firstReach: 12,
  noiseReach: 8,
  /** Share of the strokes' own power that counts as noise beside what they leave: no two strokes are alike. */
  mismatch: 0.03,
  /** Points of the spectrum in which strokes show: 0.2 to 10 Hz. */
  gainPoints: [2, 100] as const,
  /** Share of the mean power below which no frequency counts as quieter: where a sensor carries nothing. */
  powerFloor: 1e-3,
  /** Mean gain of a log's strokes, costs and all, below which none are believed (paddling in chop of 2 m/s²: 3.4; a boat at rest: at most 1.5). */
  leastMeanScore: 2,
  /** m/s²; rms of the strongest averaged stroke below which nothing is believed (a light kayak: 0.2). */
  leastMps2: 0.05,
  /** Samples by which a stroke may move from one round to the next where both are said to find the same. */
  sameSamples: 1,
  /** Share of the strokes that may be others, or elsewhere, where two rounds are said to find the same: of an hour's, five. */
  movedShare: 0.004,
  /** Strokes averaged at most, spread over the log: more add nothing but time. */
  mostStrokes: 240,
  leastStrokes: 5,
  /** Share of the usual height that a stroke to learn from has, unless noise may have lowered it. */
  leastShare: 0.6,
  /** Height in sd of noise below which none counts as lower. */
  lowestSds: 0.5,
  /** Reach of a template before and after its mark: shares of the interval, and at most so many seconds. */
  beforeShare: 0.42,
  afterShare: 0.56,
  beforeS: 0.8,
  afterS: 1.3,
  /** Band in which an averaged stroke's check is sought: so many times its rate, Hz, within bounds. */
  checkBandCycles: 4,
  checkBandHz: [5, 8] as const,
  /** s; reach over which the bend of a check is judged. */
  bendS: 0.08,
  /** s; how much farther than its template a stroke is averaged to find its check, at most; half a cycle if less. */
  aroundS: 0.8,
  /** Bend of a low point, as a share of the sharpest one's, from which it may be the check. */
  sharpShare: 0.3,
  /** Share of the way from the lowest low point up to the drive's top within which the check lies: a drive may dip, but not so far. */
  riseShare: 0.6,
  /** Share of the template over which its ends fade. */
  fadeShare: 0.15,
  /** Ranges of rate with a template of their own, at most; least strokes in each; least ratio of their rates. */
  rateRanges: 6,
  rangeStrokes: 20,
  rangeRatio: 1.12,
  /** Height in sd of noise of a range's strokes, as a share of all strokes', below which it has no template of its own. */
  standingShare: 0.45,
});

/** Longest interval between two strokes of one rowing interval, s, beyond the family's lowest rate; pause drills stretch it. */
export const PAUSE_S: Readonly<Record<CraftFamily, number>> = Object.freeze({
  rowing: 1,
  kayak: 0.4,
  canoe: 0.8,
  dragon: 0.4,
});

/** Tuning of what is reported of a stroke's inside. */
export const FIGURE_SETTINGS = Object.freeze({
  /** s; no drive is shorter (0.5 s is quick at 45 spm). */
  leastDriveS: 0.3,
  /** Share of the cycle within which a drive ends (near 0.5 at race rates, 0.35 to 0.4 at 20 spm). */
  mostDriveShare: 0.72,
  /** Depth of the dip at the end of the drive, as a share of the swing from catch to drive. */
  dipShare: 0.05,
  /** Strokes before and after whose mean has to show the dip too; the fewest that make a mean; logarithm of the ratio of two intervals beyond which strokes are of another form. */
  driveReach: 8,
  leastDriveStrokes: 5,
  driveAlike: 0.15,
  /** Depth of that mean's dip in sd of noise in such a mean, and of the stroke's own in sd of what strokes differ by: a depth is the difference of two extremes, which in noise alone are 3 to 5 sd apart. */
  dipSds: 6,
  ownDipSds: 1.5,
  /** s; how far a stroke's dip lies from the mean's, at most. */
  dipMovesS: 0.08,
  /** m/s; below this a variation relative to the mean says nothing. */
  leastSpeedMps: 0.8,
  /** Change of speed over a stroke, as a share of its mean, beyond which the boat still gets under way; 0.1 to 0.3: a
   * change of pace makes 0.05, the third stroke of a start 0.2. */
  mostChangeShare: 0.2,
});

/** Tuning of how logged rates of rotation take tilt out of the acceleration. */
export const LEVEL_SETTINGS = Object.freeze({
  /** Hz; slower tilt is the gyro's own drift as much as the hull's, and below the band of strokes. */
  highPassHz: 0.07,
  /** s; longest step over which a rate of rotation is believed: across lost samples nobody knows it. */
  longestStepS: 0.2,
  /** rad; rms beyond which it is no hull that tilts: 0.2 is 11 degrees. */
  mostTiltRad: 0.2,
});

/** Tuning of how a sensor that was put back another way round is noticed. */
export const MOUNT_SETTINGS = Object.freeze({
  /** s; length of one look at where gravity points: two strokes or more. */
  lookS: 5,
  /** A look with fewer samples tells nothing. */
  leastSamples: 10,
  /** Samples of a look that are used, about: 20 a second. */
  mostSamples: 100,
  /** Looks on either side by which a mount is known, at most and at least: a minute, and 20 s. */
  sideLooks: 12,
  leastLooks: 4,
  /** Degrees; a hull heels and trims by less than 10 for long. */
  leastTurnDeg: 15,
  /** How loose either side may be, as a share of the turn between them: a body never sits still. */
  sidesShare: 0.2,
});

/** Tuning of how strokes that back a boat down are reported. */
export const BACKING_SETTINGS = Object.freeze({
  /** m/s; a boat that runs ahead is faster, one that backs slower: crews back at 0.5 to 1.5. */
  aheadMps: 2,
  mostMps: 1.8,
  /** m/s; slower than this nobody knows which way it moves. */
  leastMps: 0.25,
  /** s; how far before and after a stroke the boat's way ahead is looked for. */
  reachS: 90,
  /** Degrees between the way astern and the way ahead, at least. */
  leastAngleDeg: 120,
});

/** Tuning of how a logged cadence is held against strokes that the signal shows. */
export const COUNT_SETTINGS = Object.freeze({
  /** s; a count farther off says nothing of a stroke: watches log every second or so. */
  awayS: 2,
  /** Strokes common to both before one counts for the other. */
  leastCommon: 20,
  /** Greatest logarithm of their ratio over 1 or 2: within a fifth. */
  agreement: 0.2,
});

/** Tuning of the choice among sources. */
export const SOURCE_SETTINGS = Object.freeze({
  /** Samples a stroke that a speed channel needs at the craft's highest rate. */
  samplesPerStroke: 4,
  /** s; a shorter stretch without the best source is left to it. */
  leastFallbackS: 10,
  /** Sampling intervals by which a slow speed shows the catch too early: it smears the slow way in and the quick way out. */
  speedEarly: 0.19,
  /** Sampling intervals by which it shows a first movement from rest too late. */
  speedLate: 0.7,
  /** Another family than rowing is guessed only where it tells the log better by this factor. */
  guessMargin: 1.15,
  /** Hz; up to this share of the sampling rate a logged speed is believed. */
  speedBandShare: 0.4,
});

/** Tuning of how chop is predicted from another axis and taken out. */
export const CHOP_SETTINGS = Object.freeze({
  /** Blocks of 31 s over which one filter fades out and the next one in: each is learnt over twice as many, 4 min. */
  fadeBlocks: 4,
  /** Fewer windows than this predict nothing. */
  leastWindows: 6,
  /** Coherence that as many windows show by chance is 1 / windows; this many times that counts as none. */
  coherenceFloor: 3,
  /** Surge for each heave that waves make, at most: in deep water each is the other's equal, and the slope's share of gravity again (linear wave theory). */
  mostGain: 3,
});

/** Tuning of catch marks. */
export const MARK_SETTINGS = Object.freeze({
  /** Hz; bandwidth of the catch mark and of the catch deceleration, by definition. */
  bandHz: 5,
  /** s; how far from its match the mark of a stroke may lie. */
  reachS: 0.12,
  /** s; half the span over which the noise around a mark is judged. */
  noiseHalfS: 8,
  /** s; how much the catch moves against the rest of its stroke in a steady crew. */
  shapeSdS: 0.012,
  /** A minimum farther off than so many sd is another one. */
  outlierSds: 3,
  /** s; a first stroke after a gap this long may be one from rest. */
  restS: 9,
  /** s; the noise of a rest is judged over twice this or more. */
  restNoiseS: 2.5,
  /** By definition: sd of noise that the first surge stands out by, for this long (a zero between is let pass). */
  standSds: 5,
  standS: 0.3,
  standShare: 0.66,
  /** s; length of the rise that tells how fast a movement sets in, and how far back it is followed at most. */
  riseS: 0.12,
  mostBackS: 0.3,
  /** The same as a share of the first interval: a paddle's rise is quicker than a crew's. */
  backShare: 0.15,
  /** m/s²; a limit no higher than this is that of a calm rest, and nothing is followed back. */
  calmMps2: 0.25,
  /** Depth of the check at a stroke, as a share of the next one's, from which none was missed before it. */
  wholeCheck: 0.8,
  /** Depth of the check at a first catch, as a share of the next one's, beyond which the boat was still running. */
  runningCheck: 0.55,
  /** Shares of the next interval within which a first movement is the first stroke's own, or a stroke that was missed. */
  ownShare: 0.45,
  missedShare: 1.6,
});
