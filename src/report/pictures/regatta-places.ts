import type { RegattaRow } from '../../contract/regatta.js';
import { drawChart } from '../drawing/chart.js';
import { dotMarks, lineMark, type Sample, wordsMark } from '../drawing/marks.js';
import { SERIES_COUNT } from '../drawing/palette.js';
import type { Picture } from '../drawing/picture.js';
import { countQuantity, plainQuantity, TICK_ROOM } from '../drawing/quantity.js';

const PLACE = countQuantity('place', 18);
const COURSE = plainQuantity('m of the course', 'm', 0, TICK_ROOM.along);

/** Crews of an event whose places can be distinguished. */
const MOST = 16;

/** Height of one place, px. */
const PLACE_PX = 22;

/** The longest name beside its line, letters. */
const NAME = 22;

const samplesOf = ({ marks }: RegattaRow): Sample[] =>
  marks.filter(({ along_m }) => along_m > 0).map(({ along_m, place }): Sample => [along_m, place]);

const shortened = (name: string): string => (name.length > NAME ? `${name.slice(0, NAME - 1)}…` : name);

/** Places of the crews of an event at each mark; null where there are fewer than two marks or crews. */
export const regattaPlaces = (event: string, rows: readonly RegattaRow[]): Picture | null => {
  const known = rows.filter((row) => samplesOf(row).filter(([, place]) => place !== null).length > 1);
  const crews = known.slice(0, MOST);
  if (crews.length < 2) return null;
  const places = crews.flatMap((row) => samplesOf(row).flatMap(([, place]) => place ?? []));
  const alongs = crews.flatMap((row) => samplesOf(row).map(([along]) => along));
  const [from, to, last] = [Math.min(...alongs), Math.max(...alongs), Math.max(...places)];
  const room = (to - from) * 0.03;
  return {
    title: `${event}: places at the marks`,
    description: `Place of ${crews.length} crews at each mark, first at the top: ${crews
      .map(
        (row) =>
          `${row.crew} ${samplesOf(row)
            .map(([, place]) => place ?? 'not known')
            .join(', ')}`,
      )
      .join('; ')}.`,
    draw: (width) =>
      drawChart(
        {
          x: COURSE,
          domain: [from - room, to + room],
          rightPx: Math.min(160, 16 + 6.6 * Math.max(...crews.map(({ crew }) => shortened(crew).length))),
          panels: [
            {
              y: PLACE,
              domain: [last + 0.6, 0.4],
              height: Math.max(80, last * PLACE_PX),
              marks: (scales) =>
                crews.flatMap((row, i) => [
                  lineMark(samplesOf(row), i % SERIES_COUNT, scales),
                  dotMarks(samplesOf(row), i % SERIES_COUNT, scales),
                ]),
              outside: (scales) =>
                crews.flatMap((row) => {
                  const end = samplesOf(row).findLast(([, place]) => place !== null);
                  if (end === undefined || end[0] < to) return [];
                  return [wordsMark([to + room, end[1]!], shortened(row.crew), scales, { dx: 6, dy: 4 })];
                }),
            },
          ],
        },
        width,
      ),
    pointers: [],
    numbers: {
      title: 'Places at the marks',
      columns: [
        { heading: 'crew', align: 'left' },
        ...crews[0]!.marks
          .filter(({ along_m }) => along_m > 0)
          .map(({ along_m }) => ({ heading: `${along_m} m`, align: 'right' as const })),
      ],
      rows: crews.map((row) => [
        row.crew,
        ...samplesOf(row).map(([, place]) => (place === null ? '–' : String(place))),
      ]),
      notes: [],
    },
    notes:
      known.length > crews.length
        ? [`Drawn are the first ${crews.length} of ${known.length} crews; the table has all.`]
        : rows.length > known.length
          ? ['Crews whose places are not known are left out.']
          : [],
  };
};
