import { settle } from '../../contract/decimals.js';
import { type GaugePart, gaugedBoat, gaugeResultOf } from '../../outing/index.js';
import { gaugeView } from '../../report/gauge.js';
import { jsonText } from '../../report/json-text.js';
import { batched } from '../batch.js';
import { boatIn } from '../boat-text.js';
import { command } from '../command.js';
import { BATCH, ON_LOGS } from '../shared-flags.js';

export const gauge = command({
  name: 'gauge',
  summary: 'measure noise and stroke strength, write a boat file',
  operands: ['<FILE...>'],
  flags: { ...ON_LOGS, ...BATCH },
  completes: ['boat'],
  about:
    'From two minutes or more of light strokes and a minute of rest, on the water and with the mount that you will use: how rough the signal is at rest, how strong the strokes, and at which rates they are found in it. Several logs must be of one boat and one mount. With --out NAME.json it writes a boat file to use with --boat; --boat OLD completes an older one. A moving boat meets waves faster than one at rest, so go both into them and with them.',
  examples: [
    { line: 'thole gauge samples/outing/outing.gpx', does: 'see whether this logger can be trusted' },
    {
      line: 'thole gauge samples/outing/outing.gpx --out boat.json',
      does: 'keep what was measured in a boat file',
    },
  ],
  run: async (session, options, files) => {
    const drawn = options.format === 'html';
    const parts = await batched<GaugePart>(session, 'gauge', files, { ...options, drawn });
    if (parts.length === 0) return;
    const result = gaugeResultOf(parts, drawn);
    const kept = options.format === 'table' && options.out?.endsWith('.json') === true;
    await session.report(gaugeView, result, { ...options, out: kept ? null : options.out });
    if (!kept) return;
    const boat = options.boat === null ? null : await boatIn(options.boat);
    await session.emit(jsonText(settle(gaugedBoat(result.gauge, parts, boat))), options);
  },
});
