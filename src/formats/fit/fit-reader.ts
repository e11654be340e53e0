import type { WarningCode } from '../../contract/severity.js';
import { logFault, type Warning } from '../../recording/index.js';
import type { ReadAnswer, Reader } from '../reader.js';
import { recordingOfTables, type SampleTable } from '../sample-table.js';
import { cleanText } from '../xml/clean-text.js';
import { fieldText } from './fit-field.js';
import { type FitMessage, isFitHeader, walkFit } from './fit-messages.js';
import { type FitMotion, makeFitMotion, messageValue } from './fit-motion.js';
import {
  CALIBRATION,
  DEVICE_INFO,
  EVENT,
  FILE_ID,
  FIT_EPOCH_S,
  FIT_LEAST_DATE,
  GENERIC,
  INDOOR_ROWING,
  LAP,
  MESSAGE,
  SENSOR,
  SESSION,
  SPORT,
  SPORTS,
} from './fit-profile.js';
import { makeFitRecords } from './fit-records.js';

/** m/s² in one g (standard gravity, ISO 80000-3), rad in one degree. */
const MPS2_PER_G = 9.80665;
const RAD_PER_DEG = Math.PI / 180;

const messageText = ({ definition, view, at }: FitMessage, number: number): string | null => {
  const field = definition.fields.find((some) => some.number === number);
  return field ? cleanText(fieldText(view, at, field)) : null;
};

/** What a message says of a device: its product's name, else its numbers. */
const deviceOf = (
  message: FitMessage,
  fields: { readonly manufacturer: number; readonly product: number; readonly productName: number },
): string | null => {
  const name = messageText(message, fields.productName);
  if (name !== null) return name;
  const maker = messageValue(message, fields.manufacturer);
  const product = messageValue(message, fields.product);
  if (!Number.isFinite(maker)) return null;
  return Number.isFinite(product) ? `manufacturer ${maker}, product ${product}` : `manufacturer ${maker}`;
};

const isNumbered = (device: string | null): boolean => device === null || device.startsWith('manufacturer ');

/** Everything that is wanted of a file's messages. */
const collect = (bytes: Uint8Array, file: string) => {
  const records = makeFitRecords();
  const accelerometer = makeFitMotion();
  const gyroscope = makeFitMotion();
  const laps: { fromFitS: number; toFitS: number }[] = [];
  const segmentRows: number[] = [];
  let device: string | null = null;
  const sports = new Set<string>();
  let indoor = 0;
  let sessions = 0;
  const noteSport = (
    message: FitMessage,
    fields: { readonly sport: number; readonly subSport: number },
  ): void => {
    const code = messageValue(message, fields.sport);
    if (!Number.isFinite(code)) return;
    const isIndoor = messageValue(message, fields.subSport) === INDOOR_ROWING;
    sessions++;
    if (isIndoor) indoor++;
    if (isIndoor || code !== GENERIC)
      sports.add(isIndoor ? 'indoor rowing' : (SPORTS[code] ?? `sport ${code}`));
  };
  const noteDevice = (found: string | null): void => {
    if (found !== null && (device === null || (isNumbered(device) && !isNumbered(found)))) device = found;
  };
  const beginSegment = (): void => {
    if (records.count() > 0) segmentRows.push(records.count());
  };
  const readers: Readonly<Record<number, (message: FitMessage) => void>> = {
    [MESSAGE.record]: records.add,
    [MESSAGE.accelerometer]: accelerometer.add,
    [MESSAGE.gyroscope]: gyroscope.add,
    [MESSAGE.fieldDescription]: records.describe,
    [MESSAGE.sensorCalibration]: (message) => {
      const sensor = messageValue(message, CALIBRATION.sensor);
      if (sensor === SENSOR.accelerometer) accelerometer.calibrate(message);
      if (sensor === SENSOR.gyroscope) gyroscope.calibrate(message);
    },
    [MESSAGE.lap]: (message) => {
      const fromFitS = messageValue(message, LAP.start);
      const elapsedS = messageValue(message, LAP.elapsedMs) / 1000;
      const toFitS = Number.isFinite(elapsedS) ? fromFitS + elapsedS : message.fitS;
      if (toFitS > fromFitS) laps.push({ fromFitS, toFitS });
    },
    [MESSAGE.event]: (message) => {
      const isTimer = messageValue(message, EVENT.event) === EVENT.timer;
      if (isTimer && messageValue(message, EVENT.type) === EVENT.start) beginSegment();
    },
    [MESSAGE.fileId]: (message) => {
      beginSegment();
      noteDevice(deviceOf(message, FILE_ID));
    },
    [MESSAGE.deviceInfo]: (message) => {
      if (messageValue(message, DEVICE_INFO.index) === 0) noteDevice(deviceOf(message, DEVICE_INFO));
    },
    [MESSAGE.session]: (message) => noteSport(message, SESSION),
    [MESSAGE.sport]: (message) => noteSport(message, SPORT),
  };
  const warnings: Warning[] = walkFit(bytes, file, (message) =>
    readers[message.definition.message]?.(message),
  );
  const land = sessions > 0 && indoor === sessions;
  const sportName = sports.size === 0 ? null : [...sports].join(', ');
  return { records, accelerometer, gyroscope, laps, segmentRows, device, sportName, land, warnings };
};

const motionTable = (
  motion: FitMotion,
  name: 'acceleration' | 'rotation',
  unit: number,
  firstFitS: number,
  originUnixS: number | null,
): SampleTable[] => {
  const axes = motion.axes();
  if (axes === null) return [];
  return [
    {
      atS: motion.fitMs().map((at) => (at - firstFitS * 1000) / 1000),
      originUnixS,
      columns: { [name]: axes.map((axis) => axis.map((value) => value * unit)) },
      segmentRows: [],
      laps: [],
    },
  ];
};

const read: Reader['read'] = (bytes, file): ReadAnswer => {
  const found = collect(bytes, file);
  const { records, accelerometer, gyroscope } = found;
  const warnings = [...found.warnings];
  const warn = (code: WarningCode, message: string): void => {
    warnings.push({ code, file, where: null, message });
  };
  const misaligned = records.misaligned();
  if (misaligned.length > 0)
    warn(
      'fit-misaligned',
      `the size of ${misaligned.length === 1 ? 'field' : 'fields'} ${misaligned.join(', ')} does not fit its type, so it is left out`,
    );
  const leftOut = accelerometer.leftOut() + gyroscope.leftOut();
  if (leftOut > 0)
    warn(
      'fit-uncalibrated',
      `${leftOut} messages of motion sensors hold no calibration or no sample times and are left out`,
    );
  const recordS = records.fitS();
  const motionS = [accelerometer, gyroscope].map((motion) => motion.fitMs().map((at) => at / 1000));
  const times = [recordS, ...motionS];
  const dated = times.some((some) => some.some((at) => at >= FIT_LEAST_DATE));
  const firstFitS = Math.floor(
    times.map((some) => some.find(Number.isFinite)).find((at) => at !== undefined) ?? 0,
  );
  const originUnixS = FIT_EPOCH_S + firstFitS;
  if (records.count() === 0 && times.every((some) => some.length === 0))
    return logFault(
      file,
      'fit-no-records',
      `the FIT file holds no samples${warnings.length > 0 ? ` (${warnings[0]!.message})` : ': it may hold settings or a plan; take the activity file'}`,
    );
  if (!dated && recordS.some(Number.isFinite))
    warn(
      'clock-unset',
      'the clock was not set and counts from power-up, so date and time of day are not known',
    );
  const origin = dated ? originUnixS : null;
  return recordingOfTables(
    [
      {
        atS: recordS.map((at) => at - firstFitS),
        originUnixS: origin,
        columns: records.columns(),
        segmentRows: found.segmentRows,
        laps: found.laps.map(({ fromFitS, toFitS }) => ({
          fromS: fromFitS - firstFitS,
          toS: toFitS - firstFitS,
        })),
      },
      ...motionTable(accelerometer, 'acceleration', MPS2_PER_G, firstFitS, origin),
      ...motionTable(gyroscope, 'rotation', RAD_PER_DEG, firstFitS, origin),
    ],
    {
      provenance: { file, format: 'fit', device: found.device, sport: found.sportName },
      warnings,
      statedPositionSdM: records.positionAccuracyM(),
      land: found.land,
    },
  );
};

/** FIT activity files, several in one, cut off or damaged ones up to the damage. */
export const fitReader: Reader = { format: 'fit', sniff: (bytes) => isFitHeader(bytes), read };
