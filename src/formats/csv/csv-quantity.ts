import type { ChannelName } from '../../recording/index.js';
import { MPS_PER_KNOT } from '../../units/speed.js';

/** What a column of a CSV log measures. */
export interface CsvQuantity {
  readonly channel: ChannelName | 'time' | 'date' | 'accuracy';
  /** Which component of the channel. */
  readonly component: number;
  /** Multiplier to the channel's unit (for `time`: to seconds); null where the header states no unit. */
  readonly scale: number | null;
  /** True for an acceleration from which gravity has been taken out. */
  readonly linear: boolean;
}

type Kind = CsvQuantity['channel'];

/** Standard gravity, m/s² (General Conference on Weights and Measures, 1901). */
export const STANDARD_GRAVITY_MPS2 = 9.80665;
const RAD_PER_DEG = Math.PI / 180;
const MPS_PER_KMH = 1 / 3.6;
const MPS_PER_MPH = 0.44704;
const M_PER_FT = 0.3048;

/** Units as headers spell them, in lower case without spaces, and what each is in the channel's unit. */
const UNIT_SPELLINGS: Readonly<Record<Kind, readonly (readonly [number, string])[]>> = {
  time: [
    [1, 's sec secs second seconds'],
    [1e-3, 'ms msec millis millisec millisecond milliseconds'],
    [1e-6, 'us µs μs usec micros microsec microsecond microseconds'],
    [1e-9, 'ns nsec nanos nanosec nanosecond nanoseconds'],
  ],
  date: [],
  accuracy: [[1, 'm metre metres meter meters']],
  position: [[1, 'deg ° degree degrees wgs84']],
  elevation: [
    [1, 'm metre metres meter meters'],
    [M_PER_FT, 'ft feet'],
  ],
  speed: [
    [1, 'mps m/s ms m.s-1 ms-1 ms^-1'],
    [MPS_PER_KMH, 'kmh km/h kph kmph'],
    [MPS_PER_KNOT, 'knots knot kn kt kts'],
    [MPS_PER_MPH, 'mph'],
  ],
  distance: [
    [1, 'm metre metres meter meters'],
    [1000, 'km'],
  ],
  cadence: [
    [1, 'spm rpm 1/min /min strokes/min permin'],
    [60, 'hz'],
  ],
  heart_rate: [[1, 'bpm 1/min /min beats/min']],
  acceleration: [
    [1, 'mps2 ms2 m/s2 m/s² m/s^2 ms-2 ms^-2 m.s-2 m/s/s m/s**2'],
    [STANDARD_GRAVITY_MPS2, 'g gs gn'],
    [STANDARD_GRAVITY_MPS2 / 1000, 'mg'],
  ],
  rotation: [
    [RAD_PER_DEG, 'dps deg/s degs °/s degps degrees/s deg/sec'],
    [RAD_PER_DEG / 1000, 'mdps'],
    [1, 'rads rad/s radps rps rad/sec'],
  ],
};

const UNITS = new Map(
  (Object.keys(UNIT_SPELLINGS) as Kind[]).map((kind) => [
    kind,
    new Map(
      UNIT_SPELLINGS[kind].flatMap(([scale, spellings]) =>
        spellings.split(' ').map((spelling): [string, number] => [spelling, scale]),
      ),
    ),
  ]),
);

/** Names without an axis, squeezed to lower-case letters; the last column is the unit that a name implies. */
const NAME_SPELLINGS: readonly (readonly [Kind, number, string, number | null])[] = [
  ['time', 0, 'time timestamp ts t datetime epoch unix timeunix unixtime epochtime timeepoch elapsed', null],
  [
    'time',
    0,
    'timeelapsed elapsedtime utc timeutc utctime timestampunix unixtimestamp sampletime clock',
    null,
  ],
  ['time', 0, 'timestamputc timestampepoch epochtimestamp datetimeutc dateandtime sampletimestamp', null],
  ['time', 0, 'seconds sec secs secondselapsed elapsedseconds', 1],
  ['time', 0, 'ms millis milliseconds', 1e-3],
  ['time', 0, 'us micros microseconds', 1e-6],
  ['time', 0, 'ns nanos nanoseconds', 1e-9],
  ['date', 0, 'date dateutc utcdate', null],
  ['position', 0, 'lat latitude gpslat gpslatitude locationlatitude positionlat', null],
  [
    'position',
    1,
    'lon lng long longitude gpslon gpslong gpslng gpslongitude locationlongitude positionlong',
    null,
  ],
  ['elevation', 0, 'ele elevation alt altitude height gpsaltitude locationaltitude', null],
  ['speed', 0, 'speed velocity gpsspeed groundspeed speedoverground sog locationspeed', null],
  ['speed', 0, 'kmh kph', MPS_PER_KMH],
  ['speed', 0, 'knots', MPS_PER_KNOT],
  ['speed', 0, 'mps', 1],
  ['distance', 0, 'distance dist', null],
  ['cadence', 0, 'cadence cad strokerate strokesperminute spm', null],
  ['heart_rate', 0, 'heartrate hr bpm pulse', null],
  ['accuracy', 0, 'accuracy horizontalaccuracy hacc positionaccuracy locationaccuracy gpsaccuracy', null],
];

const NAMES = new Map(
  NAME_SPELLINGS.flatMap(([kind, component, spellings, implied]) =>
    spellings.split(' ').map((spelling) => [spelling, { kind, component, implied }] as const),
  ),
);

/** Names that stand before or after an axis letter. */
const AXIS_SPELLINGS: readonly (readonly ['acceleration' | 'rotation', boolean, string])[] = [
  ['acceleration', false, 'a acc accel acceleration accelerometer gf gforce totalacceleration imuacc'],
  [
    'acceleration',
    true,
    'linearacceleration linearaccel linearacc linacc useracceleration useraccel useracc',
  ],
  ['rotation', false, 'g gyr gyro gyroscope rotation rotationrate angularvelocity angularrate omega w rot'],
];

const AXIS_NAMES = new Map(
  AXIS_SPELLINGS.flatMap(([kind, linear, spellings]) =>
    spellings.split(' ').map((spelling) => [spelling, { kind, linear }] as const),
  ),
);

const AXES = ['x', 'y', 'z'];

/** The number that a unit is of the channel's unit; null where none is stated; undefined for one of another kind. */
const scaleOf = (kind: Kind, unit: string | null, implied: number | null): number | null | undefined =>
  unit === null ? implied : UNITS.get(kind)?.get(unit);

const quantityNamed = (words: string, unit: string | null): CsvQuantity | null => {
  const plain = NAMES.get(words);
  if (plain !== undefined) {
    const scale = scaleOf(plain.kind, unit, plain.implied);
    return scale === undefined
      ? null
      : { channel: plain.kind, component: plain.component, scale, linear: false };
  }
  for (const [component, letter] of AXES.entries()) {
    const rests = [words.endsWith(letter) && words.slice(0, -1), words.startsWith(letter) && words.slice(1)];
    for (const rest of rests) {
      const axis = rest === false ? undefined : AXIS_NAMES.get(rest.replace(/axis$/, ''));
      const scale = axis === undefined ? undefined : scaleOf(axis.kind, unit, null);
      if (axis !== undefined && scale !== undefined)
        return { channel: axis.kind, component, scale, linear: axis.linear };
    }
  }
  return null;
};

const squeezed = (text: string): string => text.toLowerCase().replace(/[\s_.,:-]+/g, '');

/** No column has a longer name, characters; what is longer is no header. */
const LONGEST_NAME = 120;

/** Every name has a letter; most cells that are looked at have none. */
const NUMBER_SIGNS = /^[\d\s+.,:-]*$/;

/**
 * What a column measures, by its header: a name and, in brackets or after an underscore or a space, a unit
 * (`ax_mps2`, `Acceleration x (m/s^2)`, `accX`, `Time [ms]`, `lat`).
 * @returns null where the header names nothing that is known
 */
export const csvQuantity = (header: string): CsvQuantity | null => {
  const text = header.trim();
  if (text.length > LONGEST_NAME || NUMBER_SIGNS.test(text)) return null;
  const bracketed = /^([^([{]*)[([{]([^)\]}]*)[)\]}](.*)$/.exec(text);
  if (bracketed !== null) {
    const unit = bracketed[2]!.toLowerCase().replace(/\s+/g, '');
    return quantityNamed(squeezed(bracketed[1]! + bracketed[3]!), unit === '' ? null : unit);
  }
  const whole = quantityNamed(squeezed(text), null);
  if (whole !== null) return whole;
  for (let at = text.length - 2; at > 0; at--) {
    if (!/[\s_.,]/.test(text[at]!)) continue;
    const found = quantityNamed(
      squeezed(text.slice(0, at)),
      text
        .slice(at + 1)
        .toLowerCase()
        .trim(),
    );
    if (found !== null) return found;
  }
  return null;
};
