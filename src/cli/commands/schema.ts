import { jsonSchema, SCHEMA_NAMES } from '../../contract/json-schema.js';
import { schemaNames } from '../../report/schema.js';
import { command } from '../command.js';
import { WRITING } from '../shared-flags.js';

export const schema = command({
  name: 'schema',
  summary: 'JSON Schema of every file that goes in and every result that comes out',
  operands: ['[NAME]'],
  flags: { out: WRITING.out },
  about: 'Without a name it lists the names. The schemas are JSON Schema 2020-12.',
  examples: [{ line: 'thole schema pieces', does: 'print the schema of what thole pieces writes' }],
  run: (session, options, [name]) =>
    session.emit(
      name === undefined ? schemaNames(SCHEMA_NAMES) : `${JSON.stringify(jsonSchema(name), null, 2)}\n`,
      options,
    ),
});
