import type { Scenario } from '../../src/contract/scenario.js';
import { logged } from '../../src/simulate/simulate.js';

/** A file of the seat race, by its name below samples/seats. */
export interface SeatsFile {
  readonly name: string;
  readonly text: string;
}

/** Eight of the invented club, each with the force on the blade against the mean of all. */
const FORCE: Readonly<Record<string, number>> = {
  ...{ Ada: 1.1, Bo: 1.01, Cy: 0.99, Di: 1 },
  ...{ Eva: 0.9, Fin: 1, Gus: 1, Hal: 0.99 },
};

/** Who sat where, bow to stroke, red and blue: Ada and Eva swap there, back and there again, then Bo and Fin. */
const PIECES: readonly (readonly [red: readonly string[], blue: readonly string[]])[] = [
  [
    ['Ada', 'Bo', 'Cy', 'Di'],
    ['Eva', 'Fin', 'Gus', 'Hal'],
  ],
  [
    ['Eva', 'Bo', 'Cy', 'Di'],
    ['Ada', 'Fin', 'Gus', 'Hal'],
  ],
  [
    ['Ada', 'Bo', 'Cy', 'Di'],
    ['Eva', 'Fin', 'Gus', 'Hal'],
  ],
  [
    ['Eva', 'Bo', 'Cy', 'Di'],
    ['Ada', 'Fin', 'Gus', 'Hal'],
  ],
  [
    ['Eva', 'Fin', 'Cy', 'Di'],
    ['Ada', 'Bo', 'Gus', 'Hal'],
  ],
  [
    ['Eva', 'Bo', 'Cy', 'Di'],
    ['Ada', 'Fin', 'Gus', 'Hal'],
  ],
];

/** How each crew rowed a piece against its usual, red and blue. */
const FORM = [
  [1.006, 0.996],
  [0.998, 1.004],
  [1.001, 1.007],
  [0.993, 0.997],
  [1.004, 1.002],
  [0.997, 0.991],
] as const;

const WIND_MPS = [1.5, 1.5, 1.8, 1.6, 2.1, 1.9];

/** The scenario of a boat: 1 Hz with Doppler speed and cadence, six pieces of three minutes at 28. */
export const seatsScenario = (boat: 0 | 1): Scenario => ({
  name: ['red', 'blue'][boat]!,
  craft: '4-',
  crew: { name: `Halvorn Mere ${['red', 'blue'][boat]} four` },
  seed: 7100 + boat,
  start_time: '2026-05-28T17:30:00Z',
  origin: { lat_deg: 31.5, lon_deg: -37.25 - 0.0003 * boat },
  path: { kind: 'straight', heading_deg: 18 },
  script: [
    { do: 'rest', time_s: 20 },
    { do: 'row', rate_spm: 18, time_s: 150, strength: 0.8, label: 'warming up' },
    ...PIECES.flatMap((seats, i): Scenario['script'] => [
      { do: 'rest', time_s: 100 },
      {
        do: 'row',
        rate_spm: 28,
        time_s: 180,
        strength: (FORM[i]![boat] * seats[boat].reduce((sum, person) => sum + FORCE[person]!, 0)) / 4,
        label: `piece ${i + 1}`,
      },
    ]),
    { do: 'rest', time_s: 40 },
  ],
  sensors: {
    gnss: {
      hz: 1,
      position_sd_m: 1.5,
      correlation_s: 90,
      white_sd_m: 0.3,
      speed: true,
      speed_sd_mps: 0.05,
      whole_seconds: true,
    },
    watch: { hz: 1, cadence: true },
  },
});

const trackCsv = (boat: 0 | 1): string => {
  const { track, watch, startUnixS } = logged(seatsScenario(boat));
  const rows = Array.from(track!.stampS, (atS, i) =>
    [
      (startUnixS + atS).toFixed(0),
      track!.latDeg[i]!.toFixed(7),
      track!.lonDeg[i]!.toFixed(7),
      track!.speedMps![i]!.toFixed(2),
      watch!.cadenceSpm![i]?.toFixed(0) ?? '',
    ].join(','),
  );
  return `time_unix_s,lat_deg,lon_deg,speed_mps,cadence_spm\n${rows.join('\n')}\n`;
};

const planCsv = (): string => {
  const lines = PIECES.flatMap((seats, i) =>
    seats.map((people, boat) => [i + 1, ['red', 'blue'][boat], ...people, WIND_MPS[i]].join(',')),
  );
  return `piece,boat,bow,2,3,stroke,wind_mps\n${lines.join('\n')}\n`;
};

/** Every file of the seat race. */
export const seatsSamples = (): readonly SeatsFile[] => [
  { name: 'plan.csv', text: planCsv() },
  { name: 'red.csv', text: trackCsv(0) },
  { name: 'blue.csv', text: trackCsv(1) },
  {
    name: 'outings.csv',
    text: `file,crew,craft,placement\nred.csv,Halvorn Mere red four,4-,hull\nblue.csv,Halvorn Mere blue four,4-,hull\n`,
  },
];
