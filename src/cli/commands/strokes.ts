import type { AverageResult } from '../../contract/average.js';
import type { StrokesResult } from '../../contract/strokes.js';
import { averageView } from '../../report/average.js';
import { strokesView } from '../../report/strokes.js';
import { UserError } from '../../units/user-error.js';
import { batched } from '../batch.js';
import { command } from '../command.js';
import { readRisingList, switchFlag, valueFlag } from '../flag.js';
import { ON_LOGS } from '../shared-flags.js';

export const strokes = command({
  name: 'strokes',
  summary: 'one row for each stroke',
  operands: ['<FILE>'],
  flags: {
    ...ON_LOGS,
    average: switchFlag(
      "the crew's average stroke instead: surge and hull speed over the cycle, by rate band",
    ),
    bands: valueFlag('LIST', 'bounds of the rate bands of --average, spm, as 20,24,28,32', readRisingList),
  },
  about:
    'Each stroke from catch mark to catch mark: rate, speed, distance, and within the stroke what a logger on the hull can tell. The last stroke before a stop has no rate. The average stroke is of steady strokes only, each brought to the length of one cycle; in CSV a line is one point of a band.',
  examples: [
    {
      line: 'thole strokes samples/race/race.gpx --format csv --out strokes.csv',
      does: 'write one line a stroke for a spreadsheet',
    },
    {
      line: 'thole strokes samples/outing/outing.gpx --average',
      does: "see the crew's average stroke in each rate band",
    },
  ],
  run: async (session, options, [file]) => {
    if (options.bands !== null && !options.average)
      throw new UserError('--bands goes with --average here: thole outing has a table of rate bands');
    const asked = { ...options, jobs: null };
    const [result] = await batched<AverageResult | StrokesResult>(session, 'strokes', [file!], asked);
    if (result === undefined) return;
    if ('bands' in result) await session.report(averageView, result, options);
    else await session.report(strokesView, result, options);
  },
});
