import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import { afterAll, describe, expect, it } from 'vitest';
import { jsonSchema, SCHEMA_NAMES } from '../../src/contract/json-schema.js';
import { openShell } from '../tooling/shell-line.js';

/**
 * Whole commands. Each folder holds `cmd`, a shell line run at the top of the project, and what it must give:
 * `expected-stdout`, `expected-stderr`, `expected-status`. `npm run bless` writes what it gives now; read the
 * difference before you commit it.
 */
const CASES = 'tests/cases';
const BLESS = process.env.BLESS === '1';

const shell = openShell();
afterAll(shell.close);

const ajv = new Ajv2020({ strict: true, allowUnionTypes: true });
addFormats.default(ajv);
const validators = new Map(SCHEMA_NAMES.map((name) => [name, ajv.compile(jsonSchema(name))]));

/** What an independent validator says of a JSON result; nothing for other output. */
const invalid = (stdout: string): unknown => {
  const name = /^\{\s*"schema": "thole\/([a-z-]+)\/1"/.exec(stdout)?.[1];
  if (name === undefined) return null;
  const validator = validators.get(name);
  if (validator === undefined) return `no schema ${name}`;
  return validator(JSON.parse(stdout)) ? null : validator.errors;
};

const names = readdirSync(CASES, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map((entry) => entry.name);

describe('whole commands', () => {
  it('are there', () => {
    expect(names.length).toBeGreaterThan(40);
  });

  it.each(names)('%s', { timeout: 240_000 }, async (name) => {
    const folder = join(CASES, name);
    const result = await shell.run(readFileSync(join(folder, 'cmd'), 'utf8'));
    expect(invalid(result.stdout)).toBeNull();
    if (BLESS)
      for (const part of ['stdout', 'stderr', 'status'] as const)
        writeFileSync(join(folder, `expected-${part}`), result[part]);
    const expected = (part: string) => readFileSync(join(folder, `expected-${part}`), 'utf8');
    expect(result).toEqual({
      stdout: expected('stdout'),
      stderr: expected('stderr'),
      status: expected('status'),
    });
  });
});
