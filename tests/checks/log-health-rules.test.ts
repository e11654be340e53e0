import { describe, expect, it } from 'vitest';
import { checkFile, LOG_HEALTH_RULES } from '../../src/checks/index.js';

const position = { name: 'position', rate_hz: 1, longest_gap_s: null };
const sound = {
  recording: { channels: [position], clock: 'utc', placement: 'hull', noise: { position_m: 0.5 } },
  warnings: [] as { code: string }[],
  outing: { speed_mps: 4, stroke_count: 500 },
};
type Log = typeof sound;

const broken = (log: Log): string[] =>
  checkFile(LOG_HEALTH_RULES, 'a.gpx', {
    inspect: { recordings: [log.recording], warnings: log.warnings },
    outing: { outings: [log.outing] },
  })
    .filter(({ passed }) => !passed)
    .map(({ rule }) => rule);

const inspected = (change: object): Log => ({
  ...sound,
  recording: { ...sound.recording, ...change } as Log['recording'],
});

describe('the rules for a sound log', () => {
  it('are all kept by one', () => {
    expect(broken(sound)).toEqual([]);
  });

  it.each<[string, Log]>([
    ['positions often enough', inspected({ channels: [{ ...position, rate_hz: 0.2 }] })],
    ['no long gaps', inspected({ channels: [{ ...position, longest_gap_s: 90 }] })],
    ['a clock', inspected({ clock: 'relative' })],
    ['steady position', inspected({ noise: { position_m: 4 } })],
    ['placement known', inspected({ placement: 'unknown' })],
    ['not cut off', { ...sound, warnings: [{ code: 'cut-off' }] }],
    ['speed of a boat', { ...sound, outing: { ...sound.outing, speed_mps: 12 } }],
    ['strokes found', { ...sound, outing: { ...sound.outing, stroke_count: 0 } }],
  ])('%s: broken alone by a log that is not', (rule, log) => {
    expect(broken(log)).toEqual([rule]);
  });

  it('are each broken by one of these tests', () => {
    expect(LOG_HEALTH_RULES).toHaveLength(8);
  });
});
