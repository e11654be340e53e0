import { logText } from '../log-text.js';
import { READ_BOUNDS } from '../log-too-large.js';
import { xmlDocument } from '../xml/xml-document.js';
import { elementsOf, parseXml, type XmlElement } from '../xml/xml-element.js';
import { type GpxPoints, gpxOfLists, segmentCount } from './gpx-points.js';
import { gpxScan } from './gpx-scan.js';

const parsed = (text: string): XmlElement | null => {
  try {
    return parseXml(text);
  } catch {
    return null;
  }
};

/**
 * A GPX track by the scanner of regular files: what {@link gpxPoints} gives of the parsed file, to the bit.
 * @returns null where the file is not regular
 */
export const gpxScanned = (bytes: Uint8Array): GpxPoints | null => {
  const scan = gpxScan(bytes);
  const document = scan === null ? null : xmlDocument(logText(scan.skeleton, READ_BOUNDS.xmlBytes), {});
  if (scan === null || document === null || document.cutAt !== null || document.damage.length > 0)
    return null;
  const root = elementsOf(parsed(document.text) ?? {}, 'gpx')[0];
  if (root === undefined || segmentCount(root) !== scan.lists.ends.length) return null;
  return gpxOfLists(root, 'track', scan.lists);
};
