import type { BoatFile } from '../contract/boat.js';
import type { Gauge } from '../contract/gauge.js';
import type { GaugePart } from './gauge-part.js';

const known = <Value>(key: string, value: Value | null): Record<string, Value> =>
  value === null ? {} : { [key]: value };

/**
 * A boat file with what was gauged. What was gauged goes before what an older boat file says of it; all else of
 * that file stays.
 * @param before the boat file that was given; null for none
 */
export const gaugedBoat = (gauge: Gauge, parts: readonly GaugePart[], before: BoatFile | null): BoatFile => {
  const error = parts.find(({ statedError }) => statedError !== null)?.statedError ?? null;
  const placement = parts.find((part) => part.placement !== 'unknown')?.placement ?? null;
  return {
    schema: 'thole/boat/1',
    ...known('craft', gauge.craft),
    ...known('placement', placement),
    ...(error === null ? {} : { position_sd_m: error.positionSdM, correlation_s: error.correlationS }),
    ...before,
    ...known('noise_mps2', gauge.noise_mps2),
    ...known('stroke_strength_mps2', gauge.stroke_strength_mps2),
    ...known('rate_from_spm', gauge.rate_from_spm),
    ...known('rate_to_spm', gauge.rate_to_spm),
    ...known('mount', gauge.mount),
  };
};
