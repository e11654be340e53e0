import type { WarningCode } from '../contract/severity.js';
/** Something that a reader of the result has to know: what was doubtful, mended or left out, and where. */
export interface Warning {
  /** Short, stable, lower-case words joined by hyphens, for scripts. */
  readonly code: WarningCode;
  /** The log, or null where it is not about one log. */
  readonly file: string | null;
  /** The place in it: `line 12`, `byte 3400`, `at 61.2 s`; null where there is none. */
  readonly where: string | null;
  /** One sentence: what, what it means, what to do. */
  readonly message: string;
}

/** Why a log could not be read at all. Same four parts as a warning; the rest of the batch goes on. */
export interface LogFault extends Warning {
  readonly fault: true;
}

/** Why a log could not be read, as a value. */
export const logFault = (
  file: string,
  code: WarningCode,
  message: string,
  where: string | null = null,
): LogFault => ({ fault: true, code, file, where, message });
