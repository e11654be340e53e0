import type * as z from 'zod';
import { closest } from '../units/closest.js';
import type { JsonPath } from './located-json.js';

/** What is wrong with one value of an input file, in plain words. */
export interface SchemaFault {
  readonly path: JsonPath;
  readonly what: string;
}

type Issue = z.core.$ZodIssue;

const TYPES: Readonly<Record<string, string>> = {
  number: 'a number',
  int: 'a whole number',
  string: 'a text in double quotes',
  boolean: 'true or false',
  object: 'a group of keys in { }',
  record: 'a group of keys in { }',
  array: 'a list in [ ]',
  tuple: 'a list in [ ]',
  null: 'null',
};

const shown = (value: unknown): string => {
  const text = JSON.stringify(value) ?? 'nothing';
  return text.length > 40 ? `${text.slice(0, 37)}…` : text;
};

const at = (value: unknown, path: JsonPath): unknown =>
  path.reduce<unknown>(
    (inner, key) =>
      inner !== null && typeof inner === 'object' && Object.hasOwn(inner, key)
        ? (inner as Record<string | number, unknown>)[key]
        : undefined,
    value,
  );

const sized = (issue: Issue & { readonly origin: string }, bound: string): string => {
  if (issue.origin === 'string') return `a text of ${bound} characters`;
  if (issue.origin === 'array' || issue.origin === 'set') return `a list of ${bound} entries`;
  return `a number of ${bound}`;
};

/** What an issue asks for, to stand after "must be". */
const required = (issue: Issue): string => {
  switch (issue.code) {
    case 'invalid_type':
      return TYPES[issue.expected] ?? issue.expected;
    case 'invalid_value':
      return issue.values.length === 1
        ? shown(issue.values[0])
        : `one of ${issue.values.map(String).join(', ')}`;
    case 'too_small':
      return sized(issue, `${issue.inclusive === false ? 'more than' : 'at least'} ${issue.minimum}`);
    case 'too_big':
      return sized(issue, `${issue.inclusive === false ? 'less than' : 'at most'} ${issue.maximum}`);
    case 'invalid_union':
      return [...new Set(issue.errors.flatMap((branch) => branch.slice(0, 1).map(required)))].join(', or ');
    default:
      return issue.message;
  }
};

const expects = (issue: Issue, type: string): boolean =>
  issue.code === 'invalid_type'
    ? issue.expected === type
    : issue.code === 'invalid_union' &&
      issue.errors.some((branch) => branch.some((inner) => inner.path.length === 0 && expects(inner, type)));

/** Quotes that are missing, or too many. */
const quoted = (issue: Issue, value: unknown): string => {
  if (typeof value === 'number' && expects(issue, 'string')) return `: write "${value}"`;
  const isNumber = typeof value === 'string' && value.trim() !== '' && Number.isFinite(Number(value));
  return isNumber && expects(issue, 'number') ? `: write ${value.trim()}` : '';
};

/** The one branch of a union that was meant: the only one whose mistakes lie deeper than its kind. */
const meant = (issue: Issue): { readonly path: JsonPath; readonly issue: Issue } | null => {
  if (issue.code !== 'invalid_union') return null;
  const kinds = issue.errors.filter(
    (branch) => !branch.some((inner) => inner.path.length === 0 && inner.code === 'invalid_type'),
  );
  const inner = kinds.length === 1 ? kinds[0]![0] : undefined;
  return inner === undefined
    ? null
    : { path: [...(issue.path as JsonPath), ...(inner.path as JsonPath)], issue: inner };
};

/** One mistake that a schema found, as a sentence about the key. */
export const faultOf = (
  issue: Issue,
  whole: unknown,
  allowed: (path: JsonPath) => readonly string[],
  path = issue.path as JsonPath,
): SchemaFault => {
  const deeper = meant(issue);
  if (deeper !== null) return faultOf(deeper.issue, whole, allowed, deeper.path);
  if (issue.code === 'unrecognized_keys') {
    const key = issue.keys[0]!;
    const keys = allowed(path);
    const near = closest(key, keys);
    return {
      path: [...path, key],
      what: `key "${key}" is not known here${near === null ? '' : `; did you mean "${near}"?`}${
        near === null && keys.length > 0 ? '.' : ''
      }${keys.length === 0 ? '' : ` Allowed: ${keys.join(', ')}`}`,
    };
  }
  const key = path.findLast((part) => typeof part === 'string');
  const nth = typeof path.at(-1) === 'number' ? ` (entry ${Number(path.at(-1)) + 1})` : '';
  const subject = key === undefined ? `the file${nth}` : `key "${key}"${nth}`;
  const value = at(whole, path);
  if (issue.code === 'custom') return { path, what: `${subject}: ${issue.message}` };
  return value === undefined
    ? { path, what: `${subject} is missing: ${required(issue)} is required` }
    : {
        path,
        what: `${subject} must be ${required(issue)}, and ${shown(value)} came${quoted(issue, value)}`,
      };
};
