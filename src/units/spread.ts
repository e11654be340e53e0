/** A value with its standard deviation, both in the unit of the name that carries it. */
export interface Spread {
  readonly value: number;
  readonly sd: number;
}
