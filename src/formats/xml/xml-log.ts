import type { WarningCode } from '../../contract/severity.js';
import { type LogFault, logFault, type Warning } from '../../recording/index.js';
import { logText } from '../log-text.js';
import { READ_BOUNDS } from '../log-too-large.js';
import { type PointHomes, xmlDocument } from './xml-document.js';
import { parseXml, type XmlElement } from './xml-element.js';

/** A log of XML, parsed, with what had to be mended. */
export interface XmlLog {
  readonly document: XmlElement;
  readonly warnings: readonly Warning[];
}

/**
 * Parse a log of XML. Of one that is cut off or damaged all complete points are read, with a warning.
 * @param format its name in messages
 * @param homes the elements that are its points
 */
export const xmlLog = (
  bytes: Uint8Array,
  file: string,
  format: string,
  homes: PointHomes,
): XmlLog | LogFault => {
  const fault = (message: string): LogFault => logFault(file, 'not-xml', message);
  const document = xmlDocument(logText(bytes, READ_BOUNDS.xmlBytes), homes);
  if (document === null)
    return fault(`the file is not a ${format} log: it holds no XML element; export it anew`);
  const warnings: Warning[] = [];
  const warn = (code: WarningCode, after: number, message: string): void => {
    warnings.push({ code, file, where: `after character ${after}`, message });
  };
  if (document.damage.length > 0)
    warn(
      'damaged',
      document.damage[0]!,
      `the file is damaged in ${document.damage.length === 1 ? 'one place' : `${document.damage.length} places`}; the samples there are lost, those before and after were read`,
    );
  if (document.cutAt !== null)
    warn(
      'cut-off',
      document.cutAt,
      'the file ends in the middle of a sample; all samples that are complete were read',
    );
  try {
    return { document: parseXml(document.text), warnings };
  } catch {
    return fault(`the ${format} log is damaged and cannot be read; copy it from the logger again`);
  }
};
