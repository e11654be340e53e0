import type { Scenario } from '../contract/scenario.js';
import { imuCsvText } from '../formats/csv/imu-csv-text.js';
import { GPX_TAIL, gpxText } from '../formats/gpx/gpx-text.js';
import { imuOriginUnixS, type Logged, logged } from './simulate.js';
import { truthFileOf } from './truth-file.js';

/** A file to be written. */
export interface SimulatedFile {
  readonly name: string;
  readonly text: string;
}

/** A watch's column on the records of the track: its value where the two were stamped together, else NaN. */
const onTrack = (trackS: Float64Array, watchS: Float64Array, column: Float64Array | null) => {
  if (column === null) return null;
  const values = new Map(Array.from(watchS, (atS, i) => [Math.round(atS * 1000), column[i]!] as const));
  return trackS.map((atS) => values.get(Math.round(atS * 1000)) ?? Number.NaN);
};

/** A text that ends in the middle of its last record, as a log does when the power goes. */
const cutShort = (text: string): string => {
  const lastFrom = text.lastIndexOf('\n', text.length - 2) + 1;
  return text.slice(0, lastFrom + Math.floor((text.length - lastFrom) / 2));
};

const trackText = (scenario: Scenario, { name, startUnixS, track, watch }: Logged): string | null => {
  if (track === null) return null;
  const { gnss } = scenario.sensors;
  const text = gpxText({
    name: scenario.crew?.name ?? name,
    unixS: track.stampS.map((atS) => startUnixS + atS),
    latDeg: track.latDeg,
    lonDeg: track.lonDeg,
    speedMps: track.speedMps,
    cadenceSpm: watch === null ? null : onTrack(track.stampS, watch.stampS, watch.cadenceSpm),
    heartRateBpm: watch === null ? null : onTrack(track.stampS, watch.stampS, watch.heartRateBpm),
    accuracyM: gnss?.accuracy_field === true ? (gnss.position_sd_m ?? null) : null,
  });
  return scenario.faults?.cut_off_s === undefined ? text : cutShort(text.slice(0, -GPX_TAIL.length));
};

const imuText = (scenario: Scenario, made: Logged): string | null => {
  const { imu } = made;
  if (imu === null) return null;
  const text = imuCsvText({
    originUnixS: imuOriginUnixS(scenario, made.startUnixS),
    stampS: imu.stampS,
    forceMps2: imu.force,
    rotationRads: imu.rotation,
  });
  return scenario.faults?.cut_off_s === undefined ? text : cutShort(text);
};

/**
 * The files of a simulated outing: `NAME.gpx`, `NAME.imu.csv`, `NAME.truth.json`, as far as the sensors go.
 * @throws UserError where the script cannot be done on the path
 */
export const simulatedFiles = (scenario: Scenario): readonly SimulatedFile[] => {
  const made = logged(scenario);
  const files: { name: string; text: string | null }[] = [
    { name: `${made.name}.gpx`, text: trackText(scenario, made) },
    { name: `${made.name}.imu.csv`, text: imuText(scenario, made) },
    { name: `${made.name}.truth.json`, text: `${JSON.stringify(truthFileOf(scenario, made))}\n` },
  ];
  return files.flatMap(({ name, text }) => (text === null ? [] : [{ name, text }]));
};
