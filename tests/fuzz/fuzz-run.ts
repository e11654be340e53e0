import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import { impossibleFigures } from '../../src/contract/figure-limit.js';
import { jsonSchema, SCHEMA_NAMES } from '../../src/contract/json-schema.js';
import { ran } from '../cli/ran.js';
import { beside, type FuzzCase, NEIGHBOUR } from './fuzz-case.js';

const ajv = new Ajv2020({ strict: true, allowUnionTypes: true });
addFormats.default(ajv);
const validators = new Map(SCHEMA_NAMES.map((name) => [name, ajv.compile(jsonSchema(name))]));

/** What no output may hold: a number that is none, a value that was not there, an object for its text. */
const NO_VALUE = /\bNaN\b|\bInfinity\b|\bundefined\b|\[object /;
const TRACE = /\n\s+at |fault of thole/;

/** A log that is alone may be the wrong one for what is asked; in a batch that is its own fault. */
const isAllowed = (status: number, stderr: string, isBatch: boolean): boolean =>
  status === 2 ? !isBatch && /^thole: [^\n]+\n$/.test(stderr) : [0, 1, 3].includes(status);

const wrongJson = (stdout: string, isBatch: boolean, neighbour: string): string[] => {
  const result = JSON.parse(stdout) as { readonly schema: string; readonly files: readonly string[] };
  const name = /^thole\/([a-z-]+)\/1$/.exec(result.schema)?.[1] ?? '';
  const validator = validators.get(name);
  if (validator === undefined) return [`no schema ${result.schema}`];
  return [
    ...(validator(result) ? [] : [`against its schema: ${ajv.errorsText(validator.errors)}`]),
    ...impossibleFigures(result).map(({ path, value, why }) => `${path.join(' ')} is ${value}: ${why}`),
    ...(isBatch && name !== 'seats' && !result.files.includes(neighbour)
      ? ['the neighbour is not answered']
      : []),
  ];
};

/** A folder in which cases are run, one after the other. */
export interface FuzzFolder {
  /** Run a case. @returns what is wrong with its answer, each in a line; nothing where all is well */
  readonly run: (tried: FuzzCase) => Promise<readonly string[]>;
  readonly close: () => void;
}

/** Make a {@link FuzzFolder}. */
export const fuzzFolder = (): FuzzFolder => {
  const folder = mkdtempSync(join(tmpdir(), 'thole-fuzz-'));
  const env = { HOME: folder };
  const logs = join(folder, 'logs');
  mkdirSync(logs);
  const neighbour = join(logs, `neighbour.${NEIGHBOUR.ending}`);
  writeFileSync(neighbour, NEIGHBOUR.bytes);
  const run: FuzzFolder['run'] = async ({ log, bytes, line, format }) => {
    const damaged = join(logs, `damaged.${log.ending}`);
    writeFileSync(damaged, bytes);
    const places: Record<string, string> = { damaged, neighbour, folder: logs };
    for (const [name, text] of Object.entries(beside(damaged, neighbour))) {
      places[name] = join(folder, name);
      writeFileSync(places[name], text);
    }
    const argv = [...line.argv.map((word) => places[word] ?? word), '--format', format];
    try {
      const { status, stdout, stderr } = await ran(argv, '', env);
      return [
        ...(isAllowed(status, stderr, line.batch) ? [] : [`exit ${status}: ${stderr}`]),
        ...(TRACE.test(stderr) || stderr.includes('thole itself failed') ? [`our fault: ${stderr}`] : []),
        ...(NO_VALUE.test(stdout)
          ? [`no value: ${NO_VALUE.exec(stdout)![0]} in ${stdout.slice(0, 300)}`]
          : []),
        ...(format === 'json' && stdout !== '' ? wrongJson(stdout, line.batch, neighbour) : []),
        ...(line.batch && stdout === '' && line.argv[0] !== 'seats' ? ['nothing is answered'] : []),
      ];
    } catch (error) {
      return [`thrown: ${error instanceof Error ? error.stack : String(error)}`];
    } finally {
      rmSync(damaged);
    }
  };
  return { run, close: () => rmSync(folder, { recursive: true }) };
};
