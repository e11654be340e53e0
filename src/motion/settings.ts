/** Everything about motion that was chosen and not derived. */
export const MOTION_SETTINGS = Object.freeze({
  /** sd of the wandering position error where nothing is known, m, each axis; open sky 1 to 3. */
  defaultPositionSdM: 2,
  /** Its correlation time, s; receivers show 30 to 200. */
  defaultCorrelationS: 60,
  /** Least white position noise, m, each axis: digits, and the hull's own roll. */
  leastWhiteSdM: 0.02,
  /** Least noise of a logged speed, m/s (receivers state 0.03 to 0.1). */
  leastSpeedSdMps: 0.03,
  /** Gaps between fixes up to this are bridged, s; 20 to 60: a crew under a bridge keeps its course that long. */
  longestBridgeS: 40,
  /** From this on it is said that they are, s: shorter ones add nothing to be seen to an sd. */
  saidBridgeS: 10,
  /** They are stepped through in steps of about this, s, so that the path bends with the course. */
  bridgeStepS: 1,
  /** sd of the way in which a bridged path may be longer or shorter than the smoothed one, as a share of it; 0.5 to
   * 2 %: an arc of 30° is 1 % longer than its chord. */
  bridgeShare: 0.01,
  /** sd of the acceleration by which the mean speed differs from the last one within a stroke, m/s². */
  bridgeStrokeMps2: 0.5,
  /** Position and speed within this are one instant, s. */
  sameInstantS: 0.002,
  /** No hull is faster than this over ground, m/s; a fix that asks for more is an outlier. */
  fastestMps: 12,
  /** A fix this far from the median of its neighbours is an outlier, m, or in white sd. */
  outlierM: 6,
  outlierSds: 8,
  /** Innovation, in its own sd, squared and over two axes, above which a fix is left out: 1e-7 by chance. */
  gate: 32,
  /** A speed this many sd off the prediction is left out. */
  speedGateSds: 7,
  /** After so long without an accepted fix the receiver is believed to have jumped, s. */
  jumpAfterS: 4,
  /** Logged speed at this rate or above shows the inside of a stroke, Hz: four samples at 60 spm. */
  fineSpeedHz: 4,
  /** Surge inside the stroke, where the speed shows it: sd m/s² and correlation s. */
  strokeAccelerationMps2: 1.8,
  strokeCorrelationS: 0.25,
  /** Where that does not show: sd of the hull's place about the stroke's mean, m (0.5 m/s at 0.4 Hz). */
  surgePathM: 0.15,
  /** Acceleration of the stroke's mean, where the inside of a stroke does not show. */
  meanAccelerationMps2: 0.15,
  meanCorrelationS: 3,
  /** What a start or a stop adds to it, in the change of speed that straight lines see. */
  gainShare: 3,
  /** sd of a logged speed at rest / of its error on each axis: the length of two normal errors (Rayleigh's law). */
  restNoiseShare: 0.655,
  /** Below so many of its sd a logged speed is noise in part. */
  foldedSds: 4,
  /** A slow boat's logged speed counts from so many of its sd on. */
  trustedSpeedSds: 2.5,
  /** Below, it says how fast the boat is to this sd, m/s, once in so many seconds. */
  restSpeedSdMps: 0.05,
  restSpeedS: 12,
  /** White acceleration across the course, m²/s³: a hull steers 2° within 10 s. */
  steerMps2: 0.001,
  /** Share of the square of centripetal acceleration that the course may be wrong by, s. */
  turnS: 1,
  /** Above this a boat is at way, m/s. */
  movingMps: 1.5,
  /** Below this a boat does not row: slow process, logged speed not believed, m/s. */
  slowMps: 0.4,
  /** Slowness must hold this long to either side, s. */
  slowMarginS: 3,
  /** White acceleration when adrift, m²/s³, and what each (m/s)² of speed adds: a boat that runs out. */
  driftMps2: 2e-4,
  driftPerSquare: 0.05,
  driftCorrelationS: 10,
  /** Window of the course when slow, s. */
  slowWindowS: 60,
  /** Shortest and longest window of the course when moving, s. */
  courseWindowS: [4, 20] as const,
  /** Wanted noise of the slope that gives the course, m/s. */
  courseNoiseMps: 0.1,
  /** Shortest stretch that is called stationary, s. */
  leastStillS: 20,
  /** A still stretch begins where the smoothed speed falls below this, m/s, and ends alike. */
  stillMps: 0.05,
  /** PathSteps that the beginning of a still stretch may hide, sd: m, a boat creeps before it stops, and shares of the
   * wandering and of the white error, in which the creeping is lost. */
  hiddenPathM: 0.2,
  hiddenWanderShare: 0.35,
  hiddenWhiteShare: 0.6,
  /** Net way of a still stretch may be this many sd of the position error. */
  stillSds: 3,
  /** Chords that a drift is measured by are at least this long, m. */
  leastChordM: 1,
  /** Share of the white position variance left in the smoothed place of a slow boat. */
  calmWhiteShare: 0.1,
  /** Nor may any point of it lie farther from its middle, in the same sd. */
  stillExtentSds: 4.5,
  /** No heading below this speed, m/s. */
  headingMps: 0.3,
  /** Logged speed and positions must agree within this share, or the speed is left out. */
  speedAgreement: 0.06,
  /** Windows in which they are compared, s, and the least way in one, in sd of the position error. */
  agreementWindowS: 10,
  agreementPathSds: 8,
  /** Fewer fixes than this make no track. */
  fewestFixes: 5,
  /** Standard deviations of a normal law in its median absolute deviation. */
  madToSd: 1.4826,
});
