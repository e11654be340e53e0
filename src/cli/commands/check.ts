import { checkResultOf, parseRules, SOUND_LOG } from '../../checks/index.js';
import { inputText } from '../../host/input-text.js';
import { checkView } from '../../report/check.js';
import { junitText } from '../../report/junit-text.js';
import { batched } from '../batch.js';
import { command } from '../command.js';
import { defaultChoiceFlag, valueFlag } from '../flag.js';
import type { CheckAnswer } from '../jobs/check-job.js';
import { BATCH, FORMATS, ON_LOGS } from '../shared-flags.js';

export const check = command({
  name: 'check',
  summary: 'pass or fail rules on stored logs',
  operands: ['<FILE...>'],
  flags: {
    rules: valueFlag(
      'FILE',
      'rules in JSON (thole schema rules); rules for a sound log unless told',
      (text) => text,
    ),
    ...ON_LOGS,
    format: defaultChoiceFlag('FORMAT', 'how to write the result', [...FORMATS, 'junit'] as const, 'table'),
    ...BATCH,
  },
  about:
    'A rule names a figure of inspect, outing, strokes or pieces and what it must be. A broken rule of severity error makes the exit status 1; one of severity warning is only said.',
  examples: [
    { line: 'thole check samples/watch/watch.gpx', does: 'check a log by the rules for a sound log' },
    {
      line: 'thole check --rules samples/season/rules.json --format junit samples/watch/watch.gpx',
      does: 'check a log by rules of one’s own, for CI',
    },
  ],
  run: async (session, options, files) => {
    const rules =
      options.rules === null
        ? SOUND_LOG
        : parseRules(await inputText(options.rules, 'rules file'), options.rules);
    const result = checkResultOf(await batched<CheckAnswer>(session, 'check', files, { ...options, rules }));
    if (result.summary.failed_count > 0) session.broken();
    const { format } = options;
    if (format === 'junit') await session.emit(junitText(result, session.unread()), options);
    else await session.report(checkView, result, { ...options, format });
  },
});
