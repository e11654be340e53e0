import { merged } from '../../contract/merged.js';
import type { PiecesResult } from '../../contract/pieces.js';
import { comparedPieces, togetherGaps, togetherRows } from '../../pieces/index.js';
import { piecesRowsView } from '../../report/pieces.js';
import { togetherView } from '../../report/pieces-together.js';
import { batched } from '../batch.js';
import { command } from '../command.js';
import { checkedCourse } from '../course-text.js';
import { curveOfFile } from '../curve-file.js';
import { readAlone } from '../flag.js';
import { otherDay } from '../other-day.js';
import { COMPARING, checkDetail, DETAIL, PIECES } from '../piece-flags.js';
import { BATCH, isMap, ON_A_MAP, ON_LOGS } from '../shared-flags.js';
import { targetsOf } from '../targets-file.js';

export const pieces = command({
  name: 'pieces',
  summary: 'each piece, and its parts',
  operands: ['<FILE...>'],
  flags: { ...PIECES, ...COMPARING, ...DETAIL, ...ON_LOGS, ...ON_A_MAP, ...BATCH },
  about:
    'Without options it finds unbroken work between rests. A standing start is timed from first movement. The ± is one standard deviation. In CSV a line is a part; its own figures have part_ before their name.',
  examples: [
    {
      line: 'thole pieces samples/outing/outing.gpx --time 2:00 --parts 4',
      does: 'time every piece of two minutes in quarters',
    },
    {
      line: 'thole pieces samples/outing/outing.gpx --best 500,1000,4min',
      does: 'find the best stretches over these lengths',
    },
    { line: 'thole pieces today.gpx --with last-week.gpx', does: 'see what changed since last time' },
    {
      line: 'thole pieces red.gpx blue.gpx --distance 2000 --together',
      does: 'compare two boats over the same water',
    },
  ],
  run: async (session, options, files) => {
    readAlone(options, ['distance', 'time', 'laps', 'best', 'course', 'straight'], []);
    checkDetail(options);
    const asked = {
      ...options,
      zone: options.tz ?? 'UTC',
      courseText: await checkedCourse(options),
      targetList: await targetsOf(options.targets),
      detail: {
        openingStrokes: options.opening,
        boundsSpm: options.bands,
        curve: await curveOfFile(options.curve),
        drawn: options.plot || options.format === 'html',
        positions: isMap(options.format),
      },
    };
    const then = options.with === null ? null : await otherDay(session, options.with, files, asked);
    const [first, ...rest] = await batched<PiecesResult>(session, 'pieces', files, asked);
    if (first === undefined) return;
    const now = merged(first, rest);
    const result = then === null ? now : comparedPieces(now, then, options.variation);
    if (!options.together) await session.report(piecesRowsView(options.rows), result, options);
    else {
      const together = togetherRows(result.pieces);
      const gaps = result.drawn === undefined ? {} : { drawn_gaps: [...togetherGaps(together, result)] };
      await session.report(togetherView, { ...result, together, ...gaps }, options);
    }
  },
});
