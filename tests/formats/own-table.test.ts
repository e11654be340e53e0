import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readLog } from '../../src/formats/index.js';
import { isOwnTable } from '../../src/formats/own-table.js';

const bytes = (text: string) => new TextEncoder().encode(text);

describe('a file of ours among logs', () => {
  it.each([
    'file,crew,craft,seats\n',
    '\uFEFFfile;crew;craft\n',
    'stroke,time,at_s,rate_spm,speed_mps\n',
    'event,crew,craft,track\n',
    '{\n  "schema": "thole/outing/1",\n',
    'week\touting_count\tdistance_m\trowing_s\tstroke_count\n',
  ])('is known by its first line: %j', (text) => {
    expect(isOwnTable(bytes(text))).toBe(true);
    expect(readLog(bytes(text), 'x.csv')).toMatchObject({ code: 'not-a-log' });
  });

  it.each([
    'time,lat,lon,crew,craft\n',
    'time_s,ax_mps2,ay_mps2,az_mps2\n',
    'time_unix_s,lat_deg,lon_deg,speed_mps,cadence_spm\n',
    'timestamp,heart_rate,cadence,speed,distance,position_lat\n',
    'time,distance,stroke\n',
    '<gpx>',
  ])('is no log that somebody recorded: %j', (text) => {
    expect(isOwnTable(bytes(text))).toBe(false);
  });

  it('is each outing sheet of the samples, and none of their logs', () => {
    const own = (path: string) => isOwnTable(readFileSync(path));
    expect(own('samples/outing/outings.csv')).toBe(true);
    expect(own('samples/seats/plan.csv')).toBe(true);
    expect(own('samples/outing/outing.imu.csv')).toBe(false);
    expect(own('samples/seats/red.csv')).toBe(false);
  });
});
