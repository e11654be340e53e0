/** How two logs are laid on one another. */
export const ALIGN_SETTINGS = Object.freeze({
  /** Logs longer than this hold more than one outing, and gaps that would fill the memory, s. */
  longestS: 86_400,
  /** Values a second of the grid for the first search, and for single windows; Hz. */
  coarseHz: 5,
  fineHz: 20,
  /** Starts and stops are matched below this, Hz; 0.1 to 0.2: slower than strokes, so that none repeats. */
  slowHz: 0.15,
  /** Of the coarse grid every so many-th value is matched below `slowHz`: 1 Hz, three times what that needs. */
  slowEvery: 5,
  /** Strokes are matched below this, Hz; 1.5 to 2.5: what a 10 Hz speed carries above its noise. */
  strokeHz: 2,
  /** To each side of a start or stop, s; 10 to 20: getting under way, running out. */
  edgeS: 15,
  /** Starts, or stops, needed: an hour of steady rowing repeats itself every stroke. */
  fewestOfAKind: 2,
  /** Share of the starts and stops that must lie in both logs; 0.5 to 0.8. */
  commonShare: 0.6,
  /** Slow matches above this share of the best are tried with strokes too, and how many; 0.4 to 0.6, 8 to 20. */
  candidateShare: 0.5,
  mostCandidates: 12,
  /** A second-best match above this share of the best leaves the clocks unknown. */
  ambiguous: 0.8,
  /** A best match below this share of the movement is none; 0.2 to 0.4: other boats' logs reach 0.15. */
  leastMatch: 0.3,
  /** Matches closer than this are the same one, s: in slow movement, and in strokes (a third of one at 40 spm). */
  sameSlowS: 6,
  sameStrokeS: 0.5,
  /** Strokes are looked at this far to either side of the slow match, s; 3 to 6: two strokes. */
  strokeReachS: 5,
  /** Clocks drift no more than this, ppm; 300 to 500: crystals in the cold; and the step of the search. */
  mostDriftPpm: 500,
  driftStepPpm: 50,
  /** Length of the windows whose offsets make the line, s. */
  windowS: 60,
  /** A window is looked at this far from the line, s, at first and then; less than half a stroke. */
  windowReachS: 0.35,
  windowAgainS: 0.15,
  /** Windows needed for a drift; 4 to 8. */
  fewestWindows: 5,
  /** What single strokes leave in the offset whatever their number, s: measured on both simulators. */
  leastSdS: 0.01,
  /** sd of the offset of one start or stop in a track without strokes, s: the least that is stated. */
  slowSdS: 0.25,
});
