import * as z from 'zod';
import { UserError } from '../units/user-error.js';
import { SCHEMAS } from './schemas.js';

/** Every name that has a schema. */
export const SCHEMA_NAMES: readonly string[] = Object.keys(SCHEMAS).sort();

/**
 * JSON Schema 2020-12 of a result or an input file.
 * @throws UserError where there is no such name
 */
export const jsonSchema = (name: string): Record<string, unknown> => {
  if (!Object.hasOwn(SCHEMAS, name))
    throw new UserError(`there is no schema "${name}": choose one of ${SCHEMA_NAMES.join(', ')}`);
  return { title: `thole ${name}`, ...z.toJSONSchema(SCHEMAS[name]!, { target: 'draft-2020-12' }) };
};
