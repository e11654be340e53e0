import type { WarningCode } from '../../contract/severity.js';
import { logFault, type Warning } from '../../recording/index.js';
import { logHead } from '../log-text.js';
import type { Reader } from '../reader.js';
import { recordingOfTable } from '../sample-table.js';
import { cleanText } from '../xml/clean-text.js';
import { gpxParsed } from './gpx-parsed.js';
import { gpxScanned } from './gpx-scanned.js';

const sniff = (bytes: Uint8Array): boolean => /<(?:[A-Za-z_][\w.-]*:)?gpx[\s>]/.test(logHead(bytes));

const read: Reader['read'] = (bytes, file) => {
  const scanned = gpxScanned(bytes);
  const answer = scanned === null ? gpxParsed(bytes, file) : { points: scanned, warnings: [] };
  if ('fault' in answer) return answer;
  const { points } = answer;
  if (points.table.atS.length === 0)
    return logFault(file, 'no-points', 'the GPX file holds no track points, so there is nothing to analyse');
  const warnings: Warning[] = [...answer.warnings];
  const warn = (code: WarningCode, message: string): void => {
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
