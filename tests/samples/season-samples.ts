import type { Scenario } from '../../src/contract/scenario.js';
import { imuCsvText } from '../../src/formats/csv/imu-csv-text.js';
import { imuOriginUnixS, type Logged, logged } from '../../src/simulate/simulate.js';

/** A file of the season, by its path below samples/season. */
export interface SeasonFile {
  readonly path: string;
  readonly text: string;
}

/** A day's work of the invented quad: its script, and which loggers were aboard. */
interface Day {
  /** Days after Monday, 2 March 2026. */
  readonly day: number;
  readonly script: Scenario['script'];
  readonly imu: boolean;
  readonly seed: number;
}

const FIRST_DAY = Date.UTC(2026, 2, 2);
const CREW = 'Halvorn Mere senior quad';

const rest = (time_s: number) => ({ do: 'rest' as const, time_s });
const row = (rate_spm: number, time_s: number) => ({ do: 'row' as const, rate_spm, time_s });

const steady = (week: number): Scenario['script'] => [
  rest(20),
  row(18, 420 + 10 * week),
  rest(30),
  row(20, 420 + 10 * week),
  rest(20),
];

const pieces = (week: number): Scenario['script'] => [
  rest(20),
  row(19, 150),
  rest(30),
  ...Array.from({ length: 3 }, () => [row(26 + Math.floor(week / 3), 150), rest(50)]).flat(),
  row(18, 120),
  rest(20),
];

const race = (week: number): Scenario['script'] => [
  rest(20),
  row(19, 120),
  rest(60),
  { do: 'start', rate_spm: 33 + Math.floor(week / 4), high_spm: 40, distance_m: 2000 },
  rest(60),
  row(18, 90),
  rest(20),
];

/** Twelve weeks: Tuesday steady, Thursday pieces, Saturday in turn steady and a 2000 m. */
const DAYS: readonly Day[] = Array.from({ length: 12 }, (_, week): Day[] => [
  { day: 7 * week + 1, script: steady(week), imu: false, seed: 100 + week },
  { day: 7 * week + 3, script: pieces(week), imu: week === 5, seed: 200 + week },
  {
    day: 7 * week + 5,
    script: week % 2 === 0 ? steady(week) : race(week),
    imu: week === 11,
    seed: 300 + week,
  },
]).flat();

const dayOf = (day: number): string => new Date(FIRST_DAY + day * 86_400_000).toISOString().slice(0, 10);

/** The scenario of a day: a 1 Hz watch with cadence and heart rate, and on some days an accelerometer. */
export const seasonScenario = ({ day, script, imu, seed }: Day): Scenario => ({
  name: dayOf(day),
  craft: '4x',
  crew: { name: CREW, rest_bpm: 76, max_bpm: 188, power: 0.96 + 0.001 * day },
  seed,
  start_time: `${dayOf(day)}T${day % 7 === 5 ? '07:10' : '16:45'}:00Z`,
  origin: { lat_deg: 31.5, lon_deg: -37.25 },
  path: { kind: 'out_and_back', heading_deg: 62, leg_m: 2400 },
  script,
  sensors: {
    gnss: {
      hz: 1,
      position_sd_m: 2,
      correlation_s: 60,
      white_sd_m: 0.3,
      speed: true,
      speed_sd_mps: 0.06,
      whole_seconds: true,
    },
    watch: { hz: 1, cadence: true, heart_rate: true },
    ...(imu ? { imu: { hz: 20, noise_mps2: 0.08, clock: 'utc' as const, placement: 'hull' as const } } : {}),
  },
});

const trackCsv = ({ track, watch, startUnixS }: Logged): string => {
  const [cadence, heartRate] = [watch!.cadenceSpm!, watch!.heartRateBpm!];
  const rows = Array.from(track!.stampS, (atS, i) =>
    [
      (startUnixS + atS).toFixed(0),
      track!.latDeg[i]!.toFixed(7),
      track!.lonDeg[i]!.toFixed(7),
      track!.speedMps![i]!.toFixed(2),
      cadence[i]?.toFixed(0) ?? '',
      heartRate[i]?.toFixed(0) ?? '',
    ].join(','),
  );
  return `time_unix_s,lat_deg,lon_deg,speed_mps,cadence_spm,heart_rate_bpm\n${rows.join('\n')}\n`;
};

const filesOf = (day: Day): SeasonFile[] => {
  const scenario = seasonScenario(day);
  const made = logged(scenario);
  const path = `${scenario.name!.slice(0, 7)}/${scenario.name}`;
  const imu =
    made.imu === null
      ? []
      : [
          {
            path: `${path}.imu.csv`,
            text: imuCsvText({
              originUnixS: imuOriginUnixS(scenario, made.startUnixS),
              stampS: made.imu.stampS,
              forceMps2: made.imu.force,
              rotationRads: null,
            }),
          },
        ];
  return [{ path: `${path}.csv`, text: trackCsv(made) }, ...imu];
};

/** An hour on the ergometer in the week without water: no position, in none of the sums of the season. */
const ergometer = (): SeasonFile => {
  const start = Date.UTC(2026, 3, 19, 9, 30) / 1000;
  const rows = Array.from({ length: 1200 }, (_, i) =>
    [(start + i).toFixed(0), (i * 4.2).toFixed(1), 20, Math.round(120 + 20 * (1 - Math.exp(-i / 300)))].join(
      ',',
    ),
  );
  return {
    path: '2026-04/2026-04-19-ergometer.csv',
    text: `time_unix_s,distance_m,cadence_spm,heart_rate_bpm\n${rows.join('\n')}\n`,
  };
};

/** The cox's phone on one race day: the same outing as the watch's log, without cadence. */
const phone = (): SeasonFile => {
  const day = DAYS.find(({ seed }) => seed === 303)!;
  const scenario = seasonScenario(day);
  const made = logged({
    ...scenario,
    seed: 4303,
    sensors: { ...scenario.sensors, gnss: { hz: 1, position_sd_m: 3, white_sd_m: 0.8, speed: true } },
  });
  const rows = Array.from(made.track!.stampS, (atS, i) =>
    [
      (made.startUnixS + atS).toFixed(0),
      made.track!.latDeg[i]!.toFixed(6),
      made.track!.lonDeg[i]!.toFixed(6),
    ].join(','),
  );
  return {
    path: `${scenario.name!.slice(0, 7)}/${scenario.name}-phone.csv`,
    text: `time_unix_s,lat_deg,lon_deg\n${rows.join('\n')}\n`,
  };
};

const sheets = (files: readonly SeasonFile[]): SeasonFile[] => {
  const months = [...new Set(files.map(({ path }) => path.slice(0, 7)))];
  return months.map((month) => ({
    path: `${month}/outings.csv`,
    text: [
      'file,crew,craft,placement,notes\n',
      ...files
        .filter(({ path }) => path.startsWith(month) && !path.endsWith('.imu.csv'))
        .map(({ path }) => {
          const name = path.slice(month.length + 1);
          const worn = files.some((file) => file.path === path.replace('.csv', '.imu.csv'))
            ? 'hull'
            : 'wrist';
          const land = name.includes('ergometer');
          return `${name},${CREW},4x,${name.includes('phone') ? 'pocket' : worn},${land ? 'on the ergometer' : ''}\n`;
        }),
    ].join(''),
  }));
};

/** Days whose logs a quick test makes again. */
export const SOME_DAYS: readonly number[] = [1, 38, 82];

/** The files of some days of the season. */
export const seasonDays = (days: readonly number[]): readonly SeasonFile[] =>
  DAYS.filter(({ day }) => days.includes(day)).flatMap(filesOf);

/** Every file of the season. */
export const seasonSamples = (): readonly SeasonFile[] => {
  const files = [...DAYS.flatMap(filesOf), ergometer(), phone()];
  return [...files, ...sheets(files)];
};
