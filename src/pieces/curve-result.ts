import type { CurveResult } from '../contract/curve.js';
import type { WarningRow } from '../contract/envelope.js';
import type { WarningCode } from '../contract/severity.js';
import { type Outing, resultFrame } from '../outing/index.js';
import { curveOf } from './curve.js';
import { type CurveBlock, curveBlocks } from './curve-block.js';
import { drawnCurve } from './drawn-curve.js';

/** What one outing gives to a curve: plain data, so that outings can be worked on in parallel. */
export interface CurvePart extends Pick<CurveResult, 'files' | 'warnings' | 'error_model'> {
  readonly blocks: readonly CurveBlock[];
  readonly speedOver: 'ground' | 'water';
}

/** The steady blocks of one outing. */
export const curvePartOf = (outing: Outing): CurvePart => {
  const { files, warnings, error_model } = resultFrame(outing);
  return {
    files,
    warnings,
    error_model,
    blocks: curveBlocks(outing),
    speedOver: outing.stream === null ? 'ground' : 'water',
  };
};

/**
 * Rate against speed over outings, in time order.
 * @param drawn whether to give what pictures are drawn from besides
 */
export const curveResultOf = (parts: readonly CurvePart[], drawn = false): CurveResult => {
  const over = new Set(parts.map(({ speedOver }) => speedOver));
  const found = curveOf(
    parts.flatMap(({ blocks }) => blocks),
    over.size === 1 && over.has('water') ? 'water' : 'ground',
  );
  const warning = (code: WarningCode, message: string): WarningRow => ({
    code,
    file: null,
    where: null,
    message,
  });
  return {
    schema: 'thole/curve/1',
    files: parts.flatMap(({ files }) => files),
    warnings: [
      ...parts.flatMap(({ warnings }) => warnings),
      ...(over.size > 1
        ? [
            warning(
              'speeds-mixed',
              'The stream is known for some of the outings only, so the curve mixes speeds through the water with speeds over ground: put the stream of all of them on the outing sheet.',
            ),
          ]
        : []),
      ...('why' in found ? [warning('no-curve', found.why)] : []),
    ],
    error_model: parts.flatMap(({ error_model }) => error_model),
    curve: 'why' in found ? null : found,
    ...(drawn && !('why' in found)
      ? {
          drawn: drawnCurve(
            found,
            parts.flatMap(({ blocks }) => blocks),
          ),
        }
      : {}),
  };
};
