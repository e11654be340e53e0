import { logFault } from '../../recording/index.js';
import { logHead } from '../log-text.js';
import type { Reader } from '../reader.js';
import { recordingOfTable } from '../sample-table.js';
import { cleanText } from '../xml/clean-text.js';
import type { PointHomes } from '../xml/xml-document.js';
import { xmlLog } from '../xml/xml-log.js';
import { tcxPoints } from './tcx-points.js';

const sniff = (bytes: Uint8Array): boolean =>
  /<(?:[A-Za-z_][\w.-]*:)?TrainingCenterDatabase[\s>]/.test(logHead(bytes));

const LAP_TRACK = ['Activity', 'Lap', 'Track'];
const HOMES: PointHomes = {
  Trackpoint: [
    ['Activities', ...LAP_TRACK],
    ['Activities', 'MultiSportSession', 'FirstSport', ...LAP_TRACK],
    ['Activities', 'MultiSportSession', 'NextSport', ...LAP_TRACK],
    ['Courses', 'Course', 'Track'],
  ],
};

const read: Reader['read'] = (bytes, file) => {
  const log = xmlLog(bytes, file, 'TCX', HOMES);
  if ('fault' in log) return log;
  const points = tcxPoints(log.document);
  if (points === null)
    return logFault(
      file,
      'not-tcx',
      'the file is XML but not a TCX log: its outermost element is not TrainingCenterDatabase',
    );
  if (points.table.atS.length === 0)
    return logFault(file, 'no-points', 'the TCX file holds no track points, so there is nothing to analyse');
  return recordingOfTable(points.table, {
    provenance: { file, format: 'tcx', device: cleanText(points.device), sport: cleanText(points.sport) },
    warnings: log.warnings,
    land: points.land,
  });
};

/** TCX v2: laps, points without position, speed and cadence from extensions of any prefix. */
export const tcxReader: Reader = { format: 'tcx', sniff, read };
