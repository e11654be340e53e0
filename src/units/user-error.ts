/**
 * A mistake in what the user asked or wrote: wrong usage, or an entries, course, plan, rules, sheet or boat
 * file that is not valid. Printed on one line; the command ends with exit status 2 and has done nothing.
 */
export class UserError extends Error {
  override readonly name = 'UserError';
}
