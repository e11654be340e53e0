import type { WarningCode } from '../../contract/severity.js';
import { type ChannelName, logFault, type Warning } from '../../recording/index.js';
import { logHead, logText } from '../log-text.js';
import { LogTooLarge, READ_BOUNDS } from '../log-too-large.js';
import type { ReadAnswer, Reader } from '../reader.js';
import { recordingOfTable } from '../sample-table.js';
import { statedSdM } from '../stated-sd.js';
import { type CsvClock, csvClock } from './csv-clock.js';
import { type CsvColumn, type CsvColumns, csvColumns } from './csv-columns.js';
import { completeEnd } from './csv-complete.js';
import { freshRows } from './csv-held.js';
import { csvLayout } from './csv-layout.js';
import { type CsvScanColumns, csvByteSource } from './csv-scan.js';
import { type CsvSource, csvTextSource } from './csv-source.js';
import { csvUnit, gravityUnit, UNIT_CHANNELS } from './csv-unit.js';

const NAMES_HINT = 'such as time_s, ax_mps2, ay_mps2, az_mps2, lat_deg, lon_deg, speed_mps';

/** Bytes in which the header is looked for. */
const HEAD_BYTES = 65536;

const sniff = (bytes: Uint8Array): boolean => {
  const head = logHead(bytes);
  return /^[^\n]*[,;\t|]/m.test(head) && !/^\s*[<$!{]/.test(head) && !/[\0-\x08\x0e-\x1f\ufffd]/.test(head);
};

/** Channels that a receiver gives together. */
const FIX_CHANNELS: readonly ChannelName[] = ['position', 'speed', 'elevation'];

type Columns = Partial<Record<ChannelName, readonly Float64Array[]>>;

/** Rows of a track that are but repeated beside a motion sensor's, emptied. */
const withoutHeld = (columns: Columns): Columns | null => {
  const fresh =
    columns.position === undefined || (columns.acceleration ?? columns.rotation) === undefined
      ? null
      : freshRows(columns.position);
  if (fresh === null) return null;
  const thinned = { ...columns };
  for (const name of FIX_CHANNELS)
    if (columns[name] !== undefined)
      thinned[name] = columns[name].map((column) =>
        column.map((value, row) => (fresh[row] === 1 ? value : Number.NaN)),
      );
  return thinned;
};

/** The best clock among the columns of times: a date before none, a stated unit before none. */
const bestClock = (
  source: CsvSource,
  times: readonly CsvColumn[],
  date: CsvColumn | null,
  motion: boolean,
): ReturnType<typeof csvClock> => {
  const clocks = [...times]
    .sort((a, b) => Number(a.scale === null) - Number(b.scale === null))
    .flatMap((time) => {
      const alone = csvClock(source, { time: time.index, date: null }, time.scale, motion);
      if (date === null || (!('refused' in alone) && alone.originUnixS !== null)) return [alone];
      const dated = csvClock(source, { time: time.index, date: date.index }, null, motion);
      return 'refused' in dated && dated.code !== 'date-ambiguous' ? [alone] : [dated];
    });
  const read = clocks.filter((clock): clock is CsvClock => !('refused' in clock));
  return read.find(({ originUnixS }) => originUnixS !== null) ?? read[0] ?? clocks[0]!;
};

/** What the scanner has to read; a date in a column of its own is left to the parser. */
const scanColumns = (columns: CsvColumns, times: readonly CsvColumn[]): CsvScanColumns => {
  const { channels, bareAxes, accuracy, date } = columns;
  const numbers = [...Object.values(channels).flat(), ...(bareAxes ?? []), ...(accuracy ? [accuracy] : [])];
  const dates = date !== null && !times.includes(date) ? [date] : [];
  return {
    numbers: [...numbers, ...dates].map(({ index }) => index),
    times: times.map(({ index }) => index),
  };
};

const [LF, CR] = [10, 13];

const lineEndOf = (bytes: Uint8Array): number => (bytes.includes(LF) ? LF : CR);

/** @throws LogTooLarge where there are more lines than a log may have samples */
const holdToBounds = (bytes: Uint8Array): void => {
  const lineEnd = lineEndOf(bytes);
  let count = 0;
  for (let at = bytes.indexOf(lineEnd); at >= 0; at = bytes.indexOf(lineEnd, at + 1)) count++;
  if (count > READ_BOUNDS.samples) throw new LogTooLarge(`${count} lines`);
};

/** A line longer than this is no row of a table, bytes; a thousand columns of numbers are 20,000. */
const LONGEST_LINE = 1024 ** 2;

/** The length of the first line that is too long, bytes; 0 where none is. Goes in leaps, each to the last line end within. */
const lineTooLong = (bytes: Uint8Array): number => {
  const lineEnd = lineEndOf(bytes);
  for (let from = 0; bytes.length - from > LONGEST_LINE; ) {
    const last = bytes.lastIndexOf(lineEnd, from + LONGEST_LINE);
    if (last < from) {
      const end = bytes.indexOf(lineEnd, from);
      return (end < 0 ? bytes.length : end) - from;
    }
    from = last + 1;
  }
  return 0;
};

const read: Reader['read'] = (bytes, file, { columns: map = {} }): ReadAnswer => {
  const warnings: Warning[] = [];
  const warn = (code: WarningCode, message: string, where: string | null = null): void => {
    warnings.push({ code, file, where, message });
  };
  const tooLong = lineTooLong(bytes);
  if (tooLong > 0)
    return logFault(
      file,
      'line-too-long',
      `a line of ${(tooLong / 1024 ** 2).toFixed(0)} MB is no row of a table; copy the log anew`,
    );
  const layout = csvLayout(logHead(bytes, HEAD_BYTES), new Set(Object.keys(map)));
  if (!layout.named) holdToBounds(bytes);
  if (!layout.named && Object.keys(map).length === 0)
    return logFault(
      file,
      'no-header',
      `no line names the columns; put a header on top (${NAMES_HINT}), or say what column 1, 2, … holds with --columns map.json, such as {"1": "time_s", "2": "ax_mps2"}`,
      'line 1',
    );
  const columns = csvColumns(layout.header, map);
  if (columns.wrong.length > 0)
    return logFault(file, 'columns-map', `the map of --columns does not fit: ${columns.wrong.join('; ')}`);
  const headerPlace = layout.named ? `row ${layout.skipRows}` : null;
  const times = columns.times.length > 0 ? columns.times : columns.date === null ? [] : [columns.date];
  if (times.length === 0)
    return logFault(
      file,
      'no-time-column',
      `no column holds the time; name one time, time_s or time_ms, or map one with --columns map.json, such as {"${layout.header[0] ?? '1'}": "time_s"}`,
      headerPlace,
    );
  const end = completeEnd(bytes);
  if (end < bytes.length) warn('cut-off', 'the last row is cut off and was left out');
  const whole = bytes.subarray(0, end);
  const scanned = csvByteSource(whole, layout, scanColumns(columns, times));
  if (scanned === null) holdToBounds(bytes);
  const source = scanned ?? csvTextSource(logText(whole, READ_BOUNDS.csvBytes), layout);
  if (source.ragged.count > 0)
    warn(
      'rows-ragged',
      `${source.ragged.count} rows have more or fewer cells than the header and were left out`,
      `data row ${source.ragged.firstRow}`,
    );
  const numbersOf = (column: CsvColumn): Float64Array => {
    const { count, firstRow } = source.unreadable(column.index);
    if (count > 0)
      warn(
        'cells-unreadable',
        `${count} cells of column "${column.header.slice(0, 40)}" are no numbers and were left out`,
        `data row ${firstRow}`,
      );
    return source.numbers(column.index);
  };
  const raw: Columns = {};
  for (const [name, found] of Object.entries(columns.channels) as [ChannelName, readonly CsvColumn[]][])
    raw[name] = found.map(numbersOf);
  const found: Partial<Record<ChannelName, readonly CsvColumn[]>> = { ...columns.channels };
  const bare = columns.bareAxes?.map(({ index }) => source.numbers(index));
  if (bare !== undefined && gravityUnit(bare) !== null) {
    raw.acceleration = bare;
    found.acceleration = columns.bareAxes!;
  }
  if (Object.keys(raw).length === 0)
    return logFault(
      file,
      'no-known-columns',
      `no column beside the time is known; name them ${NAMES_HINT}, or map them with --columns map.json`,
      headerPlace,
    );
  const motion = raw.acceleration !== undefined || raw.rotation !== undefined;
  const clock = bestClock(source, times, columns.date, motion);
  if ('refused' in clock) return logFault(file, clock.code, clock.refused);
  for (const [code, message] of clock.notes) warn(code, message);
  const fixes = withoutHeld(raw);
  if (fixes !== null)
    warn(
      'fixes-held',
      'the log repeats each position until the next, so only the first of each was taken; name the rows of new fixes by leaving the others empty',
    );
  const table: Columns = {};
  for (const [name, values] of Object.entries(fixes ?? raw) as [ChannelName, readonly Float64Array[]][]) {
    const of = found[name]!;
    const unstated = UNIT_CHANNELS.includes(name) && of.some(({ scale }) => scale === null);
    const clues = { atS: clock.atS, position: (fixes ?? raw).position };
    const unit = unstated ? csvUnit(name, values, clues) : null;
    const headers = of.map(({ header }) => `"${header.slice(0, 40)}"`).join(', ');
    if (unit !== null)
      warn(
        'unit-assumed',
        `the header of ${headers} states no unit; ${unit.unit} was taken by the size of the values; name such a column ${unit.example} to be sure`,
      );
    else if (unstated) {
      warn(
        'unit-unknown',
        `the header of ${headers} states no unit and the values fit none, so it was left out; name it speed_mps, speed_kmh or speed_knots`,
      );
      continue;
    }
    table[name] = values.map((column, i) => {
      const scale = of[i]!.scale ?? unit?.scale ?? 1;
      return scale === 1 ? column : column.map((value) => value * scale);
    });
  }
  if (columns.linear)
    warn(
      'gravity-removed',
      'the acceleration is without gravity, so the tilt of the sensor cannot be found; record the accelerometer itself',
    );
  const accuracy = columns.accuracy === null ? null : source.numbers(columns.accuracy.index);
  return recordingOfTable(
    { atS: clock.atS, originUnixS: clock.originUnixS, columns: table, segmentRows: [], laps: [] },
    {
      provenance: { file, format: 'csv', device: null, sport: null },
      warnings,
      statedPositionSdM: accuracy === null ? null : statedSdM(accuracy),
    },
  );
};

/** CSV tracks, CSV logs of motion sensors, and both in one. */
export const csvReader: Reader = { format: 'csv', sniff, read };
