import type { ChannelName } from '../../recording/index.js';
import { CHANNEL_SHAPES } from '../../recording/index.js';
import { type CsvQuantity, csvQuantity } from './csv-quantity.js';

/** A column of the file and its unit. */
export interface CsvColumn {
  readonly index: number;
  readonly header: string;
  /** Multiplier to the channel's unit; null where the header states none. */
  readonly scale: number | null;
}

/** Which columns of a CSV log hold what. */
export interface CsvColumns {
  /** All columns of times, in their order. */
  readonly times: readonly CsvColumn[];
  readonly date: CsvColumn | null;
  readonly accuracy: CsvColumn | null;
  /** Columns called x, y and z and no more, where no acceleration is named; null without. */
  readonly bareAxes: readonly CsvColumn[] | null;
  /** Complete channels only: all components present. */
  readonly channels: Readonly<Partial<Record<ChannelName, readonly CsvColumn[]>>>;
  /** The acceleration is without gravity. */
  readonly linear: boolean;
  /** Columns given a name in the map that the file does not have, or a name that is not known. */
  readonly wrong: readonly string[];
}

const isComplete = (columns: readonly (CsvColumn | undefined)[], name: ChannelName): boolean =>
  CHANNEL_SHAPES[name].components.every((_, component) => columns[component] !== undefined);

/**
 * Columns by their headers, or by the user's map from a column's own header to a name that is known.
 * Where two columns measure the same, the first is taken; an acceleration with gravity goes before one without.
 */
export const csvColumns = (header: readonly string[], map: Readonly<Record<string, string>>): CsvColumns => {
  const wrong = Object.entries(map).flatMap(([own, name]) => [
    ...(header.includes(own) ? [] : [`the file has no column "${own}"`]),
    ...(csvQuantity(name) === null ? [`"${name}" is no name that is known`] : []),
  ]);
  const times: CsvColumn[] = [];
  const single = new Map<string, CsvColumn>();
  const groups = new Map<string, (CsvColumn | undefined)[]>();
  const place = (quantity: CsvQuantity, column: CsvColumn): void => {
    const { channel, component, linear } = quantity;
    if (channel === 'time') {
      times.push(column);
      return;
    }
    if (channel === 'date' || channel === 'accuracy') {
      if (!single.has(channel)) single.set(channel, column);
      return;
    }
    const key = linear ? `${channel} linear` : channel;
    const group = groups.get(key) ?? [];
    group[component] ??= column;
    groups.set(key, group);
  };
  const mapped = new Set(Object.values(map).map((name) => csvQuantity(name)?.channel));
  for (const [index, own] of header.entries()) {
    const name = Object.hasOwn(map, own) ? map[own] : undefined;
    const quantity = csvQuantity(name ?? own);
    if (quantity === null || (name === undefined && mapped.has(quantity.channel))) continue;
    place(quantity, { index, header: own, scale: quantity.scale });
  }
  const channels: Partial<Record<ChannelName, readonly CsvColumn[]>> = {};
  for (const name of Object.keys(CHANNEL_SHAPES) as ChannelName[]) {
    const group = groups.get(name);
    if (group !== undefined && isComplete(group, name)) channels[name] = group as CsvColumn[];
  }
  const without = groups.get('acceleration linear');
  const linear =
    channels.acceleration === undefined && without !== undefined && isComplete(without, 'acceleration');
  if (linear) channels.acceleration = without as CsvColumn[];
  const bare = ['x', 'y', 'z'].map((axis) => header.findIndex((own) => own.toLowerCase() === axis));
  const hasBare = channels.acceleration === undefined && bare.every((index) => index >= 0);
  return {
    times,
    bareAxes: hasBare ? bare.map((index) => ({ index, header: header[index]!, scale: null })) : null,
    date: single.get('date') ?? null,
    accuracy: single.get('accuracy') ?? null,
    channels,
    linear,
    wrong,
  };
};
