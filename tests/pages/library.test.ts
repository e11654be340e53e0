import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type * as Library from '../../src/index.js';
import { ran } from '../cli/ran.js';
import { type Browser, LEFT_OUT, openBrowser } from '../tooling/browser.js';

// The library as it is packed, loaded by a browser: it must give the figures of the command line from a log's bytes.

/** What goes into the browser. */
interface Asked {
  readonly logs: readonly (readonly [name: string, text: string])[];
  readonly craft: '1x' | '2x';
}

/** Runs in the browser. */
const figuresOf = ({ logs, craft }: Asked) => {
  const { library } = globalThis as unknown as { readonly library: typeof Library };
  const read = logs.map(([name, text]) => library.readLog(new TextEncoder().encode(text), name));
  const recordings = read.map((log) => {
    if (library.isFault(log)) throw new Error(log.message);
    return log;
  });
  const outing = library.openOuting(recordings, { craft, placement: 'hull' });
  const [row] = library.settle(library.outingResultOf(outing)).outings;
  return { distance_m: row!.distance_m, stroke_count: row!.stroke_count, rate_spm: row!.rate_spm };
};

describe.skipIf(LEFT_OUT !== null)(
  `the library in a browser${LEFT_OUT === null ? '' : ` (${LEFT_OUT})`}`,
  () => {
    let browser: Browser;
    beforeAll(async () => {
      browser = await openBrowser();
    }, 60_000);
    afterAll(() => browser?.close());

    it.each([
      ['a GPX track', '1x', ['samples/watch/watch.gpx']],
      [
        'a GPX track with the CSV of its accelerometer',
        '2x',
        ['samples/race/race.gpx', 'samples/race/race.imu.csv'],
      ],
    ] as const)('finds in %s what the command finds', { timeout: 120_000 }, async (_, craft, files) => {
      const { page, said } = await browser.show('<!doctype html><title>A page without anything</title>');
      const url = await page.evaluate(
        (code) => URL.createObjectURL(new Blob([code], { type: 'text/javascript' })),
        readFileSync('dist/index.js', 'utf8'),
      );
      await page.addScriptTag({
        type: 'module',
        content: `import * as library from '${url}'; globalThis.library = library;`,
      });
      await page.waitForFunction(() => 'library' in globalThis);
      const found = await page.evaluate(figuresOf, {
        logs: files.map((file) => [file.split('/').at(-1)!, readFileSync(file, 'utf8')] as const),
        craft,
      });
      expect(said.filter((line) => !line.startsWith('asked for blob:'))).toEqual([]);
      const argv = [
        'outing',
        files[0],
        '--craft',
        craft,
        '--placement',
        'hull',
        '--format',
        'json',
        '--quiet',
      ];
      const [row] = JSON.parse((await ran(argv)).stdout).outings;
      expect(found.stroke_count).toBeGreaterThan(100);
      expect(found).toEqual({
        distance_m: row.distance_m,
        stroke_count: row.stroke_count,
        rate_spm: row.rate_spm,
      });
    });
  },
);
