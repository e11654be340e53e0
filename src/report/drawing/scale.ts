import { scaleLinear } from 'd3-scale';
import type { Quantity, Tick } from './quantity.js';

/** From values to places on a drawing. */
export interface Scale {
  readonly quantity: Quantity;
  /** Lowest and highest value. */
  readonly domain: readonly [number, number];
  /** Their places, px. */
  readonly range: readonly [number, number];
  /** Place of a value, px. */
  readonly at: (value: number) => number;
  readonly ticks: readonly Tick[];
}

/** A straight scale of a quantity. */
export const scaleOf = (
  quantity: Quantity,
  domain: readonly [number, number],
  range: readonly [number, number],
): Scale => {
  const linear = scaleLinear().domain(domain).range(range);
  return {
    quantity,
    domain,
    range,
    at: (value) => linear(value),
    ticks: quantity.ticks(domain, Math.abs(range[1] - range[0])),
  };
};

/** How much room a scale leaves beyond its values, as a share of them; 0.03 to 0.1. */
const ROOM = 0.05;

/**
 * A domain that holds values with some room.
 * @param least narrower than this it does not get: what differs by less must not look as if it did
 */
export const domainOf = (
  values: readonly number[],
  { room = ROOM, least = 1e-6 }: { readonly room?: number; readonly least?: number } = {},
): readonly [number, number] => {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  if (low > high) return [0, 1];
  const spread = Math.max((high - low) * room, (least - (high - low)) / 2);
  return [low - spread, high + spread];
};
