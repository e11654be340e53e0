import { gzipSync } from 'node:zlib';
import type { Scenario } from '../../src/contract/scenario.js';
import type { TruthFile } from '../../src/contract/truth.js';
import type { Place } from '../../src/geodesy/index.js';
import { placeOnEarth, simulatedFiles } from '../../src/simulate/index.js';
import type { Craft } from '../../src/units/craft.js';

/** A file below `samples/regatta`. */
export interface SampleFile {
  readonly path: string;
  readonly bytes: Uint8Array;
}

type Point = readonly [eastM: number, northM: number];

/** The invented waters lie in open ocean. */
const ORIGIN: Place = { latDeg: 31.5, lonDeg: -37.25 };
const LANE_M = 13.5;
const SPRINT_M = 1000;
const HEAD_M = 3000;
const placeOf = placeOnEarth(ORIGIN);

/** What is known of the loggers: a boat file. */
const LOGGER = `${JSON.stringify({ schema: 'thole/boat/1', placement: 'hull', position_sd_m: 0.8, correlation_s: 200 }, null, 1)}\n`;

interface Crew {
  readonly event: string;
  readonly name: string;
  readonly club: string;
  readonly craft: Craft;
  readonly file: string | null;
  readonly scenario: Scenario;
  readonly cells: Readonly<Record<string, string>>;
}

const gnss = (hz: number, bowOffsetM: number) => ({
  hz,
  position_sd_m: 0.8,
  correlation_s: 200,
  white_sd_m: 0.08,
  speed: true,
  speed_sd_mps: 0.05,
  bow_offset_m: bowOffsetM,
});

const coordinates = (points: readonly Point[]): number[][] =>
  points.map(([east, north]) => {
    const { latDeg, lonDeg } = placeOf(east, north);
    return [Number(lonDeg.toFixed(7)), Number(latDeg.toFixed(7))];
  });

const feature = (properties: object, points: readonly Point[]) => ({
  type: 'Feature',
  properties,
  geometry: { type: 'LineString', coordinates: coordinates(points) },
});

const geoJson = (features: readonly object[]): string =>
  `${JSON.stringify({ type: 'FeatureCollection', features }, null, 1)}\n`;

/** A point so many metres along a bearing, and to its right. */
const offset = ([east, north]: Point, bearingRad: number, aheadM: number, rightM: number): Point => [
  east + aheadM * Math.sin(bearingRad) + rightM * Math.cos(bearingRad),
  north + aheadM * Math.cos(bearingRad) - rightM * Math.sin(bearingRad),
];

const across = (middle: Point, bearingRad: number, halfM: number): readonly [Point, Point] => [
  offset(middle, bearingRad, 0, -halfM),
  offset(middle, bearingRad, 0, halfM),
];

interface Line {
  readonly line: string;
  readonly along_m: number;
  readonly ends: readonly [Point, Point];
}

const scenarioLines = (lines: readonly Line[]) =>
  lines.map(({ line, along_m, ends: [from, to] }) => ({
    line: `${line} ${along_m}`,
    from: [...from] as [number, number],
    to: [...to] as [number, number],
  }));

const HEADING = (118 * Math.PI) / 180;

const sprintLines = [0, 500, SPRINT_M].map((alongM) => ({
  line: alongM === 0 ? 'start' : alongM === SPRINT_M ? 'finish' : 'mark',
  along_m: alongM,
  ends: across(offset([0, 0], HEADING, alongM, 0), HEADING, 60),
}));

interface SprintEvent {
  readonly event: string;
  readonly craft: Craft;
  readonly at: string;
  readonly rate: number;
  readonly names: readonly string[];
  readonly power: readonly number[];
}

const SPRINTS: readonly SprintEvent[] = [
  {
    event: 'Women 2x',
    craft: '2x',
    at: '2026-06-20T09:00:00Z',
    rate: 34,
    names: ['Halvorn Mere A', 'Ostrey', 'Pellow Bridge', 'Tarn End', 'Vennick', 'Halvorn Mere B'],
    power: [1, 0.97, 0.995, 0.93, 0.955, 0.9],
  },
  {
    event: 'Men 4-',
    craft: '4-',
    at: '2026-06-20T09:20:00Z',
    rate: 36,
    names: ['Ostrey', 'Halvorn Mere', 'Quillan', 'Vennick', 'Tarn End', 'Sarrow'],
    power: [0.96, 1, 0.98, 0.94, 0.99, 0.92],
  },
  {
    event: 'Mixed 8+',
    craft: '8+',
    at: '2026-06-20T09:40:00Z',
    rate: 37,
    names: ['Vennick', 'Ostrey', 'Halvorn Mere', 'Pellow Bridge', 'Quillan', 'Tarn End'],
    power: [0.97, 0.985, 1, 0.93, 0.95, 0.965],
  },
];

const BOW_OFFSETS: Readonly<Partial<Record<Craft, number>>> = { '2x': 4.8, '4-': 5.6, '8+': 6.4 };
const WAIT_S = 75;

const truthOf = (scenario: Scenario): TruthFile => {
  const made = simulatedFiles(scenario);
  return JSON.parse(made.find(({ name }) => name.endsWith('.truth.json'))!.text) as TruthFile;
};

const stem = (text: string): string =>
  text
    .toLowerCase()
    .replace(/\+/g, 'plus')
    .replace(/-(?=\s|$)/g, 'minus')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');

const clubOf = (name: string): string => `${name.replace(/ [AB]$/, '')} BC`;

/** Strength of club crews beside the simulator's usual ones. */
const CLUB_POWER = 0.8;

/** A scenario whose race begins at an instant: its log begins so much earlier. */
const beginningAt = (scenario: Scenario, unixS: number): Scenario => {
  const raceFromS = truthOf(scenario).stretches.find(({ label }) => label === 'race')!.from_s;
  return { ...scenario, start_time: new Date(Math.round((unixS - raceFromS) * 1000)).toISOString() };
};

const REACTIONS_S = [0.1, 0.25, 0.05, 0.2, 0.15, 0.3];

const sprintCrew = (event: SprintEvent, lane: number): Crew => {
  const name = event.names[lane - 1]!;
  const bowOffsetM = Math.round((BOW_OFFSETS[event.craft]! - 0.6 + 0.2 * lane) * 10) / 10;
  const right = (lane - 3.5) * LANE_M;
  const begin = offset([0, 0], HEADING, -bowOffsetM - 0.2, right);
  const falseStart = event.event === 'Men 4-' && name === 'Quillan';
  const cutOff = event.event === 'Mixed 8+' && name === 'Pellow Bridge';
  const noLog = event.event === 'Women 2x' && name === 'Tarn End';
  const race = {
    do: 'start' as const,
    rate_spm: event.rate,
    high_spm: event.rate + 8,
    high_strokes: 14,
    distance_m: SPRINT_M + 8,
    label: 'race',
  };
  const wait = { do: 'rest' as const, time_s: WAIT_S, blades: 'holding' as const };
  const called = [
    { do: 'rest' as const, time_s: 20, blades: 'holding' as const },
    { do: 'row' as const, rate_spm: 36, strokes: 4, label: 'false start' },
    { do: 'rest' as const, time_s: 4, blades: 'holding' as const },
    { do: 'straighten' as const, strokes: 10, back: true, label: 'back to the line' },
  ];
  const scenario: Scenario = {
    name: 'log',
    craft: event.craft,
    crew: { name, power: CLUB_POWER * event.power[lane - 1]! },
    seed: 1000 * SPRINTS.indexOf(event) + lane,
    origin: { lat_deg: ORIGIN.latDeg, lon_deg: ORIGIN.lonDeg },
    path: {
      kind: 'points',
      points: [begin, offset([0, 0], HEADING, 3000, right)].map(([e, n]): [number, number] => [e, n]),
    },
    script: [...(falseStart ? called : []), wait, race, { do: 'rest', time_s: 25 }],
    sensors: { gnss: gnss(5, bowOffsetM) },
    lines: scenarioLines(sprintLines),
  };
  const timed = beginningAt(scenario, Date.parse(event.at) / 1000 + REACTIONS_S[lane - 1]!);
  return {
    event: event.event,
    name,
    club: clubOf(name),
    craft: event.craft,
    file: noLog ? null : `${stem(event.event)}-${stem(name)}`,
    cells: { lane: String(lane), ...(lane === 2 ? {} : { bow_offset_m: String(bowOffsetM) }) },
    scenario: cutOff ? { ...timed, faults: { cut_off_s: WAIT_S + 140 } } : timed,
  };
};

const riverCentre = (): Point[] => {
  const points: Point[] = [[0, 0]];
  let bearing = 0.4;
  for (let i = 0; i < 180; i++) {
    const last = points[points.length - 1]!;
    points.push(offset(last, bearing, 20, 0));
    bearing += 0.028 * Math.sin((i * 20) / 330) + (i > 80 && i < 120 ? 0.02 : 0);
  }
  return points;
};

const RIVER = riverCentre();
const LEAD_M = 200;

/** The river at a distance along it, and its bearing there. */
const riverAt = (alongM: number): { readonly middle: Point; readonly bearing: number } => {
  const i = Math.min(RIVER.length - 2, Math.floor(alongM / 20));
  const [from, to] = [RIVER[i]!, RIVER[i + 1]!];
  const bearing = Math.atan2(to[0] - from[0], to[1] - from[1]);
  return { middle: offset(from, bearing, alongM - 20 * i, 0), bearing };
};

const headLines = [0, 1000, 2000, HEAD_M].map((alongM) => {
  const { middle, bearing } = riverAt(LEAD_M + alongM);
  return {
    line: alongM === 0 ? 'start' : alongM === HEAD_M ? 'finish' : 'mark',
    along_m: alongM,
    ends: across(middle, bearing, 35),
  };
});

const HEAD_NAMES = [
  'Halvorn Mere',
  'Ostrey',
  'Quillan',
  'Vennick',
  'Pellow Bridge',
  'Tarn End',
  'Sarrow',
  'Halvorn Mere B',
  'Ostrey B',
  'Quillan B',
  'Brake Lock',
  'Ferrin',
];

const headCrew = (index: number): Crew => {
  const name = HEAD_NAMES[index]!;
  const craft: Craft = index < 6 ? '4x' : '2x';
  const bowOffsetM = (craft === '4x' ? 5.2 : 4.4) + (index % 3) * 0.3;
  const right = ((index * 7) % 5) - 2;
  const points = RIVER.map((point, i): [number, number] => {
    const { bearing } = riverAt(20 * Math.min(i, RIVER.length - 2));
    return [...offset(point, bearing, 0, 6 + 2 * right)] as [number, number];
  });
  const begins = new Date(Date.UTC(2026, 9, 10, 11, 0, 0) + index * 30_000);
  return {
    event: craft === '4x' ? 'Quads' : 'Doubles',
    name,
    club: clubOf(name),
    craft,
    file: `head-${stem(name)}`,
    cells: {
      crew_number: String(index + 1),
      bow_offset_m: bowOffsetM.toFixed(1),
      ...(index === 7 ? { handicap_s: '12' } : {}),
      ...(index === 4 ? { penalty_s: '5' } : {}),
      ...(index === 2 ? { official_s: '11:04.2' } : {}),
    },
    scenario: {
      name: 'log',
      craft,
      crew: {
        name,
        power: CLUB_POWER * [1, 0.97, 0.99, 0.93, 0.965, 0.9, 1, 0.95, 0.985, 0.92, 0.97, 0.94][index]!,
      },
      seed: 7000 + index,
      start_time: begins.toISOString(),
      origin: { lat_deg: ORIGIN.latDeg, lon_deg: ORIGIN.lonDeg },
      path: { kind: 'points', points },
      stream: { mps: 0.15, to_deg: 30 },
      script: [
        { do: 'rest', time_s: 10 },
        { do: 'row', rate_spm: 22, distance_m: LEAD_M - 20, label: 'to the start' },
        { do: 'row', rate_spm: 30, distance_m: HEAD_M + 30, label: 'race' },
        { do: 'rest', time_s: 20 },
      ],
      sensors: { gnss: gnss(5, bowOffsetM) },
      lines: scenarioLines(headLines),
    },
  };
};

const csvOf = (crews: readonly Crew[], names: readonly string[]): string =>
  [
    ['event', 'crew', 'craft', 'track', ...names, 'club'],
    ...crews.map((crew) => [
      crew.event,
      crew.name,
      crew.craft,
      crew.file === null ? '' : `${crew.file}.gpx`,
      ...names.map((name) => crew.cells[name] ?? ''),
      crew.club,
    ]),
  ]
    .map((cells) => `${cells.join(',')}\n`)
    .join('');

interface CrewTruth {
  readonly event: string;
  readonly crew: string;
  /** First movement of the race, or crossing of the start line, then each line; s after 1970. */
  readonly moved_unix_s: number | null;
  readonly lines: readonly { readonly line: string; readonly unix_s: number }[];
}

const madeOf = (folder: string, crew: Crew): { files: SampleFile[]; truth: CrewTruth } => {
  const made = simulatedFiles(crew.scenario);
  const text = (ending: string) => made.find(({ name }) => name.endsWith(ending))!.text;
  const truth = truthOf({ ...crew.scenario, faults: undefined });
  const begins = Date.parse(crew.scenario.start_time!) / 1000;
  const unix = (atS: number) => Math.round((begins + atS) * 1000) / 1000;
  const race = truth.stretches.find(({ label }) => label === 'race')!;
  const lines = truth.lines.filter(({ line, at_s }) => line.startsWith('start') || at_s > race.from_s);
  return {
    files:
      crew.file === null
        ? []
        : [{ path: `${folder}/${crew.file}.gpx.gz`, bytes: gzipSync(text('.gpx'), { level: 9 }) }],
    truth: {
      event: crew.event,
      crew: crew.name,
      moved_unix_s: folder === 'sprint' ? unix(race.from_s) : null,
      lines: lines.map(({ line, at_s }) => ({ line, unix_s: unix(at_s) })),
    },
  };
};

const folderOf = (
  folder: string,
  crews: readonly Crew[],
  names: readonly string[],
  course: string,
): SampleFile[] => {
  const made = crews.map((crew) => madeOf(folder, crew));
  const text = (path: string, content: string): SampleFile => ({
    path: `${folder}/${path}`,
    bytes: Buffer.from(content),
  });
  return [
    ...made.flatMap(({ files }) => files),
    text('entries.csv', csvOf(crews, names)),
    text('course.geojson', course),
    text('logger.json', LOGGER),
    text(
      'truth.json',
      `${JSON.stringify(
        made.map(({ truth }) => truth),
        null,
        1,
      )}\n`,
    ),
  ];
};

/** Everything below `samples/regatta`, made by the simulator. */
export const regattaSamples = (): readonly SampleFile[] => [
  ...folderOf(
    'sprint',
    SPRINTS.flatMap((event) => [1, 2, 3, 4, 5, 6].map((lane) => sprintCrew(event, lane))),
    ['lane', 'bow_offset_m'],
    geoJson(sprintLines.map(({ line, along_m, ends }) => feature({ line, along_m }, ends))),
  ),
  ...folderOf(
    'head',
    HEAD_NAMES.map((_, index) => headCrew(index)),
    ['crew_number', 'bow_offset_m', 'handicap_s', 'penalty_s', 'official_s'],
    geoJson([
      feature({ role: 'centreline' }, RIVER),
      ...headLines.map(({ line, along_m, ends }) => feature({ line, along_m }, ends)),
    ]),
  ),
];
