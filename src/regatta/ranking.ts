/** A crew's result, for ranking. */
export interface Finisher {
  readonly resultS: number;
  /** sd of it that it does not share with the others, s. */
  readonly sdS: number;
}

/** Where a crew came. */
export interface Standing {
  /** 1 for the fastest; crews with the very same result share a place. */
  readonly place: number;
  readonly behindWinnerS: number;
  /** Null for the winner. */
  readonly behindAheadS: number | null;
  /** True where the margin to the crew ahead is beyond its own uncertainty; null for the winner. */
  readonly separable: boolean | null;
}

/** A margin of more than this many of its standard deviations is believed. */
const SURE_SDS = 2;

/** Rank finishers by result; the answer is in the order of the question. */
export const rank = (finishers: readonly Finisher[]): readonly Standing[] => {
  const order = finishers
    .map((finisher, index) => ({ finisher, index }))
    .sort((a, b) => a.finisher.resultS - b.finisher.resultS || a.index - b.index);
  const standings: Standing[] = [];
  order.forEach(({ finisher, index }, position) => {
    const ahead = order[position - 1];
    const marginS = ahead === undefined ? null : finisher.resultS - ahead.finisher.resultS;
    standings[index] = {
      place: marginS === 0 ? standings[ahead!.index]!.place : position + 1,
      behindWinnerS: finisher.resultS - order[0]!.finisher.resultS,
      behindAheadS: marginS,
      separable: marginS === null ? null : marginS > SURE_SDS * Math.hypot(finisher.sdS, ahead!.finisher.sdS),
    };
  });
  return standings;
};
