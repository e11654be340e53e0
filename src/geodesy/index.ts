export { type Course, type CourseLine, finishOf, startOf } from './course/course.js';
export { alongCourse, lineAlong } from './course/course-axis.js';
export { straightCourse } from './course/straight-course.js';
export { destination, type Ellipsoid, type Geodesic, geodesicBetween } from './geodesic.js';
export { crossingTime, type LineOffset, type WaterLine, waterLine } from './line-crossing.js';
export { type MetresPerDegree, metresPerDegree } from './metres-per-degree.js';
export type { Place } from './place.js';
export { type Foot, type Polyline, polylineThrough } from './polyline.js';
export { bearingOf, placeAfter, type Step, stepBetween } from './step.js';
