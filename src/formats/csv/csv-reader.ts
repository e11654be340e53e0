import type { ChannelName, Warning } from '../../recording/index.js';
import { parseDecimal } from '../decimal.js';
import { logHead, logText } from '../log-text.js';
import type { ReadAnswer, Reader } from '../reader.js';
import { recordingOfTable } from '../sample-table.js';
import { type CsvClock, type CsvClockFault, textClock } from './csv-clock.js';
import { type CsvColumn, csvColumns } from './csv-columns.js';
import { csvLayout, csvSheet } from './csv-sheet.js';
import { csvUnit } from './csv-unit.js';

const NAMES_HINT = 'such as time_s, ax_mps2, ay_mps2, az_mps2, lat_deg, lon_deg, speed_mps';

const sniff = (bytes: Uint8Array): boolean => {
  const head = logHead(bytes);
  return /^[^\n]*[,;\t|]/m.test(head) && !/^\s*[<$!{]/.test(head) && !/[\0-\x08\x0e-\x1f\ufffd]/.test(head);
};

const read: Reader['read'] = (bytes, file, { columns: map = {} }): ReadAnswer => {
  const fault = (code: string, message: string, where: string | null = null): ReadAnswer => ({
    fault: true,
    code,
    file,
    where,
    message,
  });
  const warnings: Warning[] = [];
  const warn = (code: string, message: string, where: string | null = null): void => {
    warnings.push({ code, file, where, message });
  };
  const text = logText(bytes);
  const layout = csvLayout(text, new Set(Object.keys(map)));
  if (layout.headerRow === null && Object.keys(map).length === 0)
    return fault(
      'no-header',
      `no line names the columns; put a header on top (${NAMES_HINT}), or tell what column 1, 2, … holds with --columns map.json, such as {"1": "time_s", "2": "ax_mps2"}`,
      'line 1',
    );
  const sheet = csvSheet(text, layout);
  const columns = csvColumns(sheet.header, map);
  if (columns.wrong.length > 0)
    return fault('columns-map', `the map of --columns does not fit: ${columns.wrong.join('; ')}`);
  if (columns.time === null && columns.date === null)
    return fault(
      'no-time-column',
      `no column holds the time; name one time, time_s or time_ms, or map one with --columns map.json, such as {"${sheet.header[0] ?? '1'}": "time_s"}`,
      `line ${sheet.headerLine}`,
    );
  const names = Object.keys(columns.channels) as ChannelName[];
  if (names.length === 0)
    return fault(
      'no-known-columns',
      `no column beside the time is known; name them ${NAMES_HINT}, or map them with --columns map.json`,
      `line ${sheet.headerLine}`,
    );
  const cell = (row: readonly string[], column: CsvColumn): string => row[column.index] ?? '';
  const number = (raw: string): number => parseDecimal(sheet.decimalComma ? raw.replace(',', '.') : raw);
  const numbersOf = (column: CsvColumn): Float64Array =>
    Float64Array.from(sheet.rows, (row) => number(cell(row, column)));
  const { time, date } = columns;
  const times = sheet.rows.map((row) =>
    time === null
      ? cell(row, date!)
      : date === null || /^\d{4}-/.test(cell(row, time))
        ? cell(row, time)
        : `${cell(row, date)} ${cell(row, time)}`.trim(),
  );
  const motion = columns.channels.acceleration !== undefined || columns.channels.rotation !== undefined;
  const clock: CsvClock | CsvClockFault = textClock(
    sheet.decimalComma ? times.map((raw) => raw.replace(',', '.')) : times,
    time?.scale ?? null,
    motion,
  );
  if ('refused' in clock) return fault(clock.code, clock.refused);
  for (const [code, message] of clock.notes) warn(code, message);
  const table: Partial<Record<ChannelName, readonly Float64Array[]>> = {};
  for (const name of names) {
    const found = columns.channels[name]!;
    const raw = found.map(numbersOf);
    const unstated = found.some(({ scale }) => scale === null) ? csvUnit(name, raw) : null;
    if (unstated !== null)
      warn(
        'unit-assumed',
        `the header of ${found.map(({ header }) => `"${header.slice(0, 40)}"`).join(', ')} states no unit; ${unstated.unit} was taken by the size of the values; name such a column ${unstated.example} to be sure`,
      );
    table[name] = raw.map((column, i) => {
      const scale = found[i]!.scale ?? unstated?.scale ?? 1;
      return scale === 1 ? column : column.map((value) => value * scale);
    });
  }
  if (columns.linear)
    warn(
      'gravity-removed',
      'the acceleration is without gravity, so the tilt of the sensor cannot be found; record the accelerometer itself',
    );
  return recordingOfTable(
    { atS: clock.atS, originUnixS: clock.originUnixS, columns: table, segmentRows: [], laps: [] },
    { provenance: { file, format: 'csv', device: null, sport: null }, warnings },
  );
};

/** CSV tracks, CSV logs of motion sensors, and both in one. */
export const csvReader: Reader = { format: 'csv', sniff, read };
