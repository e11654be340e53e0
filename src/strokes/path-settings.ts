/** Tuning of the sequence of strokes: how intervals and heights follow one another. */
export const PATH_SETTINGS = Object.freeze({
  /** Step of the tempo, as a logarithm of the interval: 4 %. Half of it is below the scatter of the intervals. */
  tempoStep: 0.04,
  /** Scatter of one interval about the tempo, as a logarithm: crews vary 1 to 3 %, and noise moves a match by 30 ms. */
  intervalSd: 0.045,
  /** sd beyond which an interval belongs to another tempo. */
  mostSds: 3,
  /** Cost of a tempo one step faster or slower than at the stroke before: one stroke in five drifts so far. */
  driftCost: 1.6,
  /** Cost of any other tempo: starts, pauses and stops change it at will. */
  jumpCost: 5,
  /** The same within the first strokes after a rest, which are longer than those that follow: so many, and the cost. */
  startStrokes: 4,
  startJumpCost: 2,
  /** Cost of beginning to row: a lone peak has to stand well out. */
  beginCost: 6,
  /** Cost of a stroke: among several candidates near its place noise makes one of them stand higher. */
  strokeCost: 0.3,
  /** Spread of a stroke's height from one to the next, as a logarithm: 35 %. */
  heightSd: 0.35,
  /** Greatest cost of a change of height: starts and stops change it at will. */
  mostHeightCost: 1,
});
