import { fitCrc } from '../../../src/formats/fit/fit-crc.js';

/** A field to be written: number, base type code (FIT protocol, table of base types), and its value or values. */
export type Field = readonly [number: number, baseType: number, value: number | readonly number[] | string];

/** Base type codes of the FIT protocol. */
export const TYPE = {
  enum: 0x00,
  sint8: 0x01,
  uint8: 0x02,
  sint16: 0x83,
  uint16: 0x84,
  sint32: 0x85,
  uint32: 0x86,
  string: 0x07,
  float32: 0x88,
  byte: 0x0d,
} as const;

const SIZES: Readonly<Record<number, number>> = {
  0: 1,
  1: 1,
  2: 1,
  131: 2,
  132: 2,
  133: 4,
  134: 4,
  136: 4,
  13: 1,
};

const littleOrBig = (size: number, type: number, value: number, little: boolean): number[] => {
  const view = new DataView(new ArrayBuffer(size));
  if (type === TYPE.float32) view.setFloat32(0, value, little);
  else if (size === 1) view.setUint8(0, value & 0xff);
  else if (size === 2) view.setUint16(0, value & 0xffff, little);
  else view.setUint32(0, value >>> 0, little);
  return [...new Uint8Array(view.buffer)];
};

const bytesOf = ([, type, value]: Field, little: boolean): number[] => {
  if (typeof value === 'string') return [...new TextEncoder().encode(value), 0];
  const values = typeof value === 'number' ? [value] : value;
  return values.flatMap((one) => littleOrBig(SIZES[type]!, type, one, little));
};

interface Layout {
  readonly local?: number;
  readonly little?: boolean;
  /** What the byte-order flag says; the truth unless given. */
  readonly claimsLittle?: boolean;
  readonly developer?: readonly (readonly [number: number, bytes: readonly number[], index: number])[];
}

/** A definition message for the given fields. */
export const definition = (message: number, fields: readonly Field[], layout: Layout = {}): number[] => {
  const { local = 0, little = true, claimsLittle = little, developer = [] } = layout;
  return [
    0x40 | local | (developer.length > 0 ? 0x20 : 0),
    0,
    claimsLittle ? 0 : 1,
    ...littleOrBig(2, TYPE.uint16, message, little),
    fields.length,
    ...fields.flatMap((field) => [field[0], bytesOf(field, little).length, field[1]]),
    ...(developer.length > 0 ? [developer.length] : []),
    ...developer.flatMap(([number, bytes, index]) => [number, bytes.length, index]),
  ];
};

/** A data message for a definition that stands. */
export const data = (fields: readonly Field[], layout: Layout = {}): number[] => [
  layout.local ?? 0,
  ...fields.flatMap((field) => bytesOf(field, layout.little ?? true)),
  ...(layout.developer ?? []).flatMap(([, bytes]) => bytes),
];

/** A definition and its one message. */
export const message = (number: number, fields: readonly Field[], layout: Layout = {}): number[] => [
  ...definition(number, fields, layout),
  ...data(fields, layout),
];

/** A message with a compressed timestamp header. */
export const compressed = (offsetS: number, fields: readonly Field[], local = 0): number[] => [
  0x80 | (local << 5) | (offsetS & 0x1f),
  ...fields.flatMap((field) => bytesOf(field, true)),
];

/** A whole file: header of 14 bytes, messages, checksum. */
export const fitFile = (...messages: readonly (readonly number[])[]): Uint8Array => {
  const body = messages.flat();
  const bytes = new Uint8Array(14 + body.length + 2);
  const view = new DataView(bytes.buffer);
  bytes.set([14, 0x20]);
  view.setUint16(2, 2132, true);
  view.setUint32(4, body.length, true);
  bytes.set(new TextEncoder().encode('.FIT'), 8);
  view.setUint16(12, fitCrc(bytes, 0, 12), true);
  bytes.set(body, 14);
  view.setUint16(14 + body.length, fitCrc(bytes, 0, 14 + body.length), true);
  return bytes;
};

/** 2026-05-03T07:00:00Z in seconds from the FIT epoch. */
export const START_FIT_S = Date.UTC(2026, 4, 3, 7) / 1000 - 631_065_600;

/** Semicircles of a position, degrees. */
export const semicircles = (deg: number): number => Math.round((deg * 2 ** 31) / 180);

/** A `file_id` message that says activity. */
export const FILE_ID: readonly number[] = message(0, [
  [0, TYPE.enum, 4],
  [1, TYPE.uint16, 255],
  [2, TYPE.uint16, 7],
  [4, TYPE.uint32, START_FIT_S],
]);

/** Fields of a `record` at `s` seconds: a boat going east at 4 m/s on an invented water. */
export const record = (s: number): Field[] => [
  [253, TYPE.uint32, START_FIT_S + s],
  [0, TYPE.sint32, semicircles(45)],
  [1, TYPE.sint32, semicircles(10 + s * 5e-5)],
  [3, TYPE.uint8, 130 + (s % 20)],
  [4, TYPE.uint8, 28],
  [6, TYPE.uint16, 4000],
];

/** A file of `count` such records, one a second. */
export const recordsFile = (count: number): Uint8Array =>
  fitFile(FILE_ID, definition(20, record(0)), ...Array.from({ length: count }, (_, s) => data(record(s))));
