import type { WarningCode } from '../../contract/severity.js';
import type { Warning } from '../../recording/index.js';
import { fitCrc } from './fit-crc.js';
import { baseTypeOf, type FitField, fieldValue, valueCount } from './fit-field.js';
import { MESSAGE, TIMESTAMP } from './fit-profile.js';

/** A field that an application added, and which application. */
export interface FitDeveloperField extends FitField {
  readonly developer: number;
}

/** How the messages of one kind are laid out, until the file says otherwise. */
export interface FitDefinition {
  readonly message: number;
  readonly littleEndian: boolean;
  readonly fields: readonly FitField[];
  readonly developerFields: readonly FitDeveloperField[];
  readonly sizeBytes: number;
}

/** One message: `at` is the byte at which its body starts. */
export interface FitMessage {
  readonly definition: FitDefinition;
  readonly view: DataView;
  readonly at: number;
  /** Seconds from the FIT epoch; NaN where the message has no time. */
  readonly fitS: number;
}

const SIGNATURE = 0x2e464954; // '.FIT'
const LEAST_HEADER_BYTES = 12;
const LOCAL_TYPES = 16;

/** True where a FIT header stands at `at`. */
export const isFitHeader = (bytes: Uint8Array, at = 0): boolean =>
  bytes.length >= at + LEAST_HEADER_BYTES &&
  new DataView(bytes.buffer, bytes.byteOffset + at, LEAST_HEADER_BYTES).getUint32(8) === SIGNATURE;

const KNOWN = new Set<number>(Object.values(MESSAGE));

/** A definition message after its header byte; null where the file ends within it. */
const definitionAt = (
  view: DataView,
  at: number,
  end: number,
  hasDeveloperFields: boolean,
): { definition: FitDefinition; next: number; mended: boolean } | null => {
  if (at + 5 > end) return null;
  const claimsLittle = view.getUint8(at + 1) === 0;
  const claimed = view.getUint16(at + 2, claimsLittle);
  // A wrong byte-order flag turns record (20) into 5120, which is no message at all.
  const mended = !KNOWN.has(claimed) && KNOWN.has(view.getUint16(at + 2, !claimsLittle));
  const littleEndian = mended ? !claimsLittle : claimsLittle;
  const message = view.getUint16(at + 2, littleEndian);
  let next = at + 5;
  let offset = 0;
  const fields: FitField[] = [];
  const fieldCount = view.getUint8(at + 4);
  if (next + fieldCount * 3 > end) return null;
  for (let i = 0; i < fieldCount; i++, next += 3) {
    const sizeBytes = view.getUint8(next + 1);
    fields.push({
      number: view.getUint8(next),
      offset,
      sizeBytes,
      baseType: baseTypeOf(view.getUint8(next + 2)),
    });
    offset += sizeBytes;
  }
  const developerFields: FitDeveloperField[] = [];
  if (hasDeveloperFields) {
    if (next + 1 > end) return null;
    const developerCount = view.getUint8(next++);
    if (next + developerCount * 3 > end) return null;
    for (let i = 0; i < developerCount; i++, next += 3) {
      const sizeBytes = view.getUint8(next + 1);
      // The base type of an application's field stands in its description, not here.
      developerFields.push({
        number: view.getUint8(next),
        offset,
        sizeBytes,
        baseType: 0,
        developer: view.getUint8(next + 2),
      });
      offset += sizeBytes;
    }
  }
  return { definition: { message, littleEndian, fields, developerFields, sizeBytes: offset }, next, mended };
};

/**
 * Walk the messages of a FIT file, or of several that follow one another, and hand each to `visit`. Stops at
 * the first damage: everything before it has been visited.
 * @returns what was wrong, in the order of the file
 */
export const walkFit = (bytes: Uint8Array, file: string, visit: (message: FitMessage) => void): Warning[] => {
  const warnings: Warning[] = [];
  const warn = (code: WarningCode, at: number, message: string): void => {
    warnings.push({ code, file, where: `byte ${at}`, message });
  };
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let at = 0;
  while (at < bytes.length) {
    if (!isFitHeader(bytes, at)) {
      warn('fit-trailing', at, 'what follows the FIT file is no FIT file and is left out');
      break;
    }
    const next = walkOne(view, bytes, at, visit, warn);
    if (next === null) break;
    at = next;
  }
  return warnings;
};

type WarnAt = (code: WarningCode, at: number, message: string) => void;

/** One file of a chain; the byte after it, or null where nothing after it can be found. */
const walkOne = (
  view: DataView,
  bytes: Uint8Array,
  start: number,
  visit: (message: FitMessage) => void,
  warn: WarnAt,
): number | null => {
  const statedHeader = bytes[start]!;
  // A header size of 0 or so is damage: the definition message that begins every file tells the true size.
  const isLong = (bytes[start + 14] ?? 0) >> 4 === 4;
  const headerBytes = statedHeader >= LEAST_HEADER_BYTES ? statedHeader : isLong ? 14 : LEAST_HEADER_BYTES;
  const statedBytes = view.getUint32(start + 4, true);
  const from = start + headerBytes;
  const statedEnd = from + statedBytes;
  const unfinished = statedBytes === 0;
  const cut = unfinished || statedEnd + 2 > bytes.length;
  const end = unfinished ? bytes.length : Math.min(statedEnd, bytes.length);
  const sound = !cut && fitCrc(bytes, start, statedEnd) === view.getUint16(statedEnd, true);
  const { stop, damaged } = walkBody(view, from, end, visit, warn);

  if (unfinished)
    warn(
      'fit-unfinished',
      start,
      'the logger did not finish this file: what it holds is read, its end may be missing',
    );
  else if (cut)
    warn(
      'cut-off',
      bytes.length,
      `the file is cut off (${bytes.length - start} of ${statedEnd + 2 - start} bytes): every whole record before the cut is read`,
    );
  else if (!sound)
    warn(
      'fit-checksum',
      statedEnd,
      'the checksum is wrong: the file is damaged somewhere, so check its values',
    );
  if (damaged || (!cut && stop < end))
    warn('fit-damaged', stop, 'the file is damaged here: what stands before is read, the rest is left out');
  return cut ? null : statedEnd + 2;
};

/** Visits messages up to `end`; the byte at which it stopped, and whether nothing there makes sense. */
const walkBody = (
  view: DataView,
  from: number,
  end: number,
  visit: (message: FitMessage) => void,
  warn: WarnAt,
): { readonly stop: number; readonly damaged: boolean } => {
  const definitions = new Array<FitDefinition | undefined>(LOCAL_TYPES).fill(undefined);
  let lastS = Number.NaN;
  let saidByteOrder = false;
  let at = from;
  while (at < end) {
    const header = view.getUint8(at);
    const compressed = (header & 0x80) !== 0;
    if (!compressed && (header & 0x40) !== 0) {
      const found = definitionAt(view, at + 1, end, (header & 0x20) !== 0);
      if (found === null) return { stop: at, damaged: false };
      if (found.mended && !saidByteOrder) {
        saidByteOrder = true;
        warn('fit-byte-order', at, 'the byte order is stated wrongly; the one that makes sense is used');
      }
      definitions[header & 0x0f] = found.definition;
      at = found.next;
      continue;
    }
    const definition = definitions[compressed ? (header >> 5) & 0x03 : header & 0x0f];
    if (definition === undefined) return { stop: at, damaged: true };
    const body = at + 1;
    if (body + definition.sizeBytes > end) return { stop: at, damaged: false };
    let fitS = Number.NaN;
    if (compressed) {
      // Five bits that replace the lowest of the last full time, and roll over (FIT protocol, compressed timestamp).
      if (Number.isFinite(lastS)) lastS += ((header & 0x1f) - (lastS % 32) + 32) % 32;
      fitS = lastS;
    } else {
      const field = definition.fields.find(({ number }) => number === TIMESTAMP);
      if (field !== undefined && valueCount(field) === 1)
        fitS = fieldValue(view, body, field, definition.littleEndian);
      if (Number.isFinite(fitS)) lastS = fitS;
    }
    visit({ definition, view, at: body, fitS });
    at = body + definition.sizeBytes;
  }
  return { stop: at, damaged: false };
};
