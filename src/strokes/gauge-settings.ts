/** Tuning of the gauge: what is rest, what is enough, and how usable rates are tried. */
export const GAUGE_SETTINGS = Object.freeze({
  /** Share of the usual rowing speed below which the boat rests; 0.2 to 0.4: a boat runs on for 10 s or so. */
  restShare: 0.3,
  /** s; cut off a rest before the boat moves again and after it slowed down: first and last strokes are slow. */
  beforeMoveS: 6,
  afterMoveS: 2,
  /** s; without a track, so long after one stroke and before the next is no rest yet; a slow stroke takes 6. */
  fromStrokeS: 7,
  /** s; a shorter rest is left out, and less rest in all says nothing of waves (some 10 of them). */
  leastStretchS: 8,
  leastRestS: 20,
  /** s; windows of the noise, and how many times the median power one may have: a knock is not noise. */
  windowS: 5,
  mostPower: 6,
  /** Steady strokes without which nothing is said of their strength. */
  leastStrokes: 20,
  /** Points of a cycle: 128 hold its harmonics up to 12 Hz at 10 spm. */
  cyclePoints: 128,
  /** Strokes in trains found in a minute in which the boat lay still, beyond which strokes cannot be distinguished from waves. */
  mostFalsePerMin: 1.5,
  /** F1 from which a rate is usable: the least that the project asks of itself in chop. */
  leastF1: 0.97,
  /** Rates tried over the craft's range; more add time only. */
  rates: 7,
  /** s; rest before and after the strokes of a trial, and how long they are rowed, at least and at most. */
  trialRestS: 15,
  trialLeastS: 60,
  trialMostS: 120,
  trialStrokes: 34,
  /** s; over which two stretches of rest are blended into one another. */
  blendS: 1,
  /** Estimate of interval and size among the strokes of a trial, either way; good crews vary 2 to 3 % and 5 to 10 %. */
  intervalDispersion: 0.04,
  sizeDispersion: 0.12,
  /** Strokes stand at least so many times out of the noise, rms over rms, or what was averaged may be waves. */
  leastRatio: 1,
});
