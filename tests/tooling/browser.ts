import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { type BrowserContext, chromium, type Page } from 'playwright-core';

const NAMES = ['chromium', 'chromium-browser'];

/** Chromium as the system has it; null where it is not installed. */
export const BROWSER: string | null =
  (process.env.PATH ?? '')
    .split(delimiter)
    .flatMap((folder) => NAMES.map((name) => join(folder, name)))
    .find((path) => existsSync(path)) ?? null;

/** Why tests in a browser are left out; null where they are not. Said once, so that nobody takes them for passed. */
export const LEFT_OUT =
  BROWSER === null
    ? 'left out, for there is no chromium here: apt-get install chromium, or run .ci/run, which does so'
    : null;

/** A page as a browser shows it, and what it did besides. */
export interface Shown {
  readonly page: Page;
  /** Errors on the console, and addresses that were asked for. */
  readonly said: readonly string[];
}

/** A browser without a window, with a profile that nothing else uses. */
export interface Browser {
  /** Show a page at a width, px. */
  readonly show: (html: string, width?: number) => Promise<Shown>;
  readonly close: () => Promise<void>;
}

/** Open such a browser. */
export const openBrowser = async (): Promise<Browser> => {
  const folder = mkdtempSync(join(tmpdir(), 'thole-pages-'));
  const context: BrowserContext = await chromium.launchPersistentContext(join(folder, 'profile'), {
    executablePath: BROWSER!,
    headless: true,
    args: [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
  let count = 0;
  return {
    show: async (html, width = 1000) => {
      const path = join(folder, `${++count}.html`);
      writeFileSync(path, html);
      const page = await context.newPage();
      const said: string[] = [];
      page.on('console', (message) => {
        if (message.type() === 'error' || message.type() === 'warning') said.push(message.text());
      });
      page.on('pageerror', (error) => said.push(error.message));
      page.on('dialog', (dialog) => {
        said.push(`dialog: ${dialog.message()}`);
        void dialog.dismiss();
      });
      page.on('request', (request) => {
        if (request.url() !== `file://${path}`) said.push(`asked for ${request.url()}`);
      });
      await page.setViewportSize({ width, height: 900 });
      await page.goto(`file://${path}`);
      return { page, said };
    },
    close: async () => {
      await context.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
};
