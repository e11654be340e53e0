import { ACCURACY_RANGE, type ChannelName } from '../../recording/index.js';
import { makeSampleRows } from '../sample-rows.js';
import { type FitField, fieldText, fieldValue, valueCount } from './fit-field.js';
import type { FitDefinition, FitMessage } from './fit-messages.js';
import {
  COMPRESSED_SPEED_DISTANCE,
  FIELD_DESCRIPTION,
  MESSAGE,
  RECORD_FIELDS,
  type RecordFieldName,
} from './fit-profile.js';

/** The `record` messages of a file as columns. */
export interface FitRecords {
  readonly describe: (message: FitMessage) => void;
  readonly add: (message: FitMessage) => void;
  readonly count: () => number;
  /** Seconds from the FIT epoch, NaN where a record has none. */
  readonly fitS: () => Float64Array;
  readonly columns: () => Partial<Record<ChannelName, readonly Float64Array[]>>;
  /** Median of the logged position accuracy, m; null where none is logged. */
  readonly positionAccuracyM: () => number | null;
  /** Numbers of fields whose size does not fit their type. */
  readonly misaligned: () => readonly number[];
}

/** Where one field of a definition goes. */
interface Step {
  readonly field: FitField;
  readonly column: number;
  readonly scale: number;
  readonly offset: number;
}

interface Plan {
  readonly steps: readonly Step[];
  readonly compressed: FitField | null;
}

/** What an application says of a field of its own. */
interface Description {
  readonly baseType: number;
  readonly scale: number;
  readonly offset: number;
  readonly target: RecordFieldName | null;
}

const TARGETS = Object.keys(RECORD_FIELDS) as RecordFieldName[];
const FIT_S = TARGETS.length;
const COMPRESSED_SPEED = FIT_S + 1;
const COMPRESSED_DISTANCE = FIT_S + 2;
const WIDTH = FIT_S + 3;
const BY_NUMBER = new Map(TARGETS.map((name) => [RECORD_FIELDS[name].number, name]));
const columnOf = (name: RecordFieldName): number => TARGETS.indexOf(name);

const keyOf = (developer: number, number: number): number => developer * 256 + number;
const orElse = (value: number, other: number): number => (Number.isFinite(value) ? value : other);

const descriptionOf = ({ definition, view, at }: FitMessage): { key: number; description: Description } => {
  const field = (number: number): FitField | undefined =>
    definition.fields.find((some) => some.number === number);
  const number = (of: number): number => {
    const found = field(of);
    return found && valueCount(found) > 0 ? fieldValue(view, at, found, definition.littleEndian) : Number.NaN;
  };
  const text = (of: number): string => {
    const found = field(of);
    return (found && fieldText(view, at, found)) ?? '';
  };
  const isRecord = number(FIELD_DESCRIPTION.nativeMessage) === MESSAGE.record;
  const native = isRecord ? BY_NUMBER.get(number(FIELD_DESCRIPTION.nativeField)) : undefined;
  const isStrokeRate =
    /stroke[\s_-]*rate|cadence/i.test(text(FIELD_DESCRIPTION.name)) ||
    /^(?:spm|strokes\/min)$/i.test(text(FIELD_DESCRIPTION.units));
  return {
    key: keyOf(number(FIELD_DESCRIPTION.developer), number(FIELD_DESCRIPTION.number)),
    description: {
      baseType: number(FIELD_DESCRIPTION.baseType) & 0x1f,
      scale: orElse(number(FIELD_DESCRIPTION.scale), 1) || 1,
      offset: orElse(number(FIELD_DESCRIPTION.offset), 0),
      target: native ?? (isStrokeRate ? 'cadence' : null),
    },
  };
};

/** An empty set of records. */
export const makeFitRecords = (): FitRecords => {
  const rows = makeSampleRows(WIDTH);
  const plans = new Map<FitDefinition, Plan>();
  const descriptions = new Map<number, Description>();
  const misaligned = new Set<number>();
  let lastRawDistance: number | null = null;
  let compressedDistance = 0;

  const planOf = (definition: FitDefinition): Plan => {
    const steps: Step[] = [];
    let compressed: FitField | null = null;
    for (const field of definition.fields) {
      if (field.number === COMPRESSED_SPEED_DISTANCE.number && field.sizeBytes === 3) compressed = field;
      const name = BY_NUMBER.get(field.number);
      if (name === undefined) continue;
      if (valueCount(field) === 0) misaligned.add(field.number);
      else
        steps.push({
          field,
          column: columnOf(name),
          scale: RECORD_FIELDS[name].scale,
          offset: RECORD_FIELDS[name].offset,
        });
    }
    for (const field of definition.developerFields) {
      const description = descriptions.get(keyOf(field.developer, field.number));
      if (!description?.target) continue;
      const column = columnOf(description.target);
      const typed = { ...field, baseType: description.baseType };
      // The device's own field comes first; an application's stands in where there is none.
      if (steps.some((step) => step.column === column) || valueCount(typed) === 0) continue;
      steps.push({ field: typed, column, scale: description.scale, offset: description.offset });
    }
    return { steps, compressed };
  };

  const addCompressed = ({ view, at }: FitMessage, field: FitField): void => {
    const [low, middle, high] = [0, 1, 2].map((i) => view.getUint8(at + field.offset + i)) as [
      number,
      number,
      number,
    ];
    if (low === 0xff && middle === 0xff && high === 0xff) return;
    const rawDistance = (middle >> 4) | (high << 4);
    if (lastRawDistance !== null)
      compressedDistance +=
        ((rawDistance - lastRawDistance + 4096) % 4096) / COMPRESSED_SPEED_DISTANCE.distanceScale;
    else compressedDistance = rawDistance / COMPRESSED_SPEED_DISTANCE.distanceScale;
    lastRawDistance = rawDistance;
    rows.put(COMPRESSED_SPEED, (low | ((middle & 0x0f) << 8)) / COMPRESSED_SPEED_DISTANCE.speedScale);
    rows.put(COMPRESSED_DISTANCE, compressedDistance);
  };

  /** First of several columns that has a value, row by row; null where none has. */
  const firstOf = (...columns: readonly number[]): Float64Array | null => {
    const present = columns.map(rows.column).filter((column) => column !== null);
    if (present.length < 2) return present[0] ?? null;
    return present[0]!.map((value, i) =>
      orElse(value, present.find((column) => Number.isFinite(column[i]!))?.[i] ?? value),
    );
  };
  const whole = (column: Float64Array | null): readonly Float64Array[] | null =>
    column === null ? null : [column];

  return {
    describe: (message) => {
      const { key, description } = descriptionOf(message);
      descriptions.set(key, description);
      plans.clear();
    },
    add: (message) => {
      const { definition, view, at } = message;
      let plan = plans.get(definition);
      if (plan === undefined) {
        plan = planOf(definition);
        plans.set(definition, plan);
      }
      if (plan.steps.length === 0 && plan.compressed === null) return;
      rows.begin();
      rows.put(FIT_S, message.fitS);
      for (const { field, column, scale, offset } of plan.steps)
        rows.put(column, fieldValue(view, at, field, definition.littleEndian) / scale - offset);
      if (plan.compressed !== null) addCompressed(message, plan.compressed);
    },
    count: rows.count,
    fitS: () => rows.column(FIT_S) ?? new Float64Array(0),
    columns: () => {
      const [lat, lon] = [rows.column(columnOf('lat')), rows.column(columnOf('lon'))];
      const fraction = rows.column(columnOf('fractionalCadence'));
      const plain = rows.column(columnOf('cadence'));
      const fine = plain && fraction ? plain.map((value, i) => value + orElse(fraction[i]!, 0)) : plain;
      const cadence = fine ?? rows.column(columnOf('cadence256'));
      const found: Partial<Record<ChannelName, readonly Float64Array[] | null>> = {
        position: lat && lon ? [lat, lon] : null,
        elevation: whole(firstOf(columnOf('enhancedAltitude'), columnOf('altitude'))),
        speed: whole(firstOf(columnOf('enhancedSpeed'), columnOf('speed'), COMPRESSED_SPEED)),
        distance: whole(firstOf(columnOf('distance'), COMPRESSED_DISTANCE)),
        cadence: whole(cadence),
        heart_rate: whole(rows.column(columnOf('heartRate'))),
      };
      return Object.fromEntries(Object.entries(found).filter(([, columns]) => columns !== null)) as Partial<
        Record<ChannelName, readonly Float64Array[]>
      >;
    },
    positionAccuracyM: () => {
      const stated = (rows.column(columnOf('positionAccuracy')) ?? new Float64Array(0)).filter(
        (value) => value > ACCURACY_RANGE.low && value <= ACCURACY_RANGE.high,
      );
      return stated.sort()[stated.length >> 1] ?? null;
    },
    misaligned: () => [...misaligned],
  };
};
