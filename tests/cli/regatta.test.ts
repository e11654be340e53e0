import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { type Ran, ran } from './ran.js';

const SPRINT = 'samples/regatta/sprint';
const folder = mkdtempSync(join(tmpdir(), 'thole-regatta-'));
afterAll(() => rmSync(folder, { recursive: true }));

const written = (name: string, text: string): string => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};

const COURSE = readFileSync(`${SPRINT}/course.geojson`, 'utf8');
const course = written('course.geojson', COURSE);
const log = resolve(SPRINT, 'women-2x-vennick.gpx');
const HEADING = 'event,crew,craft,track';

const timed = (entries: string, ...more: readonly string[]): Promise<Ran> =>
  ran(['regatta', written('entries.csv', entries), '--course', course, '--jobs', '1', ...more]);

describe('thole regatta', () => {
  it.each([
    [`event,crew,track\na,b,${log}`, [], /entries\.csv, line 1: there is no column "craft"/],
    [`${HEADING}\na,b,12x,${log}`, [], /line 2, column craft: "12x" is not a craft: use one of 1x/],
    [`${HEADING}\na,b,2x,${log}\na,b,2x,x.gpx`, [], /line 3, column crew: "b" stands in line 2 already/],
    [`${HEADING}\na,b,2x,${log}`, ['--against', 'c'], /--against: no crew is called "c"/],
    [`${HEADING}\na,b,2x,${log}`, ['--straight', '1,2:3,4'], /--course and --straight both name a course/],
    [`${HEADING}\na,b,2x,${log}`, ['--interval', 'soon'], /--interval: "soon" is not a length of time/],
    [
      `${HEADING},start_time\na,b,2x,${log},2026-06-20T11:00:00Z`,
      [],
      /line 2, column start_time: the start of "b" at 2026-06-20T11:00:00\.000Z is after its finish at 2026-06-20T09:0/,
    ],
  ] as const)('refuses %j in one line and writes nothing', async (entries, more, message) => {
    const out = join(folder, 'out.json');
    const made = await timed(entries, ...more, '--out', out, '--quiet');
    expect(made.status).toBe(2);
    expect(made.stdout).toBe('');
    expect(made.stderr).toMatch(message);
    expect(made.stderr.trim().split('\n')).toHaveLength(1);
    expect(existsSync(out)).toBe(false);
  });

  it('refuses a course with latitude and longitude swapped, by its lengths or by the logs', async () => {
    const swap = (text: string): string => {
      const read = JSON.parse(text) as {
        features: { geometry: { coordinates: number[][] }; properties: object }[];
      };
      for (const { geometry } of read.features)
        geometry.coordinates = geometry.coordinates.map(([first, second]) => [second!, first!]);
      return JSON.stringify(read);
    };
    const entries = written('swapped.csv', `${HEADING}\na,b,2x,${log}`);
    const swapped = written('swapped.geojson', swap(COURSE));
    const bare = written(
      'bare.geojson',
      swap(COURSE)
        .replaceAll(/,"along_m":(0|500|1000)/g, '')
        .replaceAll(/\{"type":"Feature","properties":\{"line":"mark"\}[^}]*\}\},/g, ''),
    );
    for (const file of [swapped, bare]) {
      const made = await ran(['regatta', entries, '--course', file, '--jobs', '1']);
      expect(made.status).toBe(2);
      expect(made.stderr).toMatch(/latitude and longitude swapped/);
    }
  });

  it('goes on without a log that cannot be read, and says so', async () => {
    const broken = written('broken.gpx', 'not a log');
    const made = await timed(
      `${HEADING}\na,b,2x,${broken}\na,c,2x,${log}\na,d,2x,nowhere.gpx`,
      '--format',
      'json',
    );
    expect(made.status).toBe(3);
    const { results } = JSON.parse(made.stdout) as { results: { crew: string; outcome: string | null }[] };
    expect(results.map(({ crew, outcome }) => [crew, outcome])).toEqual([
      ['c', 'finished'],
      ['b', null],
      ['d', null],
    ]);
    expect(made.stderr).toMatch(/broken\.gpx/);
    expect(made.stderr).toMatch(/nowhere\.gpx: The log cannot be opened: there is no such file/);
  });

  it('finds packed logs by their plain name, and carries further columns through', async () => {
    const made = await timed(`${HEADING},club,rate_spm\na,c,2x,${log},Vennick,none`, '--format', 'csv');
    expect(made.status).toBe(0);
    const [heading, line] = made.stdout.split('\n');
    expect(heading!.split(',').slice(-2)).toEqual(['club', 'entry_rate_spm']);
    expect(line!.split(',').slice(-2)).toEqual(['Vennick', 'none']);
  });

  it('writes a row a mark or a part where asked', async () => {
    const entries = `${HEADING}\na,c,2x,${log}`;
    const marks = (await timed(entries, '--format', 'csv', '--rows', 'marks')).stdout.trim().split('\n');
    expect(marks[0]).toMatch(/^event,place,crew,.*,along_m,duration_s,duration_sd_s,mark_place,section_s/);
    expect(marks).toHaveLength(3);
    const parts = await timed(entries, '--format', 'csv', '--rows', 'parts', '--parts', '4');
    expect(parts.stdout.trim().split('\n')).toHaveLength(5);
  });

  it('compares with targets, by craft and category', async () => {
    const targets = written('targets.csv', 'craft,category,target_s\n2x,senior,6:00\n2x,junior,400\n');
    const made = await timed(
      `${HEADING},category\na,c,2x,${log},senior\nb,c,2x,${log},junior\nc,c,2x,${log},`,
      '--targets',
      targets,
      '--format',
      'json',
    );
    const { results } = JSON.parse(made.stdout) as {
      results: { speed_mps: number; target_pct: number | null; parts: { target_pct: number }[] }[];
    };
    const [senior, junior, none] = results;
    expect(senior!.target_pct).toBeCloseTo((100 * senior!.speed_mps * 360) / 2000, 1);
    expect(junior!.target_pct! / senior!.target_pct!).toBeCloseTo(400 / 360, 3);
    expect(none!.target_pct).toBeNull();
    expect(senior!.parts.every((part) => part.target_pct > 50 && part.target_pct < 110)).toBe(true);
  });
});
