import type { CourseSectionRow } from '../contract/outing.js';
import type { Course } from '../geodesy/index.js';
import { isoTimeOrNull } from '../units/instant.js';
import { splitOfSpeed } from '../units/speed.js';
import { coursePasses } from './course-passes.js';
import type { Outing } from './outing.js';
import { stretchOf } from './stretch.js';

/** Times between neighbouring lines of a course, one row each time that a boat went from one to the other. */
export const courseSections = (outing: Outing, course: Course): CourseSectionRow[] =>
  coursePasses(outing, course).flatMap(({ direction, passages }) =>
    passages.slice(1).map((to, i) => {
      const from = passages[i]!;
      const durationS = to.atS - from.atS;
      const speedMps = Math.abs(to.alongM - from.alongM) / durationS;
      const { startUnixS } = outing.recording;
      return {
        course_way: direction,
        from_along_m: from.alongM,
        to_along_m: to.alongM,
        start_time: isoTimeOrNull(startUnixS === null ? null : startUnixS + from.atS),
        duration_s: durationS,
        duration_sd_s: to.sinceLastSdS,
        speed_mps: speedMps,
        split_s_per_500m: splitOfSpeed(speedMps),
        rate_spm: stretchOf(outing, { fromS: from.atS, toS: to.atS }).rateSpm,
      };
    }),
  );
