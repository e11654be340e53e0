import { expect, it } from 'vitest';
import { excerptOf, makeRecording } from '../../src/recording/index.js';

/** Speed once a second from 0 to 99 s, the samples of 40 to 49 s lost. */
const channel = makeRecording({
  provenance: { file: 'a.csv', format: 'csv', device: null, sport: null },
  originUnixS: null,
  channels: (() => {
    const atS = Float64Array.from({ length: 100 }, (_, i) => i).filter((at) => at < 40 || at >= 50);
    return { speed: { atS, columns: [atS.map((at) => at / 10)] } };
  })(),
}).channels.speed!;

it('keeps what lies in the stretches, on the same clock, with a break between them', () => {
  const part = excerptOf(channel, [
    { fromS: 9.5, toS: 12 },
    { fromS: 38, toS: 51.5 },
  ])!;
  expect([...part.atS]).toEqual([10, 11, 12, 38, 39, 50, 51]);
  expect([...part.columns[0]!]).toEqual([1, 1.1, 1.2, 3.8, 3.9, 5, 5.1]);
  expect(part.gaps).toEqual([
    { fromS: 12, toS: 38, kind: 'segment' },
    { fromS: 39, toS: 50, kind: 'missing' },
  ]);
});

it('leaves out stretches without samples, and is null where none has any', () => {
  const empty = { fromS: 41, toS: 48 };
  expect([...excerptOf(channel, [empty, { fromS: 60, toS: 60 }])!.atS]).toEqual([60]);
  expect(excerptOf(channel, [empty])).toBeNull();
});
