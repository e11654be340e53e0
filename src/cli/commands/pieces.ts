import { merged } from '../../contract/merged.js';
import type { PiecesResult } from '../../contract/pieces.js';
import { piecesView } from '../../report/pieces.js';
import { batched } from '../batch.js';
import { command } from '../command.js';
import { readAlone } from '../flag.js';
import { PIECES } from '../piece-flags.js';
import { BATCH, ON_LOGS } from '../shared-flags.js';

export const pieces = command({
  name: 'pieces',
  summary: 'each piece, and its parts',
  operands: ['<FILE...>'],
  flags: { ...PIECES, ...ON_LOGS, ...BATCH },
  about:
    'Without being told it finds unbroken work between rests. A standing start is timed from first movement. The ± is one standard deviation.',
  examples: [
    {
      line: 'thole pieces samples/race/race.gpx --distance 2000 --parts 4',
      does: 'time every 2000 m in quarters',
    },
    {
      line: 'thole pieces samples/outing/outing.gpx --best 500,1000,4min',
      does: 'find the best stretches over these lengths',
    },
  ],
  run: async (session, options, files) => {
    readAlone(options, ['distance', 'time', 'laps', 'best'], ['from', 'to']);
    const [first, ...rest] = await batched<PiecesResult>(session, 'pieces', files, options);
    if (first !== undefined) await session.report(piecesView, merged(first, rest), options);
  },
});
