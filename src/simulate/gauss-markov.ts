import type { Random } from './random.js';

/**
 * A wandering error: first-order Gauss-Markov, correlation exp(-Δt/τ) (Gelb 1974, Applied Optimal Estimation,
 * section 3.8), exact for any step.
 * @param sd of the error at any time
 * @param correlationS τ, s
 * @returns next(stepS): its value `stepS` seconds after the last
 */
export const gaussMarkov = (
  random: Random,
  sd: number,
  correlationS: number,
): ((stepS: number) => number) => {
  let state = sd * random.normal();
  let [lastStepS, keep, fresh] = [0, 1, 0];
  return (stepS) => {
    if (stepS !== lastStepS) {
      lastStepS = stepS;
      keep = Math.exp(-stepS / correlationS);
      fresh = sd * Math.sqrt(1 - keep * keep);
    }
    state = keep * state + fresh * random.normal();
    return state;
  };
};
