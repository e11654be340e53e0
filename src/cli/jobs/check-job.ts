import type { Readable } from 'node:stream';
import { type CheckedCommand, checkLog, commandsOf, type LogResults } from '../../checks/index.js';
import type { CheckRow } from '../../contract/check.js';
import { settle } from '../../contract/decimals.js';
import type { WarningRow } from '../../contract/envelope.js';
import type { Rule } from '../../contract/rules.js';
import { inspectResultOf, type Outing, strokesResultOf } from '../../outing/index.js';
import { outingResultOf, piecesResultOf } from '../../pieces/index.js';
import type { LogFault } from '../../recording/index.js';
import { type LogOptions, openLog } from '../open-log.js';

/** What `thole check` is asked of each log. */
export interface CheckOptions extends LogOptions {
  readonly rules: readonly Rule[];
}

/** What the rules say of one log. */
export interface CheckAnswer {
  readonly files: readonly string[];
  readonly warnings: readonly WarningRow[];
  readonly results: readonly CheckRow[];
}

const RESULTS: Readonly<Record<CheckedCommand, (outing: Outing) => object>> = {
  inspect: inspectResultOf,
  outing: outingResultOf,
  strokes: strokesResultOf,
  pieces: (outing) => piecesResultOf(outing, { kind: 'unaided' }),
};

/** Check one log against the rules that are for it. */
export const checkJob = async (
  file: string,
  { rules, ...options }: CheckOptions,
  stdin: Readable,
): Promise<CheckAnswer | LogFault> => {
  const outing = await openLog(file, options, stdin);
  if ('fault' in outing) return outing;
  const results: LogResults = Object.fromEntries(
    commandsOf(rules).map((command) => [command, settle(RESULTS[command](outing))]),
  );
  return { files: outing.files, warnings: outing.warnings, results: checkLog(rules, file, results) };
};
