import { asciiText, type ByteCursor, decimalAt } from '../byte-cursor.js';
import { zuluTimeAt } from '../byte-time.js';
import { parseDecimal } from '../decimal.js';
import { POINT_FIELDS, TIME, trackPoints } from '../xml/track-points.js';
import { asBytes, beginsPoint, KINDS, POINT_LENGTH, skipSpace, startsWith } from './gpx-bytes.js';
import { GPX_FIELDS, type GpxLists, gpxTime } from './gpx-points.js';
import { type PointShape, readPointsOf } from './gpx-shape.js';

/** A GPX file without its track points, and those points. */
export interface GpxScan {
  /** The file with its segments emptied, to be parsed for all else that it says. */
  readonly skeleton: Uint8Array;
  readonly lists: GpxLists;
}

/** Why the scanner gives up; caught where it begins. */
const DECLINED = Symbol('declined');

const [LT, GT, SLASH, EQUALS, COLON] = [0x3c, 0x3e, 0x2f, 0x3d, 0x3a];
const [QUOTE, APOSTROPHE, BANG, ASK] = [0x22, 0x27, 0x21, 0x3f];

const [SEGMENT, SEGMENT_END] = [asBytes('<trkseg>'), asBytes('</trkseg>')];
const [POINT_END, CDATA, COMMENT] = [asBytes('</trkpt>'), asBytes('<![CDATA['), asBytes('<!--')];
const [CDATA_END, COMMENT_END, PI_END] = [asBytes(']]>'), asBytes('-->'), asBytes('?>')];
const [LAT, LON, TIME_NAME] = [asBytes('lat'), asBytes('lon'), asBytes('time')];

/** Names of fields by their length, each with the field's place among POINT_FIELDS. */
const FIELDS: readonly (readonly { readonly name: Uint8Array; readonly field: number }[])[] = Array.from(
  { length: Math.max(...[...GPX_FIELDS.keys()].map(({ length }) => length)) + 1 },
  (_, size) =>
    [...GPX_FIELDS]
      .filter(([name]) => name.length === size)
      .map(([name, field]) => ({ name: asBytes(name), field: POINT_FIELDS.indexOf(field) })),
);
const [LAT_FIELD, LON_FIELD] = [POINT_FIELDS.indexOf('lat'), POINT_FIELDS.indexOf('lon')];

/** Elements nest no deeper than this in a regular point. */
const DEEPEST = 8;

/** So much more room than the first point promises is made for points. */
const ROOM = 1.1;

/** After so many points that were like none before, points are not held against one another any more. */
const MOST_SHAPES = 100;

/** Place of what in the bytes from a place on; declines where it is not there. */
const placeOf = (bytes: Uint8Array, what: Uint8Array, from: number): number => {
  for (let at = bytes.indexOf(what[0]!, from); at >= 0; at = bytes.indexOf(what[0]!, at + 1))
    if (startsWith(bytes, at, what)) return at;
  throw DECLINED;
};

const skipName = (cursor: ByteCursor): void => {
  const { bytes } = cursor;
  let at = cursor.at;
  if (!(KINDS[bytes[at]!]! & 2)) throw DECLINED;
  while (KINDS[bytes[at]!]! & 1) at++;
  cursor.at = at;
};

/** Behind `=` and the opening quote of an attribute's value. */
const enterValue = (cursor: ByteCursor): number => {
  const { bytes } = cursor;
  skipSpace(cursor);
  if (bytes[cursor.at++] !== EQUALS) throw DECLINED;
  skipSpace(cursor);
  const quote = bytes[cursor.at++]!;
  if (quote !== QUOTE && quote !== APOSTROPHE) throw DECLINED;
  return quote;
};

/** Attributes that say nothing here; leaves the cursor at `>` or `/>`. */
const skipAttributes = (cursor: ByteCursor): void => {
  const { bytes } = cursor;
  for (;;) {
    const spaced = KINDS[bytes[cursor.at]!]! & 4;
    skipSpace(cursor);
    const byte = bytes[cursor.at]!;
    if (byte === GT || byte === SLASH) return;
    if (!spaced) throw DECLINED;
    skipName(cursor);
    const quote = enterValue(cursor);
    while (bytes[cursor.at] !== quote) {
      if (cursor.at >= bytes.length || bytes[cursor.at] === LT) throw DECLINED;
      cursor.at++;
    }
    cursor.at++;
  }
};

/** Place among POINT_FIELDS of the field with a name; -1 where it has none. */
const fieldOf = (bytes: Uint8Array, from: number, to: number): number => {
  const candidates = FIELDS[to - from];
  if (candidates === undefined) return -1;
  for (let c = 0; c < candidates.length; c++) {
    const { name, field } = candidates[c]!;
    let i = 0;
    for (; i < name.length; i++) {
      const byte = bytes[from + i]!;
      if ((byte >= 0x41 && byte <= 0x5a ? byte | 0x20 : byte) !== name[i]) break;
    }
    if (i === name.length) return field;
  }
  return -1;
};

/**
 * The track points of a GPX file as devices write it, in one pass over its bytes. It takes what it understands to
 * the last byte and declines all else (damage, comments in segments, other encodings, a field twice in a point),
 * for the parser to read.
 * @returns null where it declines
 */
export const gpxScan = (bytes: Uint8Array): GpxScan | null => {
  try {
    return scan(bytes);
  } catch (reason) {
    if (reason === DECLINED) return null;
    throw reason;
  }
};

const scan = (bytes: Uint8Array): GpxScan => {
  const cursor: ByteCursor = { bytes, at: 0 };
  const points = trackPoints();
  const ends: number[] = [];
  let zonelessCount = 0;
  const stackFrom = new Int32Array(DEEPEST);
  const stackTo = new Int32Array(DEEPEST);
  /** Values of the point that is read: where they begin and end, and what they are; null where one is written oddly. */
  let seen: PointValue[] | null = null;

  const timeBefore = (): number => {
    skipSpace(cursor);
    const from = cursor.at;
    const unixS = zuluTimeAt(cursor);
    const behind = cursor.at;
    skipSpace(cursor);
    if (!Number.isNaN(unixS) && bytes[cursor.at] === LT) {
      seen?.push({ from, to: behind, field: TIME });
      return unixS;
    }
    seen = null;
    const to = bytes.indexOf(LT, from);
    if (to < 0) throw DECLINED;
    cursor.at = to;
    for (let i = from; i < to; i++) if (bytes[i]! > 0x7e) throw DECLINED;
    const time = gpxTime(asciiText(bytes, from, to));
    if (time.zoneless) zonelessCount++;
    return time.unixS;
  };

  const coordinate = (field: number): number => {
    const quote = enterValue(cursor);
    const from = cursor.at;
    const value = decimalAt(cursor);
    if (!Number.isNaN(value) && bytes[cursor.at] === quote) {
      seen?.push({ from, to: cursor.at, field });
      cursor.at++;
      return value;
    }
    seen = null;
    const to = bytes.indexOf(quote, from);
    if (to < 0) throw DECLINED;
    for (let i = from; i < to; i++) if (bytes[i]! > 0x7e || bytes[i] === LT) throw DECLINED;
    cursor.at = to + 1;
    return parseDecimal(asciiText(bytes, from, to));
  };

  /** What follows `<trkpt`. */
  const point = (): void => {
    let lat = Number.NaN;
    let lon = Number.NaN;
    for (let present = 0; ; ) {
      const spaced = KINDS[bytes[cursor.at]!]! & 4;
      skipSpace(cursor);
      const byte = bytes[cursor.at]!;
      if (byte === GT || byte === SLASH) break;
      const which = startsWith(bytes, cursor.at, LAT) ? 1 : startsWith(bytes, cursor.at, LON) ? 2 : 0;
      if (!spaced || which === 0 || present & which) throw DECLINED;
      present |= which;
      cursor.at += LAT.length;
      if (which === 1) lat = coordinate(LAT_FIELD);
      else lon = coordinate(LON_FIELD);
    }
    points.begin(Number.NaN);
    points.setFirst(LAT_FIELD, lat);
    points.setFirst(LON_FIELD, lon);
    if (bytes[cursor.at] === SLASH) {
      if (bytes[cursor.at + 1] !== GT) throw DECLINED;
      cursor.at += 2;
      return;
    }
    cursor.at++;
    children();
  };

  /** What stands in a point, to behind its end. */
  const children = (): void => {
    let depth = 0;
    let timed = false;
    /** One bit a field that was met in this point. */
    let met = 0;
    for (;;) {
      skipSpace(cursor);
      if (bytes[cursor.at] !== LT) {
        if (depth === 0) throw DECLINED;
        cursor.at = bytes.indexOf(LT, cursor.at);
        if (cursor.at < 0) throw DECLINED;
      }
      if (bytes[cursor.at + 1] === SLASH) {
        if (depth === 0) {
          if (!startsWith(bytes, cursor.at, POINT_END)) throw DECLINED;
          cursor.at += POINT_END.length;
          return;
        }
        depth--;
        close(stackFrom[depth]!, stackTo[depth]!);
        continue;
      }
      const from = ++cursor.at;
      skipName(cursor);
      const to = cursor.at;
      if (bytes[to] !== GT) skipAttributes(cursor);
      const local = localFrom(from, to);
      const field = fieldOf(bytes, local, to);
      const isTime = depth === 0 && to - local === TIME_NAME.length && startsWith(bytes, local, TIME_NAME);
      if (field >= 0) {
        if (met & (1 << field)) throw DECLINED;
        met |= 1 << field;
      } else if (isTime) {
        if (timed) throw DECLINED;
        timed = true;
      }
      if (bytes[cursor.at] === SLASH) {
        if (bytes[cursor.at + 1] !== GT) throw DECLINED;
        cursor.at += 2;
        continue;
      }
      cursor.at++;
      if (field >= 0) {
        skipSpace(cursor);
        const valueFrom = cursor.at;
        if (bytes[valueFrom] !== LT) {
          const value = decimalAt(cursor);
          seen?.push({ from: valueFrom, to: cursor.at, field });
          skipSpace(cursor);
          if (Number.isNaN(value) || bytes[cursor.at] !== LT) throw DECLINED;
          points.setFirst(field, value);
        }
        close(from, to);
      } else if (isTime) {
        points.setTime(timeBefore());
        close(from, to);
      } else {
        if (depth === DEEPEST) throw DECLINED;
        stackFrom[depth] = from;
        stackTo[depth] = to;
        depth++;
      }
    }
  };

  const localFrom = (from: number, to: number): number => {
    for (let i = from; i < to; i++) if (bytes[i] === COLON) return i + 1;
    return from;
  };

  /** Past the end tag of the name that stands between two places. */
  const close = (from: number, to: number): void => {
    let { at } = cursor;
    if (bytes[at] !== LT || bytes[at + 1] !== SLASH) throw DECLINED;
    at += 2;
    for (let i = from; i < to; i++) if (bytes[at++] !== bytes[i]) throw DECLINED;
    if (bytes[at] !== GT) throw DECLINED;
    cursor.at = at + 1;
  };

  const kept: Uint8Array[] = [];
  let keptFrom = 0;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let shape: PointShape | null = null;
  let unlike = 0;
  for (;;) {
    const at = bytes.indexOf(LT, cursor.at);
    if (at < 0) break;
    const next = bytes[at + 1]!;
    if (next === BANG) {
      if (startsWith(bytes, at, CDATA)) cursor.at = placeOf(bytes, CDATA_END, at) + CDATA_END.length;
      else if (startsWith(bytes, at, COMMENT))
        cursor.at = placeOf(bytes, COMMENT_END, at + 4) + COMMENT_END.length;
      else throw DECLINED;
    } else if (next === ASK) cursor.at = placeOf(bytes, PI_END, at + 2) + PI_END.length;
    else if (!startsWith(bytes, at, SEGMENT)) cursor.at = at + 1;
    else {
      cursor.at = at + SEGMENT.length;
      kept.push(bytes.subarray(keptFrom, cursor.at));
      for (;;) {
        if (shape !== null) {
          if (readPointsOf(shape, { cursor, view, points }) > 0) unlike = 0;
          else if (++unlike > MOST_SHAPES) shape = null;
        }
        skipSpace(cursor);
        if (!beginsPoint(bytes, cursor.at)) break;
        cursor.at += POINT_LENGTH;
        const from = cursor.at;
        seen = unlike > MOST_SHAPES ? null : [];
        point();
        // One point tells about how many there are: arrays that grow are copied, and stop the compiled loop.
        if (points.count() === 1)
          points.reserve(Math.ceil((ROOM * (bytes.length - from)) / (cursor.at - from)) + 1);
        shape = seen === null ? null : shapeOf(from, seen, cursor.at);
      }
      if (!startsWith(bytes, cursor.at, SEGMENT_END)) throw DECLINED;
      keptFrom = cursor.at;
      cursor.at += SEGMENT_END.length;
      ends.push(points.count());
    }
  }
  kept.push(bytes.subarray(keptFrom));
  if (points.count() === 0) throw DECLINED;
  return { skeleton: joined(kept), lists: { points, ends, zonelessCount } };
};

/** A value of a point: where it begins and ends, and what it is. */
interface PointValue {
  readonly from: number;
  readonly to: number;
  readonly field: number;
}

/** The shape of a point between two places. */
const shapeOf = (from: number, values: readonly PointValue[], to: number): PointShape => ({
  from: Int32Array.of(from, ...values.map((value) => value.to)),
  to: Int32Array.of(...values.map((value) => value.from), to),
  fields: Int32Array.from(values, ({ field }) => field),
});

const joined = (parts: readonly Uint8Array[]): Uint8Array => {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
};
