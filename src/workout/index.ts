export { askedSteps } from './asked-step.js';
export { paceResultOf, paceSheet, type Steps } from './pace-result.js';
export { parseSeatPlan } from './seat-plan.js';
export { seatsResultOf } from './seats-result.js';
export { mergedWorkout, planResultOf, workoutResultOf, workoutSummary } from './workout-result.js';
