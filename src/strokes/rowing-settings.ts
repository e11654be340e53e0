/**
 * Tuning of the judgement whether anybody rows. The weights are a logistic regression on 3,601 windows of ten
 * cycles, 2,277 of them rowed or paddled (eight craft, chop to 2 m/s², drills) and 1,324 not (swell, seas, wakes, tows,
 * trailers, boats carried), made by three simulators of other equations; each window's result is its logarithm of odds.
 */
export const ROWING_SETTINGS = Object.freeze({
  /** Cycles of one window, about: enough to tell what keeps its phase, few enough to find where rowing ends. */
  windowCycles: 10,
  /** s; strokes farther apart than this are single ones: what lies between them is no cycle (a pause drill at 18 takes 4.3). */
  longestCycleS: 4.8,
  /** Fewer cycles than this show nothing of their likeness. */
  leastCycles: 4,
  /** Cycles from which a window's figures count in full; below, in proportion. */
  wholeCycles: 8,
  /** Harmonics looked at: up to the band of the catch mark, Hz, at least and at most so many. */
  bandHz: 5,
  leastHarmonics: 3,
  mostHarmonics: 16,
  /** Points of one look, which is two cycles long: four a cycle of the highest harmonic. */
  points: 128,
  /** Log odds of an even chance of rowing, and for each unit of the figures (see `CycleFigures`), of the usual score of a stroke, and of steps. */
  base: -9.2,
  lockedShare: 3,
  lockedHarmonics: 8.9,
  intervalChange: -0.5,
  heaveShare: -0.55,
  score: 0.64,
  steps: -9,
  /** Bounds of the change of interval (ln of the ratio), and of the score, within which they tell. */
  intervalBounds: [0.006, 0.15] as const,
  scoreBounds: [1, 5.5] as const,
  /** Heave locked to the cycle, as a share of the surge: what a hull, or a rower's body, may show; and where it tells no more. */
  heaveBounds: [0.35, 3] as const,
  /** s; half a step, at 1.8 a second: what bends over so long to either side is at the rate of steps. */
  halfStepS: 0.28,
  /** Hz; how often it is looked at, at most: ten times a step and more. */
  stepLooksHz: 25,
  /** s; two to four steps: how much later one is held against those before, and how far beyond a window it is looked for. */
  stepLagsS: [1.3, 2.4] as const,
  stepMarginS: 2,
  /** Steadiness of the heave at the rate of steps from which it is a walk's (chop met by a kayak: up to 0.6), and bounds of its power over the surge's (a hull below 0.1; a walk 2). */
  steadyFrom: 0.45,
  stepBounds: [0.25, 4] as const,
  /** Log odds of one window are bounded: neighbouring windows are not independent. */
  mostEvidence: 5,
  /** Log odds of a short row of strokes: for each unit of their usual score beyond this (paddling and rowing: 4.5 to 6; what repeats at rest: 0 to 5), and bounds. */
  shortEven: 5.2,
  shortScore: 2.5,
  shortBounds: [-2, 2] as const,
  /** Chance that rowing begins or ends from one window to the next, and the time over which a rest forgets, s. */
  change: 0.005,
  forgetS: 60,
  /** A stretch less likely rowed than this is left out; one less likely than the second is named. */
  leastProbability: 0.5,
  sureProbability: 0.9,
  /** Stretches that are left out are named as one where no more than so many seconds lie between them. */
  nearS: 30,
});

/** Tuning of what a track says of rowing. */
export const WAY_SETTINGS = Object.freeze({
  /** m/s; slower than this a boat makes no way: a moored one swings, a drifting one goes faster. */
  stillMps: 0.25,
  /** sd of the speed within which it must be below that. */
  stillSds: 1,
  /** Log odds of a window without way: a crew may turn on the spot, hold water or begin from a stake-boat. */
  stillEvidence: -3,
  /** s; a boat that has lain still for so long is not being turned. */
  longStillS: 60,
  longStillEvidence: -12,
  /** s; strokes this near to the end of a still stretch may begin a start, and are not judged by it. */
  startS: 8,
  /** s; the way is looked at so far beyond the first and the last stroke. */
  marginS: 1,
  /** m/s; slower than this strokes are few: a turn, a start, backing; and slower than this a few of them make no way either: a boat adrift goes 0.1 to 0.5. */
  slowMps: 0.9,
  slowFewMps: 0.6,
  slowEvidence: -1.5,
  /** m/s; no crew drives a boat faster (an eight 6.3, with a stream); a trailer is. */
  fastestMps: 8,
  fastEvidence: -12,
  /** m/s; from here on a boat makes way as crews make it, tows and streams seldom. */
  wayMps: 1.6,
  wayEvidence: 1,
});

/** Tuning of what a boat file says of rowing. */
export const STRENGTH_SETTINGS = Object.freeze({
  /** Share of the boat's stroke strength that the lightest strokes show: half slide at low rate 0.3. */
  lightShare: 0.25,
  lightEvidence: -3,
});
