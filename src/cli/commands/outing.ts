import { merged } from '../../contract/merged.js';
import type { OutingResult } from '../../contract/outing.js';
import { outingView } from '../../report/outing.js';
import { batched } from '../batch.js';
import { command } from '../command.js';
import { checkedCourse } from '../course-text.js';
import { switchFlag } from '../flag.js';
import { COURSE } from '../regatta-flags.js';
import { BANDS, BATCH, isMap, ON_A_MAP, ON_LOGS } from '../shared-flags.js';

export const outing = command({
  name: 'outing',
  summary: 'one outing at a glance',
  operands: ['<FILE...>'],
  flags: {
    ...ON_LOGS,
    ...ON_A_MAP,
    ...BATCH,
    ...COURSE,
    noMap: switchFlag('leave the map out of a page, which then shows no positions'),
    ...BANDS,
  },
  about:
    'Distance, time, strokes, rate bands and best stretches. Several logs stand side by side, one line each. Rate is not intensity: a heavy boat at a low rate can be hard work.',
  examples: [
    { line: 'thole outing samples/outing/outing.gpx', does: 'sum up an outing and its IMU log' },
    {
      line: 'thole outing samples/*/*.gpx --format csv --out outings-summary.csv',
      does: 'write one line an outing for a spreadsheet',
    },
  ],
  run: async (session, options, files) => {
    const drawn = options.format === 'html' ? { places: !options.noMap } : null;
    const positions = isMap(options.format);
    const asked = { ...options, courseText: await checkedCourse(options), drawn, positions };
    const [first, ...rest] = await batched<OutingResult>(session, 'outing', files, asked);
    if (first !== undefined) await session.report(outingView, merged(first, rest), options);
  },
});
