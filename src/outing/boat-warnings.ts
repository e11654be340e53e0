import type { BoatFile } from '../contract/boat.js';
import type { WarningCode } from '../contract/severity.js';
import type { Track } from '../motion/track.js';
import type { Warning } from '../recording/index.js';
import { gaugeStrokes, type StrokeSeries, type StrokeSignal } from '../strokes/index.js';

/** When an outing is said to differ from what was gauged. */
export const BOAT_WARNING_SETTINGS = Object.freeze({
  /** Times the gauged noise; 1.5 to 3: chop of one afternoon varies by as much as that. */
  rougher: 2,
  /** Share of the gauged strength; 0.3 to 0.5: at half the rate the same crew's surge is a third or so. */
  weaker: 0.3,
  /** Share of the strokes beyond the usable rates, and how many at least; a start alone is not worth a word. */
  beyondShare: 0.02,
  beyondCount: 5,
});

const two = (value: number): string => value.toFixed(2);

const signalLines = (boat: BoatFile, signal: StrokeSignal, track: Track | null): [WarningCode, string][] => {
  const { noiseSquare, strengthSquare } = gaugeStrokes(signal, track);
  const lines: [WarningCode, string][] = [];
  const { noise_mps2: gauged, stroke_strength_mps2: strong } = boat;
  if (
    gauged !== undefined &&
    noiseSquare !== null &&
    Math.sqrt(noiseSquare) > BOAT_WARNING_SETTINGS.rougher * gauged
  )
    lines.push([
      'rougher-than-gauged',
      `At rest the boat moves more than when it was gauged (${two(Math.sqrt(noiseSquare))} against ${two(gauged)} m/s²): the usable rates of the boat file do not hold here.`,
    ]);
  if (
    strong !== undefined &&
    strengthSquare !== null &&
    Math.sqrt(strengthSquare) < BOAT_WARNING_SETTINGS.weaker * strong
  )
    lines.push([
      'weaker-than-gauged',
      `What was found is far weaker than the gauged strokes (${two(Math.sqrt(strengthSquare))} against ${two(strong)} m/s²): it may be waves, another boat, or another place of the logger.`,
    ]);
  return lines;
};

/** What an outing shows that does not fit what its boat file says of noise, strokes and usable rates. */
export const boatWarnings = (
  boat: BoatFile,
  series: StrokeSeries,
  track: Track | null,
  file: string,
): Warning[] => {
  const signal = series.signals.find(({ source }) => source === 'imu');
  const lines = signal === undefined ? [] : signalLines(boat, signal, track);
  const { rate_from_spm: low = 0, rate_to_spm: high = Number.POSITIVE_INFINITY } = boat;
  const rates = series.strokes.flatMap(({ source, rateSpm }) =>
    source === 'imu' && rateSpm !== null ? [rateSpm] : [],
  );
  const beyond = rates.filter((rate) => rate < low || rate > high).length;
  const { beyondShare, beyondCount } = BOAT_WARNING_SETTINGS;
  if (beyond >= beyondCount && beyond > beyondShare * rates.length)
    lines.push([
      'rate-not-usable',
      `${beyond} of ${rates.length} strokes are outside the rates that the boat file calls usable (${boat.rate_from_spm ?? 'any'} to ${boat.rate_to_spm ?? 'any'} spm): do not build on those.`,
    ]);
  return lines.map(([code, message]) => ({ code, file, where: null, message }));
};
