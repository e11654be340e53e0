import { type MarginRow, type SeatsResult, type SwapRow, swapRow } from '../contract/seats.js';
import { grouped } from '../units/grouped.js';
import { clockCell, distanceCell, numberCell, timeCell } from './cells.js';
import { figures, figuresWhereKnown, type Reading, type Section, words } from './section.js';
import { flat, type View } from './view.js';

const signed = (seconds: number, decimals = 1): string =>
  `${seconds < 0 ? '' : '+'}${numberCell(seconds, decimals)}`;

const namesOf = (people: readonly string[]): string => people.join(' and ');

const marginSection = (rows: readonly MarginRow[], reading: Reading): Section => {
  const { boat, other_boat } = rows[0]!;
  return {
    title: `${boat} beside ${other_boat}`,
    columns: [
      words('piece'),
      figures('from'),
      figures('over'),
      figures(boat),
      figures(other_boat),
      figures(`${boat} ahead`),
      figuresWhereKnown('rates'),
      figuresWhereKnown('to °'),
      figuresWhereKnown('wind m/s'),
    ],
    rows: rows.map((row) => [
      row.piece,
      timeCell(row.start_time, reading),
      distanceCell(row.compared_over_m),
      clockCell(row.compared_s, 1),
      clockCell(row.other_compared_s, 1),
      `${signed(row.margin_s)} s ±${numberCell(row.margin_sd_s, 1)}`,
      row.rate_spm === null && row.other_rate_spm === null
        ? numberCell(null)
        : `${numberCell(row.rate_spm, 1)} ${numberCell(row.other_rate_spm, 1)}`,
      numberCell(row.heading_deg),
      numberCell(row.wind_mps, 1),
    ]),
    notes: [],
  };
};

/** What a swap tells, in a sentence. */
const conclusion = (swap: SwapRow): string => {
  const [people, against] = [namesOf(swap.people), namesOf(swap.against)];
  if (!swap.shown)
    return `Inside the noise: these pieces show no difference between ${people} and ${against}.`;
  const [faster, slower] = swap.worth_s > 0 ? [people, against] : [against, people];
  return `Shown: a boat is faster with ${faster} than with ${slower}.`;
};

const swapSection = (swaps: readonly SwapRow[], notes: readonly string[]): Section => ({
  title: 'Swaps, each on its own',
  columns: [
    figures('#'),
    words('with'),
    words('against'),
    words('pieces'),
    figures('margin moved'),
    figures('worth to a boat'),
    figures('over'),
  ],
  rows: swaps.map((swap) => [
    numberCell(swap.swap),
    namesOf(swap.people),
    namesOf(swap.against),
    `${swap.pieces.join(' ')}${swap.swapped_back ? ', back' : ''}`,
    `${signed(swap.change_s)} s ±${numberCell(swap.change_sd_s, 1)}`,
    `${signed(swap.worth_s)} s ±${numberCell(swap.worth_sd_s, 1)}`,
    distanceCell(swap.over_m),
  ]),
  notes,
});

const BY = {
  given: '(as given with --variation)',
  assumed: '(usual from race to race; give what you know of your crews with --variation)',
  'assumed and repeats': '(between the usual 1.0 % and what these crews show in pieces rowed again)',
} as const;

const notesOf = (result: SeatsResult): string[] => {
  const { swaps } = result;
  const drifting = swaps.filter(({ drift_s }) => drift_s !== null);
  return [
    ...swaps.map((swap) => `${swap.swap}. ${conclusion(swap)}`),
    `The ± is one standard deviation: of the times, and of a crew from piece to piece, ${numberCell(result.variation_pct, 1)} % ${BY[result.variation_by]}. A swap is shown beyond 2.5 of them.`,
    ...(drifting.length > 0
      ? [
          `Swapped back, a steady drift from piece to piece (who tires, which lane) is taken out: ${drifting.map((swap) => `${signed(swap.drift_s!)} s a piece in swap ${swap.swap}`).join(', ')}.`,
        ]
      : []),
    ...(drifting.length < swaps.length
      ? [
          'Where nobody swapped back, a drift from piece to piece (who tires, which lane, the wind) counts as part of the swap: row the first crews once more to separate them.',
        ]
      : []),
    'A swap is worth what it is with these others in the boat; no order of merit follows.',
  ];
};

/** `thole seats`: margins, and each swap on its own. */
export const seatsView: View<SeatsResult> = {
  pictures: async () => (await import('./pictures/seats.js')).seatsPictures,
  keys: Object.keys(swapRow.shape),
  rows: ({ swaps }) => swaps,
  cells: ({ swaps }) =>
    swaps.map((swap) => ({
      ...flat(swap),
      people: swap.people.join(' / '),
      against: swap.against.join(' / '),
      pieces: swap.pieces.join(' / '),
    })),
  sections: (result, reading) => {
    const pairs = grouped(result.margins, (row) => JSON.stringify([row.boat, row.other_boat]));
    return [
      ...[...pairs.values()].map((rows) => marginSection(rows, reading)),
      ...(result.swaps.length === 0 ? [] : [swapSection(result.swaps, notesOf(result))]),
    ];
  },
};
