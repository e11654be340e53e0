/** A field as a definition message lays it out. */
export interface FitField {
  readonly number: number;
  /** Bytes from the start of the message's body. */
  readonly offset: number;
  readonly sizeBytes: number;
  /** Base type, its low five bits. */
  readonly baseType: number;
}

/** Bytes of one value of each base type, by its number. */
const SIZES = [1, 1, 1, 2, 2, 4, 4, 1, 4, 8, 1, 2, 4, 1, 8, 8, 8];

/** Base types that the reader tells apart. */
export const BASE_TYPE = Object.freeze({ string: 7, byte: 13 });

/** Low bits of a base type's code; the rest only tell whether byte order matters. */
export const baseTypeOf = (code: number): number => code & 0x1f;

/**
 * How many whole values a field holds. None where its size is no multiple of the type's size: such a field
 * cannot be believed.
 */
export const valueCount = ({ baseType, sizeBytes }: FitField): number => {
  const size = SIZES[baseType];
  return size === undefined || sizeBytes % size !== 0 ? 0 : sizeBytes / size;
};

const unless = (value: number, invalid: number): number => (value === invalid ? Number.NaN : value);

/**
 * One value of a field, unscaled; NaN where it is the type's invalid value or no number.
 * @param at byte at which the message's body starts
 */
export const fieldValue = (
  view: DataView,
  at: number,
  field: FitField,
  littleEndian: boolean,
  index = 0,
): number => {
  const from = at + field.offset + index * (SIZES[field.baseType] ?? 1);
  switch (field.baseType) {
    case 0:
    case 2:
    case 13:
      return unless(view.getUint8(from), 0xff);
    case 1:
      return unless(view.getInt8(from), 0x7f);
    case 3:
      return unless(view.getInt16(from, littleEndian), 0x7fff);
    case 4:
      return unless(view.getUint16(from, littleEndian), 0xffff);
    case 5:
      return unless(view.getInt32(from, littleEndian), 0x7fffffff);
    case 6:
      return unless(view.getUint32(from, littleEndian), 0xffffffff);
    case 8:
      return view.getFloat32(from, littleEndian);
    case 9:
      return view.getFloat64(from, littleEndian);
    case 10:
      return unless(view.getUint8(from), 0);
    case 11:
      return unless(view.getUint16(from, littleEndian), 0);
    case 12:
      return unless(view.getUint32(from, littleEndian), 0);
    case 14: {
      const value = view.getBigInt64(from, littleEndian);
      return value === 0x7fffffffffffffffn ? Number.NaN : Number(value);
    }
    case 15: {
      const value = view.getBigUint64(from, littleEndian);
      return value === 0xffffffffffffffffn ? Number.NaN : Number(value);
    }
    case 16:
      return unless(Number(view.getBigUint64(from, littleEndian)), 0);
    default:
      return Number.NaN;
  }
};

/** All values of a field, unscaled; NaN for invalid ones. */
export const fieldValues = (view: DataView, at: number, field: FitField, littleEndian: boolean): number[] =>
  Array.from({ length: valueCount(field) }, (_, index) => fieldValue(view, at, field, littleEndian, index));

/** Text of a string field, up to its zero byte or its end; some writers leave the zero out. */
export const fieldText = (view: DataView, at: number, field: FitField): string | null => {
  if (field.baseType !== BASE_TYPE.string) return null;
  const bytes = new Uint8Array(view.buffer, view.byteOffset + at + field.offset, field.sizeBytes);
  const end = bytes.indexOf(0);
  const text = new TextDecoder().decode(end < 0 ? bytes : bytes.subarray(0, end));
  return text === '' ? null : text;
};
