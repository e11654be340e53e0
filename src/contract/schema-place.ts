import * as z from 'zod';
import type { JsonPath } from './located-json.js';

const inner = (schema: z.core.$ZodType, key: string | number): readonly z.core.$ZodType[] => {
  const plain = unwrapped(schema);
  if (plain instanceof z.ZodUnion) return plain.options.flatMap((option) => inner(option, key));
  if (plain instanceof z.ZodObject) return Object.hasOwn(plain.shape, key) ? [plain.shape[key]] : [];
  if (plain instanceof z.ZodArray) return [plain.element];
  if (plain instanceof z.ZodRecord) return [plain.valueType];
  if (plain instanceof z.ZodTuple) return plain.def.items.slice(Number(key), Number(key) + 1);
  return [];
};

const unwrapped = (schema: z.core.$ZodType): z.core.$ZodType => {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodNullable || schema instanceof z.ZodDefault)
    return unwrapped(schema.def.innerType);
  if (schema instanceof z.ZodLazy) return unwrapped(schema.def.getter());
  if (schema instanceof z.ZodPipe) return unwrapped(schema.def.in);
  return schema;
};

/** Every schema that a value at a place may fit, unwrapped, branches of unions apart. */
const schemasAt = (schema: z.core.$ZodType, path: JsonPath): readonly z.core.$ZodType[] => {
  const branches = (one: z.core.$ZodType): readonly z.core.$ZodType[] => {
    const plain = unwrapped(one);
    return plain instanceof z.ZodUnion ? plain.options.flatMap(branches) : [plain];
  };
  return path
    .reduce<readonly z.core.$ZodType[]>(
      (schemas, key) => schemas.flatMap((candidate) => inner(candidate, key)),
      [schema],
    )
    .flatMap(branches);
};

/** The keys that a schema allows at a place. */
export const allowedKeys = (schema: z.core.$ZodType, path: JsonPath): readonly string[] => [
  ...new Set(
    schemasAt(schema, path).flatMap((there) =>
      there instanceof z.ZodObject ? Object.keys(there.shape) : [],
    ),
  ),
];

/** What a schema has at a place: keys that are named, keys of any name, a list, or a single value. */
export type PlaceKind = 'keys' | 'any key' | 'list' | 'value';

/** What a schema has at a place; null where it has nothing there. */
export const kindAt = (schema: z.core.$ZodType, path: JsonPath): PlaceKind | null => {
  const there = schemasAt(schema, path);
  if (there.length === 0) return null;
  if (there.some((one) => one instanceof z.ZodObject)) return 'keys';
  if (there.some((one) => one instanceof z.ZodRecord)) return 'any key';
  return there.some((one) => one instanceof z.ZodArray || one instanceof z.ZodTuple) ? 'list' : 'value';
};

/** The words that a schema allows at a place; null where it allows more than a few words. */
export const wordsAt = (schema: z.core.$ZodType, path: JsonPath): readonly string[] | null => {
  const there = schemasAt(schema, path).filter((one) => !(one instanceof z.ZodNull));
  return there.length > 0 && there.every((one) => one instanceof z.ZodEnum)
    ? there.flatMap((one) => (one as z.ZodEnum).options.map(String))
    : null;
};
