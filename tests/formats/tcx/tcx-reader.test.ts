import { describe, expect, it } from 'vitest';
import { isFault, readLog } from '../../../src/formats/index.js';
import type { Recording } from '../../../src/recording/index.js';

const recordingOf = (text: string): Recording => {
  const answer = readLog(new TextEncoder().encode(text), 'a.tcx');
  if (isFault(answer)) throw new Error(answer.message);
  return answer;
};
const stamp = (second: number): string => `2026-04-03T10:00:${String(second).padStart(2, '0')}.000Z`;
const place = (second: number): string =>
  `<Position><LatitudeDegrees>47.${100 + second}</LatitudeDegrees><LongitudeDegrees>8.5</LongitudeDegrees></Position>`;
const point = (second: number, inside = place(second)): string =>
  `<Trackpoint><Time>${stamp(second)}</Time>${inside}</Trackpoint>`;
const lap = (second: number, totalS: number, ...tracks: string[]): string =>
  `<Lap StartTime="${stamp(second)}"><TotalTimeSeconds>${totalS}</TotalTimeSeconds>${tracks.map((track) => `<Track>${track}</Track>`).join('')}<TriggerMethod>Manual</TriggerMethod></Lap>`;
const tcx = (...laps: string[]): string =>
  `   <?xml version="1.0"?><TrainingCenterDatabase xmlns="http://www.garmin.com/xmlschemas/TrainingCenterDatabase/v2"><Activities><Activity Sport="Other"><Id>${stamp(0)}</Id>${laps.join('')}<Creator><Name>A logger</Name></Creator></Activity></Activities></TrainingCenterDatabase>`;

// Elements and their meaning: TCX v2 schema (Trackpoint needs only Time; DistanceMeters is cumulative).
describe('TCX', () => {
  it('reads points after spaces before the declaration', () => {
    const read = recordingOf(tcx(lap(0, 2, point(0) + point(1) + point(2))));
    expect(read.provenance).toEqual({ file: 'a.tcx', format: 'tcx', device: 'A logger', sport: 'Other' });
    expect([...read.channels.position!.columns[0]!]).toEqual([47.1, 47.101, 47.102]);
    expect(read.warnings).toEqual([]);
    expect(read.land).toBe(false);
  });

  it('keeps points without a position for what else they hold', () => {
    const rate = '<HeartRateBpm><Value>141</Value></HeartRateBpm><Cadence>24</Cadence>';
    const read = recordingOf(tcx(lap(0, 2, point(0) + point(1, rate) + point(2))));
    expect([...read.channels.position!.atS]).toEqual([0, 2]);
    expect([...read.channels.heart_rate!.atS]).toEqual([1]);
    expect(read.channels.heart_rate!.columns[0]![0]).toBe(141);
    expect(read.channels.cadence!.columns[0]![0]).toBe(24);
  });

  it('reads speed and cadence from extensions of any prefix', () => {
    for (const prefix of ['', 'ns3:', 'x:']) {
      const more = `<Extensions><${prefix}TPX><${prefix}Speed>4.25</${prefix}Speed><${prefix}RunCadence>30</${prefix}RunCadence></${prefix}TPX></Extensions>`;
      const { channels } = recordingOf(tcx(lap(0, 1, point(0, place(0) + more))));
      expect(channels.speed!.columns[0]![0]).toBe(4.25);
      expect(channels.cadence!.columns[0]![0]).toBe(30);
    }
  });

  it('gives laps from their starts to the next, and pauses as breaks', () => {
    const read = recordingOf(
      tcx(lap(0, 4.5, point(0) + point(4)), lap(5, 20, point(5) + point(6), point(20) + point(22))),
    );
    expect(read.laps).toEqual([
      { fromS: 0, toS: 4.5 },
      { fromS: 5, toS: 25 },
    ]);
    expect(read.channels.position!.gaps).toContainEqual({ fromS: 6, toS: 20, kind: 'segment' });
  });

  it('calls a log of distance without any position land work', () => {
    const far = (second: number): string => point(second, `<DistanceMeters>${second * 4}</DistanceMeters>`);
    const read = recordingOf(tcx(lap(0, 2, far(0) + far(1))));
    expect(read.land).toBe(true);
    expect([...read.channels.distance!.columns[0]!]).toEqual([0, 4]);
  });

  it('keeps all complete points of a log cut at any byte', () => {
    const text = tcx(lap(0, 2, point(0) + point(1)), lap(2, 1, point(2) + point(3)));
    for (let cut = text.indexOf('</Trackpoint>') + 13; cut < text.length; cut++) {
      const read = recordingOf(text.slice(0, cut));
      expect(read.channels.position!.atS.length).toBe(text.slice(0, cut).split('</Trackpoint>').length - 1);
      expect(read.warnings.map(({ code }) => code)).toEqual(['cut-off']);
    }
  });
});
