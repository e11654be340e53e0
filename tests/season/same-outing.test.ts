import { describe, expect, it } from 'vitest';
import { distinctOutings } from '../../src/season/index.js';
import { summary, way } from './summaries.js';

const START = Date.parse('2026-03-14T07:00:00Z') / 1000;

describe('one outing in two logs', () => {
  const watch = summary({ file: 'watch.fit' }, { strokeSource: 'cadence', minutes: way(START, 60) });
  const logger = summary({ file: 'hull.gpx' }, { strokeSource: 'imu', minutes: way(START, 58, 6) });

  it('counts once, by the better log, and it is said', () => {
    for (const logs of [
      [watch, logger],
      [logger, watch],
    ]) {
      const { kept, warnings } = distinctOutings(logs);
      expect(kept).toEqual([logger]);
      expect(warnings).toMatchObject([{ code: 'same-outing', file: 'watch.fit' }]);
    }
  });

  it('counts once where one log lies in the folders of two crews', () => {
    const copy = summary({ file: 'copy', crew: 'Coot' }, { minutes: way(START, 60) });
    expect(distinctOutings([{ ...watch, givenCrew: 'Heron' }, copy]).kept).toHaveLength(1);
  });

  it('is not seen in boats side by side, other crews, other days, or a meeting of a few minutes', () => {
    const others = [
      summary({ file: 'b' }, { minutes: way(START, 60, 25) }),
      summary({ file: 'c', crew: 'Coot' }, { minutes: way(START, 60, 4) }),
      summary({ file: 'd' }, { minutes: way(START + 86_400, 60) }),
      summary({ file: 'e' }, { minutes: way(START + 55 * 60, 60) }),
      summary({ file: 'f' }, { minutes: [] }),
    ];
    for (const other of others)
      expect(distinctOutings([{ ...watch, givenCrew: 'Heron' }, other]).kept).toHaveLength(2);
  });
});
