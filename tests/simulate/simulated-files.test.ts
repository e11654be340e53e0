import { Buffer } from 'node:buffer';
import { describe, expect, it } from 'vitest';
import { type Scenario, scenario } from '../../src/contract/scenario.js';
import { truthFile } from '../../src/contract/truth.js';
import { isFault, readLog } from '../../src/formats/index.js';
import type { Recording } from '../../src/recording/index.js';
import { simulate, simulatedFiles } from '../../src/simulate/index.js';

const asked: Scenario = {
  name: 'small',
  craft: '2x',
  seed: 11,
  start_time: '2026-03-04T05:06:07Z',
  script: [
    { do: 'rest', time_s: 3 },
    { do: 'start', rate_spm: 30, strokes: 20 },
    { do: 'rest', time_s: 5 },
  ],
  path: { kind: 'straight', heading_deg: 0 },
  sensors: {
    gnss: { hz: 5, speed: true, bow_offset_m: 4 },
    watch: { hz: 1, cadence: true, heart_rate: true },
    imu: { hz: 50, start_s: 1.5, rotation: true },
  },
  lines: [{ line: 'finish', from: [-20, 60], to: [20, 60] }],
};

const read = (files: ReturnType<typeof simulatedFiles>, name: string): Recording => {
  const file = files.find((each) => each.name === name)!;
  const answer = readLog(Buffer.from(file.text), name, {});
  if (isFault(answer)) throw new Error(answer.message);
  return answer;
};

describe('simulated files', () => {
  const files = simulatedFiles(asked);
  const memory = simulate(asked);

  it('come from a scenario that is valid', () => {
    expect(scenario.parse(asked)).toEqual(asked);
  });

  it('are the same text every time', () => {
    expect(simulatedFiles(asked)).toEqual(files);
  });

  it('are read back as what was in memory, to the digits written', () => {
    const track = read(files, 'small.gpx');
    expect(track.startUnixS).toBeCloseTo(Date.UTC(2026, 2, 4, 5, 6, 7) / 1000, 3);
    expect(track.warnings).toEqual([]);
    for (const name of ['position', 'speed', 'cadence', 'heart_rate'] as const) {
      const [written, kept] = [track.channels[name]!, memory.track!.channels[name]!];
      expect(written.atS).toHaveLength(kept.atS.length);
      const most = name === 'position' ? 5e-9 : 5e-4;
      for (const [i, column] of written.columns.entries())
        for (const [row, value] of column.entries())
          expect(Math.abs(value - kept.columns[i]![row]!)).toBeLessThanOrEqual(most + 1e-12);
    }
    const imu = read(files, 'small.imu.csv');
    for (const name of ['acceleration', 'rotation'] as const) {
      const [written, kept] = [imu.channels[name]!, memory.imu!.channels[name]!];
      for (const [i, column] of written.columns.entries())
        for (const [row, value] of column.entries())
          expect(Math.abs(value - kept.columns[i]![row]!)).toBeLessThanOrEqual(5.01e-4);
    }
  });

  it('hold a truth of the published shape, with the time of the bow at the line', () => {
    const truth = truthFile.parse(JSON.parse(files.find(({ name }) => name === 'small.truth.json')!.text));
    expect(truth.stroke_count).toBe(20);
    expect(truth.stretches.map(({ kind }) => kind)).toEqual(['rest', 'rowing', 'rest']);
    expect(truth.lines).toHaveLength(1);
    const at = truth.lines[0]!.at_s;
    const before = truth.path.north_m[Math.floor(at)]!;
    const after = truth.path.north_m[Math.floor(at) + 1]!;
    expect(before + 4).toBeLessThanOrEqual(60);
    expect(after + 4).toBeGreaterThan(60);
  });

  it('can be cut off in the middle of a record, and are read up to there', () => {
    const cut = simulatedFiles({ ...asked, faults: { cut_off_s: 20.3 } });
    const track = read(cut, 'small.gpx');
    expect(track.channels.position!.atS).toHaveLength(101);
    expect(track.warnings.map(({ code }) => code)).not.toEqual([]);
    expect(read(cut, 'small.imu.csv').durationS).toBeCloseTo(18.78, 1);
  });

  it('can repeat fixes and carry whole seconds only', () => {
    const base = { ...asked, sensors: { gnss: { hz: 1, whole_seconds: true } } } satisfies Scenario;
    const doubled = simulatedFiles({ ...base, faults: { duplicate_pct: 50 } });
    const count = (text: string) => text.match(/<trkpt/g)!.length;
    expect(count(doubled[0]!.text)).toBeGreaterThan(count(simulatedFiles(base)[0]!.text) * 1.2);
    expect(doubled[0]!.text).not.toMatch(/\.[1-9]\d*Z/);
  });
});
