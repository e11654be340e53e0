/** A value with its standard deviation, both in the unit of the name that carries it. */
export interface Estimate {
  readonly value: number;
  readonly sd: number;
}
