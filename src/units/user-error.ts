/**
 * A mistake in what the user asked or wrote: wrong usage, or an entries, course, plan, rules, sheet or boat
 * file that is not valid. Printed on one line; the command ends with exit status 2 and has done nothing.
 */
export class UserError extends Error {
  override readonly name: string = 'UserError';
}

/**
 * What was asked does not fit one log, as a moment that is not in it. Where that log is alone it is the user's
 * mistake; among others it costs that log alone.
 */
export class LogMisfit extends UserError {
  override readonly name = 'LogMisfit';
}
