import { Readable } from 'node:stream';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { outingJob } from '../../src/cli/jobs/outing-job.js';
import type { LogOptions } from '../../src/cli/log-options.js';
import type { OutingResult } from '../../src/contract/outing.js';
import { outingView } from '../../src/report/outing.js';
import { pageText } from '../../src/report/page/page.js';
import { outingPictures } from '../../src/report/pictures/outing.js';
import type { Reading } from '../../src/report/section.js';
import { formatSpeed } from '../../src/units/speed.js';
import { type Browser, LEFT_OUT, openBrowser } from '../tooling/browser.js';
import { type DrawnPanel, linesOf, panelsOf, perPx } from './drawn-values.js';

const READING: Reading = { speed: null, zone: 'UTC', plain: false, bold: false, width: 80 };

const NOTHING_GIVEN: LogOptions = {
  craft: null,
  boat: null,
  placement: null,
  imu: null,
  imuStart: null,
  stream: null,
  columns: null,
};

const sampleOuting = async (places: boolean): Promise<OutingResult> => {
  const options = { ...NOTHING_GIVEN, bands: null, drawn: { places } };
  const result = await outingJob('samples/outing/outing.gpx', options, Readable.from([]));
  if ('fault' in result) throw new Error(result.message);
  return result;
};

let result: OutingResult;
beforeAll(async () => {
  result = await sampleOuting(true);
}, 60_000);

/** Holds that what is drawn of a line lies on the values, a tenth of a pixel either way, and misses no extreme. */
const expectDrawn = (
  panel: DrawnPanel,
  kind: string,
  values: readonly (readonly [x: number, y: number])[],
): void => {
  const points = linesOf(panel, kind).flat();
  expect(points.length).toBeGreaterThan(50);
  const [perX, perY] = perPx(panel);
  for (const [x, y] of points)
    expect(
      values.some(([atX, atY]) => Math.abs(atX - x) <= 0.06 * perX && Math.abs(atY - y) <= 0.06 * perY),
      `${x}, ${y}`,
    ).toBe(true);
  const highest = (of: readonly (readonly [number, number])[]) => Math.max(...of.map(([, y]) => y));
  expect(Math.abs(highest(points) - highest(values))).toBeLessThanOrEqual(0.06 * perY);
};

describe('the pictures of an outing', () => {
  it('draw speed and rate where the result has them', () => {
    const moments = result.outings[0]!.drawn!.moments;
    const [speed, rate] = panelsOf(outingPictures(result, READING)[0]!.draw(760).markup);
    expectDrawn(
      speed!,
      'line c1',
      moments.flatMap(({ at_s, speed_mps }) => (speed_mps === null ? [] : [[at_s, speed_mps] as const])),
    );
    expectDrawn(
      rate!,
      'line c2 plain',
      moments.flatMap(({ at_s, rate_spm }) => (rate_spm === null ? [] : [[at_s, rate_spm] as const])),
    );
  });

  it('leave a gap in a line where the result has none', () => {
    const [, rate] = panelsOf(outingPictures(result, READING)[0]!.draw(760).markup);
    const { pieces } = result.outings[0]!.drawn!;
    const stretches = linesOf(rate!, 'line c2 plain');
    // Six pieces with rests between them, and light rowing before and after.
    expect(stretches.length).toBeGreaterThanOrEqual(pieces.length);
    for (const [i, piece] of pieces.slice(1).entries()) {
      const middle = (pieces[i]!.end_at_s + piece.start_at_s) / 2;
      expect(stretches.some((line) => line[0]![0] < middle && line.at(-1)![0] > middle)).toBe(false);
    }
  });

  it('draw the track to one scale both ways, and have none where no places were asked for', async () => {
    const map = outingPictures(result, READING)[1]!;
    const [panel] = panelsOf(map.draw(760).markup);
    const [perX, perY] = perPx(panel!);
    expect(perX / perY).toBeCloseTo(1, 2);
    const titles = outingPictures(await sampleOuting(false), READING).map(({ title }) => title);
    expect(titles).not.toContain(map.title);
    expect(titles).toHaveLength(2);
  }, 60_000);

  it('are the same bytes for the same outing, and hold no folder of this machine', async () => {
    const [first, second] = [
      await pageText(outingView, result, READING, 'thole'),
      await pageText(outingView, await sampleOuting(true), READING, 'thole'),
    ];
    expect(second === first).toBe(true);
    expect(first).not.toContain('samples/');
    expect(first).not.toContain(process.cwd());
  }, 60_000);
});

describe.skipIf(LEFT_OUT !== null)(
  `the page of an outing in a browser${LEFT_OUT === null ? '' : `: ${LEFT_OUT}`}`,
  () => {
    let browser: Browser;
    beforeAll(async () => {
      browser = await openBrowser();
    }, 60_000);
    afterAll(() => browser?.close());

    it('shows the values of the moment that is pointed at', { timeout: 120_000 }, async () => {
      const { page, said } = await browser.show(await pageText(outingView, result, READING, 'thole'), 1000);
      const ground = (await page.locator('#picture-1 svg.wide .ground').first().boundingBox())!;
      const { moments } = result.outings[0]!.drawn!;
      for (const i of [40, 200, 400]) {
        const { at_s, speed_mps, rate_spm, along_m } = moments[i]!;
        await page.mouse.move(
          ground.x + (ground.width * at_s) / result.outings[0]!.duration_s,
          ground.y + ground.height / 2,
        );
        const tip = (await page.locator('#picture-1 .tip').textContent())!;
        if (speed_mps! > 0.05) expect(tip).toContain(formatSpeed(speed_mps!, 'split'));
        if (rate_spm !== null) expect(tip).toContain(`${rate_spm.toFixed(1)} spm`);
        expect(tip).toContain(`${along_m!.toFixed(0)} m`);
      }
      await page.mouse.move(0, 0);
      expect(await page.locator('#picture-1 .tip').isVisible()).toBe(false);
      expect(said).toEqual([]);
      await page.close();
    });

    it('runs nothing of what a log says, and no script but its own', { timeout: 120_000 }, async () => {
      const evil = `</script><script>alert(1)</script><img src=x onerror="alert(2)">"'&`;
      const file = `<img src=x onerror='alert(3)'>.gpx`;
      const [outing] = result.outings;
      const hostile: OutingResult = {
        ...result,
        files: [file],
        warnings: [{ code: 'empty-file', file, where: evil, message: evil }],
        sheet: [],
        outings: [{ ...outing!, file, crew: evil }, outing!],
      };
      const { page, said } = await browser.show(await pageText(outingView, hostile, READING, 'thole'));
      expect(await page.locator('h1').textContent()).toContain(file);
      expect(await page.locator('td', { hasText: '<script>alert(1)</script>' }).count()).toBe(1);
      expect(await page.locator('img').count()).toBe(0);
      expect(said).toEqual([]);
      const ranIt = await page.evaluate(() => {
        const script = document.createElement('script');
        script.textContent = 'globalThis.ranIt = true';
        document.body.append(script);
        return 'ranIt' in globalThis;
      });
      expect(ranIt).toBe(false);
      await page.close();
    });
  },
);
