import type { RegattaResult } from '../contract/regatta.js';
import type { Course } from '../geodesy/index.js';
import type { Target } from '../outing/index.js';
import type { Warning } from '../recording/index.js';
import { eventResults } from './event-results.js';
import { gapsAgainst, gapsToWinner } from './gaps.js';
import { courseRowOf } from './result-rows.js';
import type { StartPlan } from './starts.js';
import type { CrewCase } from './timed-crew.js';

/** How a regatta is to be worked out. */
export interface RegattaAsk extends StartPlan {
  readonly targets: readonly Target[];
  /** The crew that the others are compared with; null for none. */
  readonly against: string | null;
  /** Whether pictures are drawn: gaps to the winner of each event besides. */
  readonly drawn?: boolean;
}

/** Events in the order in which the entry list names them. */
const eventsOf = (crews: readonly CrewCase[]): CrewCase[][] => {
  const events = new Map<string, CrewCase[]>();
  for (const crew of crews) {
    const event = events.get(crew.entry.event) ?? [];
    events.set(crew.entry.event, [...event, crew]);
  }
  return [...events.values()];
};

/**
 * Results of a whole regatta or head race.
 * @param crews the entry list in its order, with what each log gave
 * @param said what was said while the logs were read
 * @throws UserError where the entries give a start after the finish, or no crew is called what was asked for
 */
export const regattaResults = (
  crews: readonly CrewCase[],
  course: Course,
  ask: RegattaAsk,
  said: readonly Warning[],
): RegattaResult => {
  const events = eventsOf(crews).map((event) => eventResults(event, course, ask, ask.targets));
  const models = new Map(
    crews.flatMap(({ file, log }) =>
      log === null || file === null ? [] : [[file, log.errorModel] as const],
    ),
  );
  return {
    schema: 'thole/regatta/1',
    files: [...models.keys()],
    warnings: [...said, ...events.flatMap(({ warnings }) => warnings)],
    course: courseRowOf(course),
    error_model: [...models].map(([file, model]) => ({
      file,
      position_sd_m: model.positionSdM,
      correlation_s: model.correlationS,
      white_sd_m: model.whiteSdM,
      speed_sd_mps: model.speedSdMps,
      speed_wander_sd_mps: model.speedWander?.sdMps ?? null,
      speed_wander_s: model.speedWander?.correlationS ?? null,
      source: model.source,
    })),
    results: events.flatMap(({ rows }) => rows),
    gaps:
      ask.against === null
        ? []
        : gapsAgainst(
            events.map((event) => event.crews),
            ask.against,
          ),
    ...(ask.drawn === true && ask.against === null
      ? { drawn_gaps: events.flatMap(({ crews }) => gapsToWinner(crews)) }
      : {}),
  };
};
