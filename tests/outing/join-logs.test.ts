import { describe, expect, it } from 'vitest';
import { joinLogs, onClock } from '../../src/outing/join-logs.js';
import { type ChannelDraft, type ChannelName, makeRecording } from '../../src/recording/index.js';

const channel = (from: number, value: number, components = 1): ChannelDraft => ({
  atS: Float64Array.of(from, from + 1, from + 2),
  columns: Array.from({ length: components }, () => Float64Array.of(value, value, value)),
});
const log = (
  file: string,
  channels: Partial<Record<ChannelName, ChannelDraft>>,
  originUnixS: number | null,
) => makeRecording({ provenance: { file, format: 'csv', device: null, sport: null }, originUnixS, channels });

const track = log(
  'a',
  { position: channel(0, 45, 2), heart_rate: channel(0, 100), acceleration: channel(0, 1, 3) },
  1000,
);
const imu = log(
  'b',
  { acceleration: channel(0, 9, 3), rotation: channel(0, 2, 3), heart_rate: channel(0, 180) },
  null,
);

describe('logs joined', () => {
  it('keep the main log for what both hold, and one mount for acceleration and rotation', () => {
    const joined = joinLogs(track, [{ recording: imu, clock: { offsetS: 10, driftPpm: 0 } }]);
    expect(joined.channels.heart_rate!.columns[0]![0]).toBe(100);
    expect(joined.channels.acceleration!.columns[0]![0]).toBe(9);
    expect(joined.channels.rotation!.columns[0]![0]).toBe(2);
    expect(joined.channels.acceleration!.atS[0]).toBe(10);
    expect(joined.startUnixS).toBe(1000);
  });

  it('begin with the first sample of any of them', () => {
    const joined = joinLogs(track, [{ recording: imu, clock: { offsetS: -5, driftPpm: 0 } }]);
    expect(joined.startUnixS).toBe(995);
    expect(joined.channels.acceleration!.atS[0]).toBe(0);
    expect(joined.channels.position!.atS[0]).toBe(5);
  });

  it('follow a clock that drifts', () => {
    expect(onClock({ offsetS: 10, driftPpm: 200 }, 1000)).toBeCloseTo(1009.80004, 6);
  });
});
