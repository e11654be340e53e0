import type { AverageResult } from '../../contract/average.js';
import type { StrokesResult } from '../../contract/strokes.js';
import { comparedAverage } from '../../outing/index.js';
import { averageView } from '../../report/average.js';
import { comparedAverageView } from '../../report/compared-average.js';
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
    with: valueFlag(
      'OLD',
      'with --average: over the average stroke of another day or crew, by its log',
      (text) => text,
    ),
    bands: valueFlag('LIST', 'bounds of the rate bands of --average, spm, as 18,22,26,30,34', readRisingList),
  },
  about:
    'A stroke runs from catch mark to catch mark. Its row has rate, speed and distance and, where the logger was fixed to the hull, how speed changes within the stroke. The last stroke before a stop has no rate. --average takes steady strokes only and stretches each to one cycle; --with shows where two logs differ by more than their spread. In CSV of --average each line is one point of the cycle in one band.',
  examples: [
    {
      line: 'thole strokes samples/outing/outing.gpx --format csv --out strokes.csv',
      does: 'write one line a stroke for a spreadsheet',
    },
    {
      line: 'thole strokes samples/outing/outing.gpx --average',
      does: "see the crew's average stroke in each rate band",
    },
    {
      line: 'thole strokes today.gpx --average --with last-week.gpx',
      does: 'lay the average strokes of two logs over each other',
    },
  ],
  run: async (session, options, [file]) => {
    if (options.bands !== null && !options.average)
      throw new UserError('--bands goes with --average here: thole outing has a table of rate bands');
    if (options.with !== null && !options.average)
      throw new UserError('--with goes with --average here: thole pieces has --with for pieces');
    if (options.with === file) throw new UserError(`--with ${file} is the log itself: name another log`);
    const bands = options.bands ?? options.club?.bands ?? null;
    const asked = { ...options, bands, jobs: null };
    const [result] = await batched<AverageResult | StrokesResult>(session, 'strokes', [file!], asked);
    if (result === undefined) return;
    if ('bands' in result && options.with !== null) {
      const other = { ...asked, imu: null, join: null, imuStart: null, stream: null };
      const [then] = await batched<AverageResult>(session, 'strokes', [options.with], other);
      if (then !== undefined)
        await session.report(comparedAverageView, comparedAverage(result, then), options);
    } else if ('bands' in result) await session.report(averageView, result, options);
    else await session.report(strokesView, result, options);
  },
});
