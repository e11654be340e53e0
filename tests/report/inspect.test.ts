import { describe, expect, it } from 'vitest';
import { type InspectResult, recordingRow } from '../../src/contract/inspect.js';
import { inspectView } from '../../src/report/inspect.js';
import { reportText } from '../../src/report/report.js';

const READING = { speed: null, zone: 'UTC', plain: false, bold: false, width: 80 } as const;

const recording = (file: string, place: 'land' | 'water'): InspectResult['recordings'][number] => ({
  file,
  format: 'fit',
  device: 'Logger 2',
  sport: 'rowing',
  place,
  clock: 'utc',
  start_time: '2026-05-03T07:00:00.000Z',
  duration_s: 1800,
  extent_m: 1234.5,
  channels: [
    { name: 'position', unit: 'deg', sample_count: 1800, rate_hz: 1, gap_count: 1, longest_gap_s: 75 },
  ],
  placement: 'hull',
  noise: { position_m: 0.42, acceleration_mps2: null },
  verdict: [
    { can: 'strokes', yes: false, why: 'nothing in the log shows them' },
    { can: 'splits to a second', yes: true, why: 'positions (1 Hz) are good to about 0.6 s over 500 m' },
    { can: 'pieces', yes: true, why: 'positions (1 Hz) are good to about 0.6 s over 500 m' },
  ],
});
const resultOf = (...recordings: InspectResult['recordings']): InspectResult => ({
  schema: 'thole/inspect/1',
  files: recordings.map(({ file }) => file),
  warnings: [],
  defaults: [],
  recordings,
});

describe('the report of inspect', () => {
  it('has the keys of the schema as its columns, in its order', () => {
    const { noise, channels } = recordingRow.shape;
    expect(inspectView.keys).toEqual([
      ...Object.keys(recordingRow.omit({ channels: true, noise: true, verdict: true }).shape),
      ...Object.keys(noise.shape).map((key) => `noise_${key}`),
      ...channels.element.shape.name.options.flatMap((name) =>
        ['sample_count', 'rate_hz', 'gap_count', 'longest_gap_s'].map((key) => `${name}_${key}`),
      ),
    ]);
  });

  it('has the verdict on top, the details below, within 80 columns', async () => {
    const text = await reportText(inspectView, resultOf(recording('a.fit', 'water')), 'table', READING);
    expect(text).toBe(`a.fit
for                 good  why
strokes             no    nothing in the log shows them
splits to a second  yes   positions (1 Hz) are good to about 0.6 s over 500 m
pieces              yes   the same
Times of day are UTC.

What it holds
format              FIT
device              Logger 2
sport               rowing
clock               date and time
began               2026-05-03 07:00
length              30:00
extent              1235 m
placement           hull
position noise      0.42 m
acceleration noise  –

Channels
channel   unit  samples  rate Hz  gaps  longest gap
position  deg      1800     1.00     1         1:15
`);
  });

  it('puts many logs side by side first, and says which are work on land', async () => {
    const many = resultOf(recording('a.fit', 'water'), recording('erg.fit', 'land'));
    const lines = (await reportText(inspectView, many, 'table', READING)).split('\n');
    expect(lines.slice(0, 4)).toEqual([
      'What each log is good for',
      'log      length  on     strokes  in stroke  1 s  0.1 s  pieces  races',
      'a.fit     30:00  water  no       no         yes  no     yes     no',
      'erg.fit   30:00  land   no       no         yes  no     yes     no',
    ]);
    expect(lines).toContain('erg.fit: work on land');
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  it('gives one row a log as CSV', async () => {
    const text = await reportText(inspectView, resultOf(recording('a.fit', 'water')), 'csv', READING);
    const [head, row, end] = text.split('\n');
    const cells = Object.fromEntries(head!.split(',').map((key, i) => [key, row!.split(',')[i]]));
    expect(cells).toMatchObject({
      file: 'a.fit',
      place: 'water',
      position_rate_hz: '1',
      noise_position_m: '0.42',
      noise_acceleration_mps2: '',
    });
    expect(end).toBe('');
  });
});
