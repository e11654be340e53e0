import type { DrawnOuting, DrawnStep } from '../../contract/drawn.js';
import type { OutingRow } from '../../contract/outing.js';
import { cell, clockCell, distanceCell, numberCell, speedCell, speedColumn, speedUnit } from '../cells.js';
import { drawChart, type Panel } from '../drawing/chart.js';
import { lineMark, type Sample } from '../drawing/marks.js';
import type { Picture, Pointer } from '../drawing/picture.js';
import { clockQuantity, HEART_RATE, LEAST, RATE, speedQuantity } from '../drawing/quantity.js';
import { domainOf } from '../drawing/scale.js';
import { usualDomain } from '../drawing/usual-domain.js';
import { figures, figuresWhereKnown, type Reading, type Section } from '../section.js';

type Moment = DrawnOuting['moments'][number];

const stepsSection = (steps: readonly DrawnStep[], outing: OutingRow, reading: Reading): Section => {
  const unit = speedUnit(reading, outing.craft);
  const clock = clockQuantity(outing.start_time, reading);
  return {
    title: 'The outing in steps of equal time',
    columns: [
      figures('from'),
      figures('lasts'),
      figures('distance'),
      figuresWhereKnown('strokes'),
      figuresWhereKnown('rate spm'),
      speedColumn(unit),
      figuresWhereKnown('heart rate bpm'),
    ],
    rows: steps.map((step) => [
      clock.format(step.start_at_s),
      clockCell(step.end_at_s - step.start_at_s),
      distanceCell(step.distance_m),
      numberCell(step.stroke_count),
      numberCell(step.rate_spm, 1),
      speedCell(step.speed_mps, unit),
      numberCell(step.heart_rate_mean_bpm),
    ]),
    notes: ['Speed and distance are of the whole step, rests in it too; the rate is of its strokes.'],
  };
};

const pointerOf = (moments: readonly Moment[], outing: OutingRow, reading: Reading): Pointer => {
  const speed = speedQuantity(speedUnit(reading, outing.craft));
  const clock = clockQuantity(outing.start_time, reading);
  const hearts = moments.some(({ heart_rate_bpm }) => heart_rate_bpm !== null);
  return {
    x: moments.map(({ at_s }) => Number(at_s.toFixed(1))),
    shown: {
      time: moments.map(({ at_s }) => clock.format(at_s)),
      speed: moments.map(({ speed_mps }) => cell(speed_mps, speed.format)),
      rate: moments.map(({ rate_spm }) => cell(rate_spm, RATE.format)),
      ...(hearts ? { heart: moments.map((moment) => cell(moment.heart_rate_bpm, HEART_RATE.format)) } : {}),
      distance: moments.map(({ along_m }) => distanceCell(along_m)),
    },
  };
};

/** Two moments farther apart than this are not joined, s: nothing was measured between them. */
const GAP_S = 12;

const samplesOf = (moments: readonly Moment[], value: (moment: Moment) => number | null): Sample[] =>
  moments.flatMap((moment, i): Sample[] => {
    const before = moments[i - 1];
    const sample: Sample = [moment.at_s, value(moment)];
    return before !== undefined && moment.at_s - before.at_s > GAP_S
      ? [[moment.at_s, null], sample]
      : [sample];
  });

const knownOf = (samples: readonly Sample[]): number[] =>
  samples.flatMap(([, value]) => (value === null ? [] : [value]));

/** Speed, rate and heart rate over an outing on one axis of time, its pieces shaded; null where nothing is known. */
export const outingTime = (outing: OutingRow, drawn: DrawnOuting, reading: Reading): Picture | null => {
  const { moments, pieces, steps } = drawn;
  const speeds = samplesOf(moments, ({ speed_mps }) => speed_mps);
  const rates = samplesOf(moments, ({ rate_spm }) => rate_spm);
  const hearts = samplesOf(moments, ({ heart_rate_bpm }) => heart_rate_bpm);
  const unit = speedUnit(reading, outing.craft);
  const rowed = moments.flatMap(({ rate_spm, speed_mps }) =>
    rate_spm === null || speed_mps === null ? [] : [speed_mps],
  );
  const speedDomain = usualDomain(rowed.length > 0 ? rowed : knownOf(speeds), LEAST.speedMps);
  const panels: Panel[] = [
    ...(knownOf(speeds).length > 1
      ? [
          {
            y: speedQuantity(unit),
            domain: speedDomain,
            height: 150,
            pointer: 0,
            marks: (scales) => [lineMark(speeds, 0, scales)],
          } satisfies Panel,
        ]
      : []),
    ...(knownOf(rates).length > 1
      ? [
          {
            y: RATE,
            domain: usualDomain(knownOf(rates), LEAST.rateSpm),
            height: 110,
            pointer: 0,
            marks: (scales) => [lineMark(rates, 1, scales, 'plain')],
          } satisfies Panel,
        ]
      : []),
    ...(knownOf(hearts).length > 1
      ? [
          {
            y: HEART_RATE,
            domain: domainOf(knownOf(hearts), { least: LEAST.heartBpm }),
            height: 80,
            pointer: 0,
            marks: (scales) => [lineMark(hearts, 2, scales, 'plain')],
          } satisfies Panel,
        ]
      : []),
  ];
  if (panels.length === 0) return null;
  const below = knownOf(speeds).some((speed) => speed < speedDomain[0]);
  return {
    title: 'How fast and at what rate, over the outing',
    description: `${panels.map(({ y }) => y.heading).join(', ')} over ${clockCell(outing.duration_s)}, one panel above the other on one axis of time; ${pieces.length} pieces are shaded and numbered.`,
    draw: (width) =>
      drawChart(
        {
          x: clockQuantity(outing.start_time, reading),
          domain: [0, outing.duration_s],
          panels,
          shades: pieces.map(({ piece, start_at_s, end_at_s }) => ({
            from: start_at_s,
            to: end_at_s,
            label: String(piece),
          })),
        },
        width,
      ),
    pointers: [pointerOf(moments, outing, reading)],
    numbers: stepsSection(steps, outing, reading),
    notes: [
      `One point a stroke${below ? '; rests and other slow moments lie below the scale of speed' : ''}. ${pieces.length > 0 ? 'Shaded: pieces, as thole pieces finds and numbers them.' : 'No pieces were found.'}${outing.speed_over === 'water' ? ' Speed is through the water.' : ''}`,
    ],
  };
};
