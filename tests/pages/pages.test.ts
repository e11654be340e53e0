/// <reference lib="dom" />
import axe from 'axe-core';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ran } from '../cli/ran.js';
import { type Browser, LEFT_OUT, openBrowser } from '../tooling/browser.js';

/** Pages as readers see them, in a real browser. */
const PAGES: readonly (readonly [name: string, line: string])[] = [
  ['outing', 'outing samples/outing/outing.gpx'],
  ['pieces', 'pieces samples/outing/outing.gpx'],
  ['a race with its opening', 'pieces samples/race/race.gpx --distance 2000 --opening 20'],
  [
    'two days',
    'pieces samples/season/2026-05/2026-05-21.csv --with samples/season/2026-05/2026-05-07.csv --tz Europe/Zurich --jobs 1',
  ],
  [
    'boats together',
    'pieces samples/regatta/head/head-quillan.gpx.gz samples/regatta/head/head-ostrey.gpx.gz --course samples/regatta/head/course.geojson --together --jobs 1',
  ],
  ['average stroke', 'strokes samples/outing/outing.gpx --average'],
  ['strokes', 'strokes samples/watch/watch.gpx'],
  ['workout', 'workout samples/outing/plan.json samples/outing/outing.gpx'],
  ['curve', 'curve samples/outing/outing.gpx'],
  [
    'head race',
    'regatta samples/regatta/head/entries.csv --course samples/regatta/head/course.geojson --jobs 1',
  ],
  ['season', 'season samples/season --no-cache --jobs 1'],
  [
    'seat racing',
    'seats samples/seats/plan.csv samples/seats/red.csv samples/seats/blue.csv --time 3:00 --jobs 1',
  ],
  ['gauge', 'gauge samples/outing/outing.gpx'],
  ['inspect', 'inspect samples/outing/outing.gpx'],
  ['check', 'check samples/outing/outing.gpx'],
];

/** Those that have every colour of the others. */
const IN_THE_DARK: readonly string[] = ['outing', 'boats together', 'head race', 'season'];

/** What an independent checker of accessible pages finds wrong, in words. */
const faultsOf = async (page: Page, rules: readonly string[] = []): Promise<string[]> => {
  await page.addScriptTag({ content: axe.source });
  return page.evaluate(async (only) => {
    // biome-ignore lint/suspicious/noExplicitAny: the checker puts itself into the page without types
    const { violations } = await (globalThis as any).axe.run(
      document,
      only.length === 0 ? {} : { runOnly: only },
    );
    return violations.flatMap(
      ({ id, nodes }: { id: string; nodes: { html: string; failureSummary: string }[] }) =>
        nodes.slice(0, 3).map(({ html, failureSummary }) => `${id}: ${html.slice(0, 200)} ${failureSummary}`),
    );
  }, rules);
};

const madeOf = async (line: string): Promise<string> => {
  const { status, stdout } = await ran([...line.split(' '), '--format', 'html', '--quiet']);
  expect(status).toBe(0);
  return stdout;
};

describe.skipIf(LEFT_OUT !== null)(`pages in a browser${LEFT_OUT === null ? '' : `: ${LEFT_OUT}`}`, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await openBrowser();
  }, 60_000);
  afterAll(() => browser?.close());

  it.each(PAGES)(
    '%s: loads nothing, fits every screen, can be read by all',
    { timeout: 180_000 },
    async (name, line) => {
      const { page, said } = await browser.show(await madeOf(line));
      for (const width of [360, 800, 1400]) {
        await page.setViewportSize({ width, height: 900 });
        expect(await page.evaluate(() => document.documentElement.scrollWidth), `${width} px`).toBe(width);
        const shown = await page.locator('figure svg[role=img]:visible').count();
        expect(shown, 'every picture is shown once').toBe(await page.locator('figure').count());
        expect(await overlaps(page), `texts over one another at ${width} px`).toEqual([]);
      }
      await page.emulateMedia({ media: 'print' });
      await page.setViewportSize({ width: 720, height: 1000 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(720);
      expect(await page.locator('figure svg.narrow:visible').count()).toBe(0);
      expect(await coloursOf(page), 'in print there is no colour').toEqual([]);
      expect(said).toEqual([]);
      for (const colorScheme of IN_THE_DARK.includes(name)
        ? (['light', 'dark'] as const)
        : (['light'] as const)) {
        // The checker is a script of its own, which the page's policy would stop.
        const context = await page.context().browser()?.newContext({ bypassCSP: true, colorScheme });
        const checked = context === undefined ? page : await context.newPage();
        await checked.goto(page.url());
        // The other rules do not depend on colours.
        const rules = colorScheme === 'dark' ? ['color-contrast'] : [];
        expect(await faultsOf(checked, rules), colorScheme).toEqual([]);
        await context?.close();
      }
      await page.close();
    },
  );
});

/** Texts of the pictures that lie over one another, by their boxes. */
const overlaps = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll('figure svg[role=img]')]
      .filter((svg) => svg.getBoundingClientRect().width > 0)
      .flatMap((svg) => {
        const texts = [...svg.querySelectorAll('text')].map((text) => ({
          words: text.textContent,
          box: text.getBoundingClientRect(),
        }));
        return texts.flatMap((one, i) =>
          texts.slice(i + 1).flatMap((other) => {
            const across = Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left);
            const down = Math.min(one.box.bottom, other.box.bottom) - Math.max(one.box.top, other.box.top);
            return across > 2 && down > 5 ? [`${one.words} | ${other.words}`] : [];
          }),
        );
      }),
  );

/** Marks of the pictures that have a hue. */
const coloursOf = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll('figure svg.wide *')].flatMap((mark) =>
      [getComputedStyle(mark).fill, getComputedStyle(mark).stroke].filter((colour) => {
        const parts = /^rgba?\((\d+), (\d+), (\d+)/.exec(colour);
        return parts !== null && new Set(parts.slice(1)).size > 1;
      }),
    ),
  );
