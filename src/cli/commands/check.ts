import { checkResultOf, idleRules, LOG_HEALTH_RULES, parseRules } from '../../checks/index.js';
import { inputText } from '../../host/input-text.js';
import { checkView } from '../../report/check.js';
import { junitText } from '../../report/junit-text.js';
import { checkAnswers } from '../check-answers.js';
import { command } from '../command.js';
import { defaultChoiceFlag, valueFlag } from '../flag.js';
import { BATCH, FORMATS, ON_LOGS } from '../shared-flags.js';

export const check = command({
  name: 'check',
  summary: 'pass or fail rules on logs and stored results',
  operands: ['<FILE...>'],
  flags: {
    rules: valueFlag(
      'FILE',
      'rules in JSON (thole schema rules); default: those for a sound log',
      (text) => text,
    ),
    ...ON_LOGS,
    format: defaultChoiceFlag('FORMAT', 'how to write the result', [...FORMATS, 'junit'] as const, 'table'),
    ...BATCH,
  },
  about:
    'A rule names a figure, as outing.distance_m, and what it must be. FILE is a log, a folder of logs, or the result of any command, stored with --format json --out. A log has the figures of inspect, outing, strokes, pieces, curve and gauge; a folder those of its logs and of its season; a stored result its own. A broken rule of severity error makes the exit status 1; one of severity warning is only reported.',
  examples: [
    { line: 'thole check samples/watch/watch.gpx', does: 'check a log by the rules for a sound log' },
    {
      line: 'thole check --rules rules.json --format junit logs/*.gpx',
      does: 'check logs by rules of your own, for CI',
    },
    {
      line: 'thole check --rules rules.json 2026-05',
      does: 'check every log below a folder, and its season',
    },
  ],
  run: async (session, options, files) => {
    const rules =
      options.rules === null
        ? LOG_HEALTH_RULES
        : parseRules(await inputText(options.rules, 'rules file'), options.rules);
    const answers = await checkAnswers(session, files, { ...options, rules });
    const expected = options.rules === null ? [] : rules;
    const result = checkResultOf(answers, expected);
    if (result.summary.failed_count > 0) session.broken();
    const { format } = options;
    if (format === 'junit') {
      await session.emit(junitText(result, session.unread(), idleRules(answers, expected)), options);
      session.warn(result.warnings);
    } else await session.report(checkView, result, { ...options, format });
  },
});
