import { type LogFault, logFault, type Warning } from '../../recording/index.js';
import type { PointHomes } from '../xml/xml-document.js';
import { elementsOf } from '../xml/xml-element.js';
import { xmlLog } from '../xml/xml-log.js';
import { type GpxPoints, gpxPoints } from './gpx-points.js';

const HOMES: PointHomes = { trkpt: [['trk', 'trkseg']], rtept: [['rte']], wpt: [[]] };

/** A GPX file by the XML parser: any file, damaged ones too, with a warning of what was mended. */
export const gpxParsed = (
  bytes: Uint8Array,
  file: string,
): { readonly points: GpxPoints; readonly warnings: readonly Warning[] } | LogFault => {
  const log = xmlLog(bytes, file, 'GPX', HOMES);
  if ('fault' in log) return log;
  if (log.document.gpx === undefined)
    return logFault(file, 'not-gpx', 'the file is XML but not a GPX log: its outermost element is not gpx');
  return { points: gpxPoints(elementsOf(log.document, 'gpx')[0] ?? {}), warnings: log.warnings };
};
