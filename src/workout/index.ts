export { askedSteps } from './asked-step.js';
export { paceResultOf, paceSheet, type Steps } from './pace-result.js';
export { mergedWorkout, planResultOf, workoutResultOf } from './workout-result.js';
