/** Seconds from 1970-01-01 to the calendar's start, 1989-12-31T00:00:00Z (global profile, type date_time). */
export const FIT_EPOCH_S = 631_065_600;

/** Stamps below this count from power-up, not from the epoch (global profile, date_time `min`). */
export const FIT_LEAST_DATE = 0x10000000;

/** Degrees in one semicircle, the unit of positions: 180 / 2^31 (global profile). */
export const DEGREES_PER_SEMICIRCLE = 180 / 2 ** 31;

/** Numbers of the messages that are read (global profile, type mesg_num). */
export const MESSAGE = Object.freeze({
  fileId: 0,
  sport: 12,
  session: 18,
  lap: 19,
  record: 20,
  event: 21,
  deviceInfo: 23,
  gyroscope: 164,
  accelerometer: 165,
  sensorCalibration: 167,
  fieldDescription: 206,
});

/** The field that is the time in every message (global profile). */
export const TIMESTAMP = 253;

/** Fields of `file_id`. */
export const FILE_ID = Object.freeze({ manufacturer: 1, product: 2, productName: 8 });
/** Fields of `device_info`; index 0 is the device that wrote the file. */
export const DEVICE_INFO = Object.freeze({ index: 0, manufacturer: 2, product: 4, productName: 27 });
/** Fields of `session` that tell the sport; those of `sport` are 0 and 1. */
export const SESSION = Object.freeze({ sport: 5, subSport: 6 });
export const SPORT = Object.freeze({ sport: 0, subSport: 1 });
/** Fields of `lap`: start, and length in ms. */
export const LAP = Object.freeze({ start: 2, elapsedMs: 7 });
/** Fields of `event`, and the values that start the timer. */
export const EVENT = Object.freeze({ event: 0, type: 1, timer: 0, start: 0 });
/** Fields of `field_description`: how an application's own field is laid out and what it stands for. */
export const FIELD_DESCRIPTION = Object.freeze({
  developer: 0,
  number: 1,
  baseType: 2,
  name: 3,
  scale: 6,
  offset: 7,
  units: 8,
  nativeMessage: 14,
  nativeField: 15,
});
/** Fields of `accelerometer_data` and `gyroscope_data`, x; y and z follow. */
export const MOTION = Object.freeze({
  startMs: 0,
  offsetsMs: 1,
  raw: 2,
  /** g, and degrees per second. */
  calibrated: 5,
  /** Milli-g, of accelerometers only. */
  compressedMilli: 8,
});
/** Fields of `three_d_sensor_calibration`: calibrated = matrix · (raw - level - offset) · factor / divisor. */
export const CALIBRATION = Object.freeze({
  sensor: 0,
  factor: 1,
  divisor: 2,
  levelShift: 3,
  offsets: 4,
  /** Row by row, over 65535. */
  matrix: 5,
});
/** `sensor` of a calibration. */
export const SENSOR = Object.freeze({ accelerometer: 0, gyroscope: 1 });

/** What a `record` can hold of use: value = raw / scale - offset, in the unit named. */
export const RECORD_FIELDS = Object.freeze({
  lat: { number: 0, scale: 1 / DEGREES_PER_SEMICIRCLE, offset: 0 },
  lon: { number: 1, scale: 1 / DEGREES_PER_SEMICIRCLE, offset: 0 },
  /** m; the enhanced one is the same in more bits. */
  altitude: { number: 2, scale: 5, offset: 500 },
  enhancedAltitude: { number: 78, scale: 5, offset: 500 },
  /** 1/min. */
  heartRate: { number: 3, scale: 1, offset: 0 },
  /** 1/min; the fraction adds to it, the other is both in one. */
  cadence: { number: 4, scale: 1, offset: 0 },
  fractionalCadence: { number: 53, scale: 128, offset: 0 },
  cadence256: { number: 52, scale: 256, offset: 0 },
  /** m since the start. */
  distance: { number: 5, scale: 100, offset: 0 },
  /** m/s; the enhanced one is the same in more bits. */
  speed: { number: 6, scale: 1000, offset: 0 },
  enhancedSpeed: { number: 73, scale: 1000, offset: 0 },
  /** m. */
  positionAccuracy: { number: 31, scale: 1, offset: 0 },
});
export type RecordFieldName = keyof typeof RECORD_FIELDS;

/** Three bytes: 12 bits of speed over 100 m/s, then 12 bits of distance over 16 m that start anew at 256 m. */
export const COMPRESSED_SPEED_DISTANCE = Object.freeze({ number: 8, speedScale: 100, distanceScale: 16 });

/** Plain words for the codes of type `sport` that matter to a club; others are shown by number. */
export const SPORTS: Readonly<Record<number, string>> = {
  1: 'running',
  2: 'cycling',
  4: 'fitness equipment',
  5: 'swimming',
  10: 'training',
  11: 'walking',
  15: 'rowing',
  19: 'paddling',
  32: 'sailing',
  37: 'stand-up paddling',
  41: 'kayaking',
  88: 'canoeing',
};

/** Code of type `sport` that says nothing. */
export const GENERIC = 0;

/** Code of type `sub_sport` for rowing on an ergometer. */
export const INDOOR_ROWING = 14;
