import { strokesResultOf } from '../../outing/index.js';
import { strokesView } from '../../report/strokes.js';
import { command } from '../command.js';
import { openLog } from '../open-log.js';
import { ON_LOGS } from '../shared-flags.js';

export const strokes = command({
  name: 'strokes',
  summary: 'one row for each stroke',
  operands: ['<FILE>'],
  flags: ON_LOGS,
  about:
    'Each stroke from catch mark to catch mark: rate, speed, distance, and within the stroke what a logger on the hull can tell. The last stroke before a stop has no rate.',
  examples: [
    {
      line: 'thole strokes samples/race/race.gpx --format csv --out strokes.csv',
      does: 'write one line a stroke for a spreadsheet',
    },
  ],
  run: async (session, options, [file]) => {
    const outing = await openLog(file!, options, session.streams.stdin);
    if ('fault' in outing) return session.fault(outing);
    await session.report(strokesView, strokesResultOf(outing), options);
  },
});
