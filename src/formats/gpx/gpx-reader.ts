import type { Warning } from '../../recording/index.js';
import { logHead, logText } from '../log-text.js';
import type { ReadAnswer, Reader } from '../reader.js';
import { recordingOfTable } from '../sample-table.js';
import { cleanText } from '../xml/clean-text.js';
import { xmlDocument } from '../xml/xml-document.js';
import { parseXml } from '../xml/xml-element.js';
import { gpxPoints } from './gpx-points.js';

const POINTS = ['trkpt', 'wpt', 'rtept'];

const sniff = (bytes: Uint8Array): boolean => /<(?:[A-Za-z_][\w.-]*:)?gpx[\s>]/.test(logHead(bytes));

const read = (bytes: Uint8Array, file: string): ReadAnswer => {
  const fault = (code: string, message: string): ReadAnswer => ({
    fault: true,
    code,
    file,
    where: null,
    message,
  });
  const document = xmlDocument(logText(bytes), POINTS);
  if (document === null)
    return fault('not-xml', 'the file is not a GPX log: it holds no XML element; export it anew');
  const points = gpxPoints(parseXml(document.text));
  const warnings: Warning[] = [];
  const warn = (code: string, message: string, where: string | null = null): void => {
    warnings.push({ code, file, where, message });
  };
  if (document.cutAt !== null)
    warn(
      'log-cut-off',
      'the file ends or is damaged in the middle of a sample; what stands before it was read, what comes after is lost',
      `after character ${document.cutAt}`,
    );
  if (points === null)
    return fault('not-gpx', 'the file is XML but not a GPX log: its outermost element is not gpx');
  if (points.table.atS.length === 0)
    return fault('no-points', 'the GPX file holds no track points, so there is nothing to analyse');
  if (points.kind !== 'track')
    warn(
      'no-track',
      `the file holds no track; its ${points.kind === 'waypoints' ? 'waypoints' : 'route points'} were taken as one`,
    );
  if (points.zonelessCount > 0)
    warn('time-zone-missing', `${points.zonelessCount} times state no zone and were taken as UTC`);
  return recordingOfTable(points.table, {
    provenance: {
      file,
      format: 'gpx',
      device: cleanText(points.device),
      sport: cleanText(points.sport),
    },
    warnings,
    statedPositionSdM: points.statedPositionSdM,
  });
};

/** GPX 1.0 and 1.1, with speed, cadence and heart rate from extensions of any prefix. */
export const gpxReader: Reader = { format: 'gpx', sniff, read };
