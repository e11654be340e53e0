import type { Warning } from '../../recording/index.js';
import { logHead } from '../log-text.js';
import type { Reader } from '../reader.js';
import { recordingOfTable } from '../sample-table.js';
import { cleanText } from '../xml/clean-text.js';
import { xmlLog } from '../xml/xml-log.js';
import { gpxPoints } from './gpx-points.js';

const sniff = (bytes: Uint8Array): boolean => /<(?:[A-Za-z_][\w.-]*:)?gpx[\s>]/.test(logHead(bytes));

const read: Reader['read'] = (bytes, file) => {
  const log = xmlLog(bytes, file, 'GPX', ['trkpt', 'wpt', 'rtept']);
  if ('fault' in log) return log;
  const points = gpxPoints(log.document);
  const fault = (code: string, message: string) =>
    ({ fault: true, code, file, where: null, message }) as const;
  if (points === null)
    return fault('not-gpx', 'the file is XML but not a GPX log: its outermost element is not gpx');
  if (points.table.atS.length === 0)
    return fault('no-points', 'the GPX file holds no track points, so there is nothing to analyse');
  const warnings: Warning[] = [...log.warnings];
  const warn = (code: string, message: string): void => {
    warnings.push({ code, file, where: null, message });
  };
  if (points.kind !== 'track')
    warn(
      'no-track',
      `the file holds no track; its ${points.kind === 'waypoints' ? 'waypoints' : 'route points'} were taken as one`,
    );
  if (points.zonelessCount > 0)
    warn('time-zone-missing', `${points.zonelessCount} times state no zone and were taken as UTC`);
  return recordingOfTable(points.table, {
    provenance: { file, format: 'gpx', device: cleanText(points.device), sport: cleanText(points.sport) },
    warnings,
    statedPositionSdM: points.statedPositionSdM,
  });
};

/** GPX 1.0 and 1.1, with speed, cadence and heart rate from extensions of any prefix. */
export const gpxReader: Reader = { format: 'gpx', sniff, read };
