import { UserError } from '../units/user-error.js';

/** Where something stands in a text, both from 1. */
export interface TextPlace {
  readonly line: number;
  readonly column: number;
}

/** A way from the top of a JSON value to one inside it. */
export type JsonPath = readonly (string | number)[];

/** A JSON value, and where each of its parts stands in the text. */
export interface LocatedJson {
  readonly value: unknown;
  /** Place of the part, or of the nearest part around it. */
  readonly placeOf: (path: JsonPath) => TextPlace;
}

/** Deepest nesting that is read; input files need fewer than ten. */
const DEEPEST = 100;

const placeIn = (text: string, at: number): TextPlace => {
  const before = text.slice(0, at);
  const lineStart = before.lastIndexOf('\n') + 1;
  return { line: before.split('\n').length, column: at - lineStart + 1 };
};

/**
 * Read JSON (RFC 8259) and remember where each key stands.
 * @param name the file as messages name it
 * @throws UserError with line and column where it is not JSON, or holds one key twice
 */
export const parseLocatedJson = (source: string, name: string): LocatedJson => {
  const text = source.replace(/^\ufeff/, '');
  const places = new Map<string, number>();
  let at = 0;

  const fail = (what: string, place = at): never => {
    const { line, column } = placeIn(text, place);
    throw new UserError(`${name}, line ${line}, column ${column}: not valid JSON: ${what}`);
  };
  const found = (): string =>
    at < text.length ? `${JSON.stringify(text.charAt(at))} came` : 'the file ends there';
  const skip = (): void => {
    while (/[ \t\r\n]/.test(text.charAt(at))) at++;
  };
  const token = (pattern: RegExp): string | null => {
    pattern.lastIndex = at;
    const match = pattern.exec(text);
    if (match === null) return null;
    at += match[0].length;
    return match[0];
  };
  const readString = (): string => {
    const start = at;
    const raw = token(/"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/y);
    if (raw === null) return fail('a text that starts here does not end, or holds a wrong escape', start);
    return JSON.parse(raw) as string;
  };
  const readObject = (path: JsonPath): Record<string, unknown> => {
    const made: Record<string, unknown> = {};
    at++;
    skip();
    if (text.charAt(at) === '}') {
      at++;
      return made;
    }
    for (;;) {
      skip();
      if (text.charAt(at) !== '"') fail(`a key in double quotes is required, and ${found()}`);
      const start = at;
      const key = readString();
      if (key === '__proto__') fail('the key "__proto__" is not allowed', start);
      if (Object.hasOwn(made, key)) fail(`the key ${JSON.stringify(key)} is there twice`, start);
      skip();
      if (text.charAt(at) !== ':')
        fail(`a colon is required after the key ${JSON.stringify(key)}, and ${found()}`);
      at++;
      made[key] = readValue([...path, key], start);
      skip();
      const next = text.charAt(at);
      if (next === '}') break;
      if (next !== ',') fail(`a comma or } is required, and ${found()}`);
      at++;
    }
    at++;
    return made;
  };
  const readArray = (path: JsonPath): unknown[] => {
    const made: unknown[] = [];
    at++;
    skip();
    if (text.charAt(at) === ']') {
      at++;
      return made;
    }
    for (;;) {
      skip();
      made.push(readValue([...path, made.length], at));
      skip();
      const next = text.charAt(at);
      if (next === ']') break;
      if (next !== ',') fail(`a comma or ] is required, and ${found()}`);
      at++;
    }
    at++;
    return made;
  };
  const readValue = (path: JsonPath, start: number): unknown => {
    if (path.length > DEEPEST) fail(`values are nested more than ${DEEPEST} deep`);
    places.set(JSON.stringify(path), start);
    skip();
    const first = text.charAt(at);
    if (first === '{') return readObject(path);
    if (first === '[') return readArray(path);
    if (first === '"') return readString();
    const word = token(/true|false|null|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y);
    if (word === null || /[\w.+-]/.test(text.charAt(at))) return fail(`a value is required, and ${found()}`);
    return JSON.parse(word) as unknown;
  };

  skip();
  const value = readValue([], at);
  skip();
  if (at < text.length) fail(`nothing more is allowed after the value, and ${found()}`);
  return {
    value,
    placeOf: (path) => {
      for (let length = path.length; length > 0; length--) {
        const place = places.get(JSON.stringify(path.slice(0, length)));
        if (place !== undefined) return placeIn(text, place);
      }
      return placeIn(text, places.get('[]')!);
    },
  };
};
