import type { Readable } from 'node:stream';
import {
  checkFile,
  commandsOf,
  looksStored,
  parseStoredResult,
  type Results,
  type StoredResult,
} from '../../checks/index.js';
import type { CheckRow } from '../../contract/check.js';
import { settle } from '../../contract/decimals.js';
import type { WarningRow } from '../../contract/envelope.js';
import type { Rule } from '../../contract/rules.js';
import {
  gaugePartOf,
  gaugeResultOf,
  inspected,
  inspectResultOf,
  type JoinedOuting,
  type Outing,
  strokesResultOf,
  wholeOuting,
} from '../../outing/index.js';
import { curvePartOf, curveResultOf, outingResultOf, piecesResultOf } from '../../pieces/index.js';
import { type LogFault, logFault } from '../../recording/index.js';
import { joinSource } from '../join-log.js';
import type { LogOptions } from '../log-options.js';
import { logSource } from '../log-source.js';
import { possibleAnswer } from '../possible-answer.js';

/** What `thole check` is asked of each log. */
export interface CheckOptions extends LogOptions {
  readonly rules: readonly Rule[];
}

/** What the rules say of one log, or of one stored result. */
export interface CheckAnswer {
  readonly files: readonly string[];
  readonly warnings: readonly WarningRow[];
  readonly results: readonly CheckRow[];
  /** The commands whose figures could be had of it. */
  readonly commands: readonly string[];
}

/** The commands that a log alone is enough for. */
const OF_LOG: Readonly<Record<string, (outing: Outing) => object>> = {
  inspect: inspectResultOf,
  outing: outingResultOf,
  strokes: strokesResultOf,
  pieces: (outing) => piecesResultOf(outing, { kind: 'unaided' }),
  curve: (outing) => curveResultOf([curvePartOf(outing)]),
  gauge: (outing) => gaugeResultOf([gaugePartOf(outing)]),
};

/** What of a log is asked for: for `inspect` alone a glance at a long one is enough. */
const resultsOf = (joined: JoinedOuting, asked: readonly string[]) => {
  if (asked.every((command) => command === 'inspect')) {
    const result = inspected(joined);
    return { warnings: result.warnings, results: { inspect: result } };
  }
  const outing = wholeOuting(joined);
  return {
    warnings: outing.warnings,
    results: Object.fromEntries(asked.map((command) => [command, OF_LOG[command]!(outing)])),
  };
};

const ofLog = async (
  file: string,
  joined: JoinedOuting,
  rules: readonly Rule[],
): Promise<CheckAnswer | LogFault> => {
  const asked = new Set(rules.flatMap(commandsOf));
  const { warnings, results } = resultsOf(
    joined,
    Object.keys(OF_LOG).filter((command) => asked.has(command)),
  );
  const settled: Record<string, Results[string]> = {};
  for (const [command, result] of Object.entries(results)) {
    const possible = await possibleAnswer(file, result as Parameters<typeof possibleAnswer>[1]);
    if ('fault' in possible) return possible;
    settled[command] = settle(possible);
  }
  return {
    files: joined.files,
    warnings,
    results: checkFile(rules, file, settled),
    commands: Object.keys(OF_LOG),
  };
};

const ofStored = (file: string, stored: StoredResult, rules: readonly Rule[]): CheckAnswer | LogFault =>
  'why' in stored
    ? logFault(file, stored.code, stored.why)
    : {
        files: [file],
        warnings: [],
        results: stored.subjects.flatMap((subject) =>
          checkFile(rules, subject.file, subject.results, [subject.file, file]),
        ),
        commands: stored.subjects.flatMap(({ results }) => Object.keys(results)),
      };

/** Check one log, or one stored result, against the rules that are for it. */
export const checkJob = async (
  file: string,
  { rules, ...options }: CheckOptions,
  stdin: Readable,
): Promise<CheckAnswer | LogFault> => {
  const source = await logSource(file, options, stdin);
  if ('fault' in source) return source;
  const { bytes } = source.logs[0]!;
  if (looksStored(bytes))
    return ofStored(file, parseStoredResult(new TextDecoder().decode(bytes), file), rules);
  const joined = await joinSource(source, options);
  return 'fault' in joined ? joined : ofLog(file, joined, rules);
};
