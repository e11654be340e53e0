import { destination, type Place, startOf, straightCourse, waterLine } from '../../src/geodesy/index.js';
import {
  type CrewCase,
  parseEntries,
  readCrew,
  regattaResults,
  stationsOf,
} from '../../src/regatta/index.js';
import { outingOf } from '../regatta/simulated-regatta.js';
import { makeRandom } from '../simulator/random.js';
import { type Boat, boatOf, type Receiver } from './boats.js';
import type { Comparison, Gate, Trial } from './frame.js';

const LOGGER: Receiver = { hz: 10, positionSdM: 0.8, correlationS: 200, whiteSdM: 0.15, speedSdMps: 0.05 };
const ORIGIN: Place = { latDeg: 47.2, lonDeg: 8.6 };
const HEADING_DEG = 40;
const LENGTH_M = 750;
const CREWS = 3;
/** A margin of more than this many of its standard deviations is called separable. */
const SURE_SDS = 2;

/** Starts far enough ahead that every crew is at speed, whatever its bow offset. */
const course = (() => {
  const start = destination(ORIGIN, HEADING_DEG, 60);
  const finish = destination(ORIGIN, HEADING_DEG, 60 + LENGTH_M);
  return straightCourse(`${start.latDeg},${start.lonDeg}:${finish.latDeg},${finish.lonDeg}`);
})();

/** When the true bow passed a line of the course, s. */
const passedS = (boat: Boat, index: number, bowOffsetM: number): number => {
  const { left, right } = course.lines[index]!;
  const line = waterLine(right, left)!;
  const offAt = (atS: number): number => {
    const heading = (boat.headingAt(atS) * Math.PI) / 180;
    const ahead = Math.sin(heading) * line.right.eastM + Math.cos(heading) * line.right.northM;
    return line.offsetOf(boat.placeAt(atS)).acrossM + bowOffsetM * ahead;
  };
  let [low, high] = [20, 20];
  while (offAt(high) < 0) high += 1;
  low = high - 1;
  for (let i = 0; i < 30; i++) {
    const middle = (low + high) / 2;
    if (offAt(middle) < 0) low = middle;
    else high = middle;
  }
  return high;
};

const regatta: Trial = {
  name: 'regatta',
  about: `line to line over ${LENGTH_M} m by the bow ball; ${CREWS} crews, bow offsets 4 to 6.5 m, position error 0.8 m over 200 s, told; both simulators`,
  seeds: 100,
  run: (seed) => {
    const random = makeRandom(seed * 7919 + 5);
    const stations = stationsOf(course, 1);
    const truths = new Map<string, number>();
    const cases = Array.from({ length: CREWS }, (_, i): CrewCase => {
      const bowOffsetM = Math.round((4 + 2.5 * random.uniform()) * 10) / 10;
      const rateSpm = 29 + 0.4 * random.uniform();
      const boat = boatOf(
        seed % 2 === 0 ? 'forces' : 'twin',
        seed * 100 + i,
        [{ restS: 10 }, { rowS: 235, rateSpm }, { restS: 15 }],
        [LOGGER],
      );
      const crew = `Crew ${i + 1}`;
      const [entry] = parseEntries(
        `event,crew,craft,track,bow_offset_m\nHeat,${crew},2x,${i}.csv,${bowOffsetM}`,
        'entries.csv',
      );
      const last = course.lines.length - 1;
      truths.set(crew, passedS(boat, last, bowOffsetM) - passedS(boat, 0, bowOffsetM));
      const log = readCrew(entry!, outingOf(boat.tracks[0]!, '2x', entry!.track!), course, stations, false);
      if ('code' in log) throw new Error(`${log.code}: the simulated course and boat are apart`);
      return { entry: entry!, file: entry!.track, log };
    });
    const ask = { start: 'own', intervalS: null, targets: [], against: null } as const;
    const { results } = regattaResults(cases, course, ask, []);
    const compared: Comparison[] = [];
    results.forEach((row, i) => {
      if (row.duration_s === null || row.duration_sd_s === null)
        throw new Error(`${row.crew} was not timed over ${startOf(course).alongM} to ${LENGTH_M} m`);
      compared.push({
        quantity: 'time from line to line',
        error: row.duration_s - truths.get(row.crew)!,
        sd: row.duration_sd_s,
      });
      for (const ahead of results.slice(0, i)) {
        const sd = Math.hypot(row.duration_sd_s, ahead.duration_sd_s!);
        if (row.duration_s - ahead.duration_s! <= SURE_SDS * sd) continue;
        const wrong = truths.get(row.crew)! < truths.get(ahead.crew)!;
        compared.push({ quantity: 'separable pairs ranked wrongly', error: wrong ? 1 : 0, sd: null });
      }
    });
    return compared;
  },
  gates: [
    {
      quantity: 'time from line to line',
      unit: 's',
      medianMost: 0.2,
      p95Most: 0.6,
      coveragePct: [92, 98],
    },
    { quantity: 'separable pairs ranked wrongly', unit: 'share', meanMost: 1 / 40 },
  ] satisfies readonly Gate[],
};

export const REGATTA_TRIALS: readonly Trial[] = [regatta];
