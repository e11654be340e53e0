export { type Course, finishOf, startOf } from './course/course.js';
export { alongCourse, lineAlong } from './course/course-axis.js';
export { straightCourse } from './course/straight-course.js';
export { destination, geodesicBetween } from './geodesic.js';
export { crossingTime, waterLine } from './line-crossing.js';
export { metresPerDegree } from './metres-per-degree.js';
export type { Place } from './place.js';
export { polylineThrough } from './polyline.js';
export { bearingOf, placeAfter, type Step, stepBetween } from './step.js';
