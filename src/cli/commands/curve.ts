import { type CurvePart, curveResultOf } from '../../pieces/index.js';
import { curveView } from '../../report/curve.js';
import { batched } from '../batch.js';
import { command } from '../command.js';
import { BATCH, ON_LOGS } from '../shared-flags.js';

export const curve = command({
  name: 'curve',
  summary: 'rate against speed: where more rate stops buying speed',
  operands: ['<FILE...>'],
  flags: { ...ON_LOGS, ...BATCH },
  about:
    'Takes the steady strokes of all logs and fits speed against rate. Speeds are over ground unless the stream is known. With --out NAME.json it writes the curve that thole pieces takes with --curve. A curve describes a crew on those days; it does not grade it.',
  examples: [
    {
      line: 'thole curve samples/*/*.gpx --craft 4x',
      does: 'see how speed follows rate over several outings',
    },
    { line: 'thole curve samples/outing/outing.gpx --out curve.json', does: 'keep the curve as a reference' },
  ],
  run: async (session, options, files) => {
    const parts = await batched<CurvePart>(session, 'curve', files, options);
    const kept = options.format === 'table' && options.out?.endsWith('.json') === true;
    if (parts.length > 0)
      await session.report(curveView, curveResultOf(parts, options.format === 'html'), {
        ...options,
        format: kept ? 'json' : options.format,
      });
  },
});
