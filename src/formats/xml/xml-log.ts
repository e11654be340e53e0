import type { LogFault, Warning } from '../../recording/index.js';
import { logText } from '../log-text.js';
import { READ_BOUNDS } from '../log-too-large.js';
import { xmlDocument } from './xml-document.js';
import { parseXml, type XmlElement } from './xml-element.js';

/** A log of XML, parsed, with what had to be mended. */
export interface XmlLog {
  readonly document: XmlElement;
  readonly warnings: readonly Warning[];
}

/**
 * Parse a log of XML. One that is cut off or damaged is read up to its last complete point, with a warning.
 * @param format its name in messages
 * @param pointNames local names of the elements that are its points
 */
export const xmlLog = (
  bytes: Uint8Array,
  file: string,
  format: string,
  pointNames: readonly string[],
): XmlLog | LogFault => {
  const fault = (message: string): LogFault => ({ fault: true, code: 'not-xml', file, where: null, message });
  const document = xmlDocument(logText(bytes, READ_BOUNDS.xmlBytes), pointNames);
  if (document === null)
    return fault(`the file is not a ${format} log: it holds no XML element; export it anew`);
  const warnings: Warning[] =
    document.cutAt === null
      ? []
      : [
          {
            code: 'cut-off',
            file,
            where: `after character ${document.cutAt}`,
            message:
              'the file ends or is damaged in the middle of a sample; what stands before it was read, what comes after is lost',
          },
        ];
  try {
    return { document: parseXml(document.text), warnings };
  } catch {
    return fault(`the ${format} log is damaged and cannot be read; copy it from the logger again`);
  }
};
