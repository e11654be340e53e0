import type { WarningCode } from '../contract/severity.js';
import {
  CHANNEL_NAMES,
  CHANNEL_SHAPES,
  type ChannelDraft,
  type ChannelName,
  firstOutside,
  type Lap,
  logFault,
  makeRecording,
  PHYSICAL_RANGES,
  type PhysicalRange,
  type Placement,
  type Provenance,
  type Warning,
} from '../recording/index.js';
import { isoTime } from '../units/instant.js';
import { CLOCK_SETTINGS, type RepairedClock, repairClock } from './clock-repair.js';
import { landWork } from './land-work.js';
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
  /** Words for the place of a row in the log, such as `line 12`; its number unless given. */
  readonly whereOf?: (row: number) => string;
}

/** What a reader knows beside the rows. */
export interface TableContext {
  readonly provenance: Provenance;
  readonly warnings: readonly Warning[];
  readonly statedPositionSdM?: number | null;
  readonly statedPlacement?: Placement | null;
  readonly land?: boolean;
}

/** Longest time from the first sample to the last, s: a year. What is longer is no log of an outing, nor of a regatta. */
const LONGEST_SPAN_S = 366 * 86_400;

/** The day of a time on a log's clock, in words. */
const day = (originUnixS: number | null, atS: number): string =>
  originUnixS === null ? `${Math.round(atS)} s` : isoTime(originUnixS + atS).slice(0, 10);

const counted = (count: number, one: string, many: string): string =>
  count === 1 ? `1 ${one}` : `${count} ${many}`;

/** Exactly 0, 0 is what receivers write where they have no place. */
const isNowhere = (lat: number, lon: number): boolean => lat === 0 && lon === 0;

/** True where every row of a channel holds a value that can be used: most logs' channels are so. */
const isHealthy = (name: ChannelName, columns: readonly Float64Array[]): boolean => {
  const ranges = PHYSICAL_RANGES[name];
  if (!columns.every((column, i) => firstOutside(column, ranges[i]!) === column.length)) return false;
  if (name !== 'position') return true;
  const [lat, lon] = columns as [Float64Array, Float64Array];
  for (let row = 0; row < lat.length; row++) if (isNowhere(lat[row]!, lon[row]!)) return false;
  return true;
};

/** Rows of one channel that hold a value that can be used: 1, else 0; and those of a value that cannot be. */
interface UsableRows {
  readonly usable: Uint8Array;
  readonly impossible: number;
  /** The first of them; -1 where there is none. */
  readonly firstImpossible: number;
}

const usableRows = (name: ChannelName, columns: readonly Float64Array[]): UsableRows => {
  const usable = new Uint8Array(columns[0]!.length).fill(1);
  let [impossible, firstImpossible] = [0, -1];
  const ranges = PHYSICAL_RANGES[name];
  for (let row = 0; row < usable.length; row++) {
    let isThere = true;
    let isPossible = true;
    for (let i = 0; i < columns.length; i++) {
      const value = columns[i]![row]!;
      if (Number.isNaN(value)) isThere = false;
      else if (!(value >= ranges[i]!.low && value <= ranges[i]!.high)) isPossible = false;
    }
    if (name === 'position' && isNowhere(columns[0]![row]!, columns[1]![row]!)) isPossible = false;
    // Sensors write 0 for a heart that they do not hear.
    if (name === 'heart_rate' && columns[0]![row] === 0) isThere = false;
    if (isThere && isPossible) continue;
    usable[row] = 0;
    if (!isThere) continue;
    if (impossible === 0) firstImpossible = row;
    impossible++;
  }
  return { usable, impossible, firstImpossible };
};

interface UsableTable {
  readonly table: SampleTable;
  /** For each channel its usable rows; null where all are. */
  readonly usable: Partial<Record<ChannelName, Uint8Array | null>>;
  /** What has to be said of values that cannot be. */
  readonly warnings: readonly Warning[];
  readonly clock: RepairedClock;
}

/** What is left out of a channel, in words. */
const impossibleWarning = (
  name: ChannelName,
  { impossible }: UsableRows,
  file: string,
  where: string,
): Warning => {
  const { unit } = CHANNEL_SHAPES[name];
  const [{ low, high }] = PHYSICAL_RANGES[name] as [PhysicalRange];
  return name === 'position'
    ? {
        code: 'position-impossible',
        file,
        where,
        message: `${counted(impossible, 'position', 'positions')} left out: exactly 0, 0, or where no boat goes (beyond 88° north or south)`,
      }
    : {
        code: 'value-impossible',
        file,
        where,
        message: `${counted(impossible, 'sample', 'samples')} of ${name.replace('_', ' ')} outside ${low} to ${high} ${unit} left out: no logger measures that in a boat`,
      };
};

const usableTable = (table: SampleTable, file: string): UsableTable => {
  const usable: Partial<Record<ChannelName, Uint8Array | null>> = {};
  const warnings: Warning[] = [];
  const whereOf = table.whereOf ?? ((row: number) => `record ${row + 1}`);
  for (const name of CHANNEL_NAMES) {
    const columns = table.columns[name];
    if (columns === undefined) continue;
    const found = isHealthy(name, columns) ? null : usableRows(name, columns);
    if (found !== null && found.impossible > 0)
      warnings.push(impossibleWarning(name, found, file, whereOf(found.firstImpossible)));
    usable[name] = found?.usable ?? null;
  }
  const clock = repairClock({
    file,
    timesS: table.atS,
    originUnixS: table.originUnixS,
    ...carriedOf(usable, table.atS.length),
    ...(table.whereOf ? { whereOf: table.whereOf } : {}),
  });
  return { table, usable, warnings, clock };
};

/** What each row carries, one bit a channel; nothing where all rows carry all channels. */
const carriedOf = (usable: UsableTable['usable'], rowCount: number): { readonly carries?: Uint8Array } => {
  const held = Object.values(usable);
  if (held.length > 0 && held.every((rows) => rows === null)) return {};
  const carries = new Uint8Array(rowCount);
  for (const [bit, name] of CHANNEL_NAMES.entries())
    if (usable[name] !== undefined) addCarried(carries, usable[name], bit);
  return { carries };
};

/** Note in each row that it carries a channel. @param held its usable rows; null: all */
const addCarried = (carries: Uint8Array, held: Uint8Array | null, bit: number): void => {
  for (let row = 0; row < carries.length; row++) carries[row]! |= (held === null ? 1 : held[row]!) << bit;
};

/** Times at which the log begins anew, after the repair. */
const breaksOf = ({ table, clock }: UsableTable): number[] => {
  if (table.segmentRows.length === 0) return [];
  if (clock.kept === null)
    return table.segmentRows.map((row) => clock.atS[row] ?? Number.NaN).filter(Number.isFinite);
  // Time of each row, or of the next row that was kept.
  const timeOf = new Float64Array(table.atS.length).fill(Number.NaN);
  clock.kept.forEach((row, i) => {
    timeOf[row] = clock.atS[i]!;
  });
  for (let row = timeOf.length - 2; row >= 0; row--)
    if (Number.isNaN(timeOf[row]!)) timeOf[row] = timeOf[row + 1]!;
  return table.segmentRows.map((row) => timeOf[row] ?? Number.NaN).filter(Number.isFinite);
};

/** Times closer than this are one, s: half of the least step, for a double's last digit. */
const SAME_S = CLOCK_SETTINGS.leastStepS / 2;

/** Times of all rows from a moment on the clock, where each row has one of its own; else null. */
const timesOfAll = ({ table, clock }: UsableTable, firstS: number): Float64Array | null => {
  const { kept } = clock;
  if (kept === null && firstS === 0) return clock.atS;
  if (kept !== null && kept.length !== table.atS.length) return null;
  const atS = new Float64Array(clock.atS.length);
  let last = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < atS.length; i++) {
    const at = clock.atS[i]! - firstS;
    if ((kept !== null && kept[i] !== i) || at - last < SAME_S) return null;
    atS[i] = at;
    last = at;
  }
  return atS;
};

const draftsOf = (usableOf: UsableTable, firstS: number): Partial<Record<ChannelName, ChannelDraft>> => {
  const { table, usable } = usableOf;
  const breaksS = breaksOf(usableOf).map((at) => at - firstS);
  const all = timesOfAll(usableOf, firstS);
  const drafts: Partial<Record<ChannelName, ChannelDraft>> = {};
  for (const name of CHANNEL_NAMES) {
    const held = usable[name];
    const columns = table.columns[name];
    if (held === undefined || columns === undefined) continue;
    const draft =
      held === null && all !== null
        ? { atS: all, columns, breaksS }
        : pickedDraft(usableOf, columns, held, firstS, breaksS);
    if (draft !== null && draft.atS.length > 0) drafts[name] = draft;
  }
  return drafts;
};

/** The usable rows of one channel, in order of time. */
const pickedDraft = (
  { clock }: UsableTable,
  columns: readonly Float64Array[],
  held: Uint8Array | null,
  firstS: number,
  breaksS: readonly number[],
): ChannelDraft => {
  const { kept } = clock;
  const rows = new Uint32Array(clock.atS.length);
  const atS = new Float64Array(clock.atS.length);
  let count = 0;
  let last = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < rows.length; i++) {
    const row = kept === null ? i : kept[i]!;
    const at = clock.atS[i]! - firstS;
    if ((held !== null && held[row] === 0) || at - last < SAME_S) continue;
    rows[count] = row;
    atS[count++] = at;
    last = at;
  }
  const pick = (column: Float64Array): Float64Array => {
    const picked = new Float64Array(count);
    for (let i = 0; i < count; i++) picked[i] = column[rows[i]!]!;
    return picked;
  };
  return { atS: atS.subarray(0, count), columns: columns.map(pick), breaksS };
};

/**
 * A recording of a log's rows. The clock is repaired ({@link repairClock}); rows that cannot be placed in time
 * are left out, and so are positions that are not on the Earth; warnings count them.
 * @param tables rows, one table for each time base of the log; of two that hold a channel the first has it
 * @returns a recording, or a fault where no row is left
 */
export const recordingOfTables = (tables: readonly SampleTable[], context: TableContext): ReadAnswer => {
  const { file } = context.provenance;
  const read = tables.map((table) => usableTable(table, file));
  const placed = read.filter(({ clock }) => clock.atS.length > 0);
  if (placed.length === 0) {
    if (tables.every(({ atS }) => atS.length === 0))
      return logFault(file, 'no-samples', 'the log holds no samples; record it anew or leave it out');
    if (read.every(({ usable }) => Object.values(usable).every((held) => held !== null && !held.includes(1))))
      return logFault(
        file,
        'no-values',
        'no sample of the log holds a value that can be used; look at it in a text editor or export it anew',
      );
    return logFault(
      file,
      'no-times',
      'no sample of the log has a time, so nothing can be timed; export it with times',
    );
  }
  const { originUnixS } = placed[0]!.clock;
  const together = placed.filter(({ clock }) => (clock.originUnixS === null) === (originUnixS === null));
  const warnings: Warning[] = [
    ...context.warnings,
    ...read.flatMap((table) => [...table.clock.warnings, ...table.warnings]),
  ];
  const warn = (code: WarningCode, message: string): void => {
    warnings.push({ code, file, where: null, message });
  };
  if (together.length < placed.length)
    warn(
      'clocks-differ',
      'some sensors of this log have a clock that was not set, so their samples are left out',
    );
  const firstS = Math.min(...together.map(({ clock }) => clock.atS[0]!));
  const channels: Partial<Record<ChannelName, ChannelDraft>> = {};
  for (const table of together)
    for (const [name, draft] of Object.entries(draftsOf(table, firstS)) as [ChannelName, ChannelDraft][])
      channels[name] ??= draft;
  const land = landWork({
    sport: context.provenance.sport,
    distanceM: channels.distance?.columns[0]?.at(-1) ?? null,
    position: channels.position?.columns ?? null,
    channels: Object.keys(channels) as ChannelName[],
  });
  if (land !== null && context.land !== true)
    warn('land-work', `this log is taken for work on land (${land}), and kept apart from rowing`);
  const lastS = Math.max(...Object.values(channels).map(({ atS }) => atS[atS.length - 1]!));
  if (lastS > LONGEST_SPAN_S)
    return logFault(
      file,
      'span-too-long',
      `the log goes from ${day(originUnixS, firstS)} to ${day(originUnixS, firstS + lastS)}, ${Math.round(lastS / 86_400)} days, which is no outing; cut it into outings, or mend the dates`,
    );
  return makeRecording({
    provenance: context.provenance,
    originUnixS: originUnixS === null ? null : originUnixS + firstS,
    channels,
    laps: tables
      .flatMap(({ laps }) => laps)
      .map((lap) => ({ fromS: lap.fromS - firstS, toS: lap.toS - firstS }))
      .filter((lap) => lap.fromS < lap.toS && lap.toS > 0 && lap.fromS < lastS)
      .filter((lap) => lap.toS - lap.fromS <= LONGEST_SPAN_S)
      .sort((a, b) => a.fromS - b.fromS),
    statedPositionSdM: context.statedPositionSdM ?? null,
    statedPlacement: context.statedPlacement ?? null,
    land: context.land === true || land !== null,
    warnings,
  });
};

/** {@link recordingOfTables} of the one table of a log whose sensors share their times. */
export const recordingOfTable = (table: SampleTable, context: TableContext): ReadAnswer =>
  recordingOfTables([table], context);
