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
import { inspectResultOf, type Outing, strokesResultOf } from '../../outing/index.js';
import { curvePartOf, curveResultOf, outingResultOf, piecesResultOf } from '../../pieces/index.js';
import { type LogFault, logFault } from '../../recording/index.js';
import { type LogOptions, logSource, openSource } from '../open-log.js';

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
};

const ofLog = (file: string, outing: Outing, rules: readonly Rule[]): CheckAnswer => {
  const asked = new Set(rules.flatMap(commandsOf));
  const results: Results = Object.fromEntries(
    Object.entries(OF_LOG)
      .filter(([command]) => asked.has(command))
      .map(([command, resultOf]) => [command, settle(resultOf(outing))]),
  );
  return {
    files: outing.files,
    warnings: outing.warnings,
    results: checkFile(rules, file, results),
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
  const outing = await openSource(source, options);
  return 'fault' in outing ? outing : ofLog(file, outing, rules);
};
