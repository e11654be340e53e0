import type { InspectResult } from '../../contract/inspect.js';
import { merged } from '../../contract/merged.js';
import { inspectView } from '../../report/inspect.js';
import { batched } from '../batch.js';
import { command } from '../command.js';
import { BATCH, ON_LOGS } from '../shared-flags.js';

export const inspect = command({
  name: 'inspect',
  summary: 'what each log holds and how far to trust it',
  operands: ['<FILE...>'],
  flags: { ...ON_LOGS, ...BATCH },
  about:
    'What each log is good for and why, then what it holds: channels, rates, gaps, clock, extent, noise, and where the logger sat. No positions are shown, so a report can be passed on. It reads an IMU log beside a track with it. Of a long log it looks at parts and says which; before it says no, it looks at the whole log.',
  examples: [
    { line: 'thole inspect samples/outing/outing.gpx', does: 'judge a track and its IMU log' },
    {
      line: 'thole inspect samples/*/*.gpx --format csv --out logs.csv',
      does: 'write one line a log for a spreadsheet',
    },
  ],
  run: async (session, options, files) => {
    const [first, ...rest] = await batched<InspectResult>(session, 'inspect', files, options);
    if (first === undefined) return;
    const { club } = options;
    const defaults = (club?.taken ?? []).map((row) => ({ file: club!.file, ...row }));
    await session.report(inspectView, { ...merged(first, rest), defaults }, options);
  },
});
