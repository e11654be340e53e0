import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { isFault, readLog } from '../../src/formats/index.js';

// Real logs by others, not part of the project; each is counted here by other means than the reader's.
const FOLDER = process.env.THOLE_LOGS ?? '../shared/logs';
const present = existsSync(FOLDER);
if (!present) console.warn(`no real logs at ${FOLDER} (set THOLE_LOGS): the tests over them are skipped`);

describe.skipIf(!present)('XML and CSV logs that others recorded', () => {
  const bytesOf = (name: string): Buffer => readFileSync(`${FOLDER}/${name}`);
  const answerOf = (name: string, columns?: Readonly<Record<string, string>>) =>
    readLog(bytesOf(name), name, columns === undefined ? {} : { columns });
  const timesIn = (name: string, pattern: RegExp): number =>
    [...bytesOf(name).toString('utf8').matchAll(pattern)].length;

  it.each(['gpx-lake-eight-segments.gpx', 'gpx10-speed.gpx', 'gpx-empty-segment.gpx', 'gpx-time-zone.gpx'])(
    '%s gives each of its timed track points',
    (name) => {
      const answer = answerOf(name);
      const count = timesIn(name, /<trkpt(?:(?!<\/trkpt>)[\s\S])*<time>/g);
      expect(isFault(answer) ? answer.message : answer.channels.position!.atS.length).toBe(count);
      expect(count).toBe(timesIn(name, /<trkpt/g));
    },
  );

  it('gives the timed points of a track of which most have no time, and says how many it left out', () => {
    const name = 'gpx-most-times-missing.gpx';
    const answer = answerOf(name);
    if (isFault(answer)) throw new Error(answer.message);
    const timed = timesIn(name, /<trkpt(?:(?!<\/trkpt>)[\s\S])*<time>/g);
    expect(answer.channels.position!.atS.length).toBe(timed);
    expect(answer.warnings.map(({ message }) => message).join()).toContain(
      `${timesIn(name, /<trkpt/g) - timed} `,
    );
  });

  it('takes the waypoint of a file without a track', () => {
    const answer = answerOf('gpx-bom.gpx');
    expect(isFault(answer) ? answer.message : answer.warnings.map(({ code }) => code)).toEqual(['no-track']);
  });

  it('gives every point, heart rate and lap of a TCX file', () => {
    const name = 'tcx-stand-up-paddling.tcx';
    const answer = answerOf(name);
    if (isFault(answer)) throw new Error(answer.message);
    expect(answer.channels.position!.atS.length).toBe(timesIn(name, /<Position>/g));
    expect(answer.channels.heart_rate!.atS.length).toBe(timesIn(name, /<HeartRateBpm>/g));
    expect(answer.channels.speed!.atS.length).toBe(timesIn(name, /<ns3:Speed>/g));
    expect(answer.laps.length).toBe(timesIn(name, /<Lap /g));
  });

  it.each(['imu-rowing-ergometer-torso-p1.csv', 'imu-rowing-ergometer-leg-p2.csv'])(
    '%s gives each of its rows',
    (name) => {
      const answer = answerOf(name);
      if (isFault(answer)) throw new Error(answer.message);
      expect(answer.channels.acceleration!.atS.length).toBe(timesIn(name, /\n\d/g));
      expect(answer.warnings).toEqual([]);
    },
  );

  it('refuses numbers without a header, and reads them with a map', () => {
    const name = 'imu-walk-with-true-steps.csv';
    const refused = answerOf(name);
    expect(isFault(refused) && refused.message).toContain('--columns');
    const answer = answerOf(name, { 1: 'time_ns', 2: 'ax_mps2', 3: 'ay_mps2', 4: 'az_mps2' });
    if (isFault(answer)) throw new Error(answer.message);
    expect(answer.channels.acceleration!.atS.length).toBe(timesIn(name, /^\d/gm));
  });
});
