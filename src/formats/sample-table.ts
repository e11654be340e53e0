import type { ChannelDraft, ChannelName, Lap, Placement, Provenance, Warning } from '../recording/index.js';
import { CHANNEL_SHAPES, makeRecording } from '../recording/index.js';
import type { ReadAnswer } from './reader.js';

/** The rows of a log as they stand in it: one time a row, NaN for whatever a row does not hold. */
export interface SampleTable {
  /** Time of each row, seconds from `originUnixS` (or from any start); NaN where the row has none. */
  readonly atS: Float64Array;
  /** Unix time of 0 in `atS`, s; null where the log has no absolute clock. */
  readonly originUnixS: number | null;
  /** Components in the order and unit of CHANNEL_SHAPES; NaN where missing. */
  readonly columns: Readonly<Partial<Record<ChannelName, readonly Float64Array[]>>>;
  /** Rows at which the log itself begins anew. */
  readonly segmentRows: readonly number[];
  /** Laps of the log itself, on the clock of `atS`. */
  readonly laps: readonly Lap[];
}

/** What a reader knows beside the rows. */
export interface TableContext {
  readonly provenance: Provenance;
  readonly warnings: readonly Warning[];
  readonly statedPositionSdM?: number | null;
  readonly statedPlacement?: Placement | null;
  readonly land?: boolean;
}

const counted = (count: number, one: string, many: string): string =>
  count === 1 ? `1 ${one}` : `${count} ${many}`;

/** Rows that have a time later than every row before them, and how many were left out for each reason. */
const rowsInOrder = (atS: Float64Array): { rows: Int32Array; timeless: number; backward: number } => {
  const rows = new Int32Array(atS.length);
  let [kept, timeless, backward, last] = [0, 0, 0, Number.NEGATIVE_INFINITY];
  for (let row = 0; row < atS.length; row++) {
    const at = atS[row]!;
    if (!Number.isFinite(at)) timeless++;
    else if (at <= last) backward++;
    else {
      rows[kept++] = row;
      last = at;
    }
  }
  return { rows: rows.subarray(0, kept), timeless, backward };
};

const isPlace = (lat: number, lon: number): boolean =>
  Math.abs(lat) <= 90 && Math.abs(lon) <= 180 && !(lat === 0 && lon === 0);

const breaksOf = (table: SampleTable, rows: Int32Array): number[] => {
  const breaks: number[] = [];
  let next = 0;
  for (const row of table.segmentRows) {
    while (next < rows.length && rows[next]! < row) next++;
    if (next > 0 && next < rows.length) breaks.push(table.atS[rows[next]!]!);
  }
  return breaks;
};

const draftOf = (
  table: SampleTable,
  name: ChannelName,
  rows: Int32Array,
  breaksS: readonly number[],
): { draft: ChannelDraft | null; offEarth: number } => {
  const columns = table.columns[name]!;
  const kept = new Int32Array(rows.length);
  let [count, offEarth] = [0, 0];
  for (const row of rows) {
    if (!columns.every((column) => Number.isFinite(column[row]!))) continue;
    if (name === 'position' && !isPlace(columns[0]![row]!, columns[1]![row]!)) offEarth++;
    else if (name === 'heart_rate' && !(columns[0]![row]! > 0)) continue;
    else kept[count++] = row;
  }
  if (count === 0) return { draft: null, offEarth };
  const pick = (from: Float64Array): Float64Array => {
    if (count === from.length) return from;
    const to = new Float64Array(count);
    for (let i = 0; i < count; i++) to[i] = from[kept[i]!]!;
    return to;
  };
  return { draft: { atS: pick(table.atS), columns: columns.map(pick), breaksS }, offEarth };
};

/**
 * A recording of a log's rows: rows without a time or with a time not later than those before are left out,
 * and so are positions that are not on the Earth; a warning counts them.
 * @returns a recording, or a fault where no row is left
 */
export const recordingOfTable = (table: SampleTable, context: TableContext): ReadAnswer => {
  const { file } = context.provenance;
  const warnings: Warning[] = [...context.warnings];
  const warn = (code: string, message: string): void => {
    warnings.push({ code, file, where: null, message });
  };
  const { rows, timeless, backward } = rowsInOrder(table.atS);
  if (rows.length === 0)
    return {
      fault: true,
      code: 'no-times',
      file,
      where: null,
      message:
        table.atS.length === 0
          ? 'the log holds no samples; record it anew or leave it out'
          : 'no sample of the log has a time, so nothing can be timed; export it with times',
    };
  if (timeless > 0)
    warn(
      'samples-without-time',
      `${counted(timeless, 'sample has', 'samples have')} no time and were left out`,
    );
  if (backward > 0)
    warn(
      'time-not-later',
      `${counted(backward, 'sample is', 'samples are')} not later than the one before and were left out`,
    );
  const breaksS = breaksOf(table, rows);
  const channels: Partial<Record<ChannelName, ChannelDraft>> = {};
  for (const name of Object.keys(CHANNEL_SHAPES) as ChannelName[]) {
    if (table.columns[name] === undefined) continue;
    const { draft, offEarth } = draftOf(table, name, rows, breaksS);
    if (draft !== null) channels[name] = draft;
    if (offEarth > 0)
      warn(
        'position-impossible',
        `${counted(offEarth, 'position is', 'positions are')} not a place on the Earth or exactly 0, 0, and were left out`,
      );
  }
  if (Object.keys(channels).length === 0)
    return {
      fault: true,
      code: 'no-samples',
      file,
      where: null,
      message: 'no sample of the log holds a value that can be used; look at it in a text editor',
    };
  return makeRecording({
    provenance: context.provenance,
    originUnixS: table.originUnixS,
    channels,
    laps: table.laps,
    statedPositionSdM: context.statedPositionSdM ?? null,
    statedPlacement: context.statedPlacement ?? null,
    land: context.land ?? false,
    warnings,
  });
};
