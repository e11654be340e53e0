import type * as z from 'zod';
import { UserError } from '../units/user-error.js';
import { type JsonPath, parseLocatedJson } from './located-json.js';
import { faultOf } from './schema-fault.js';
import { allowedKeys } from './schema-place.js';

/** A valid input file, and how to say that something in it is wrong after all. */
export interface InputFile<Value> {
  readonly value: Value;
  /** An error that names the file, the line and the key. */
  readonly errorAt: (path: JsonPath, what: string) => UserError;
}

/**
 * Read an input file in JSON: boat, scenario, plan, rules, course or columns.
 * @param name the file as messages name it
 * @throws UserError `NAME, line 12: key "rate" must be …, and … came`, also where it is not JSON
 */
export const parseInputFile = <Schema extends z.ZodType>(
  schema: Schema,
  source: string,
  name: string,
): InputFile<z.infer<Schema>> => {
  const json = parseLocatedJson(source, name);
  const errorAt = (path: JsonPath, what: string) =>
    new UserError(`${name}, line ${json.placeOf(path).line}: ${what}`);
  const checked = schema.safeParse(json.value);
  if (checked.success) return { value: checked.data, errorAt };
  const { issues } = checked.error;
  const ofShape = issues.filter(({ code }) => code !== 'custom');
  const faults = (ofShape.length > 0 ? ofShape : issues)
    .map((issue) => faultOf(issue, json.value, (path) => allowedKeys(schema, path)))
    .map((fault) => ({ ...fault, line: json.placeOf(fault.path).line }))
    .sort((a, b) => a.line - b.line);
  // a file of another kind has but one mistake
  const kind = faults.find(({ path }) => path.length === 1 && path[0] === 'schema');
  if (kind) throw errorAt(kind.path, kind.what);
  const more = faults.length - 1;
  throw errorAt(
    faults[0]!.path,
    `${faults[0]!.what}${more > 0 ? ` (and ${more} more ${more === 1 ? 'mistake' : 'mistakes'})` : ''}`,
  );
};
