import { merged } from '../../contract/merged.js';
import type { PiecesResult } from '../../contract/pieces.js';
import { inputText } from '../../host/input-text.js';
import { seatsView } from '../../report/seats.js';
import { UserError } from '../../units/user-error.js';
import { parseSeatPlan, seatsResultOf } from '../../workout/index.js';
import { batched } from '../batch.js';
import { command } from '../command.js';
import { checkedCourse } from '../course-text.js';
import { readAlone } from '../flag.js';
import { PIECES, variationFlag } from '../piece-flags.js';
import { BATCH, ON_LOGS } from '../shared-flags.js';

const { distance, time, course, centreline, straight, laps } = PIECES;

export const seats = command({
  name: 'seats',
  summary: 'seat racing: what a swap was worth, and whether it shows',
  operands: ['<PLAN>', '<FILE...>'],
  flags: {
    distance,
    time,
    laps,
    course,
    centreline,
    straight,
    variation: variationFlag('how much one crew’s time varies from piece to piece, sd in percent; default 1'),
    ...ON_LOGS,
    ...BATCH,
  },
  about:
    'PLAN is CSV with a line for each boat in each piece: piece, boat, the seats (bow, 2, 3, stroke, cox …) with names and, if you like, order, wind_mps and file (the log of a boat, where it has another name). The command finds by the clock the pieces that the boats did side by side, and takes them in the order of the plan. A swap there and back (A-B-A) removes a drift from piece to piece. Each swap has its own line; people are not ranked.',
  examples: [
    {
      line: 'thole seats plan.csv red.gpx blue.gpx --time 3:00',
      does: 'see what each swap was worth in pieces of three minutes',
    },
  ],
  run: async (session, options, [path, ...files]) => {
    readAlone(options, ['distance', 'time', 'laps', 'course', 'straight'], []);
    if (files.length < 2) throw new UserError('name the logs of two boats at least after the plan');
    const plan = parseSeatPlan(await inputText(path!, 'plan'), path!);
    const asked = {
      ...options,
      from: null,
      to: null,
      best: null,
      parts: 1,
      by: 'distance',
      every: null,
      courseText: await checkedCourse(options),
    };
    const [first, ...rest] = await batched<PiecesResult>(session, 'pieces', files, asked);
    // A boat alone has no margin; that its neighbour's log could not be read is said.
    if (first === undefined || rest.length === 0) return;
    const pieces = merged(first, rest);
    await session.report(seatsView, seatsResultOf(plan, { files, pieces }, options.variation), options);
  },
});
