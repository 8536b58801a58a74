/** A screen that has lost its link, in a real browser: it says so loudly, stands still, and never passes old for new. */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { chromiumPath, hasChromium } from '../helpers/browser.ts';
import { type DemoInBrowser, demoStartMs, openDemoInBrowser } from '../helpers/demoInBrowser.ts';
import { type DemoProcess, screensBuilt } from '../helpers/demoProcess.ts';
import { describeInBrowser } from '../helpers/requirement.ts';
import { sizes, wcagFindings } from '../helpers/screens.ts';

let demo: DemoProcess;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let cookies: DemoInBrowser['cookies'];

const banner = () => page.locator('.lost');
const clock = () => page.locator('.clock time').getAttribute('datetime');
const numbers = () => page.locator('.core-value strong').allTextContents();
/** Nothing of the service can be reached, as when a switch is unplugged; an open link is cut too. */
const unplug = () => context.setOffline(true);
const plugIn = () => context.setOffline(false);

/** Waits until the service worker has kept the screens and the page has kept the yard. */
async function keptForLater(): Promise<void> {
  await page.evaluate('navigator.serviceWorker.ready.then(() => true)');
  await expect
    .poll(() => page.evaluate(`caches.match('/last-known-wall').then((found) => found !== undefined)`))
    .toBe(true);
}

describeInBrowser(
  hasChromium && screensBuilt,
  `no Chromium at ${chromiumPath}, or the screens are not built`,
)('without the service', () => {
  beforeAll(async () => {
    ({ demo, browser, cookies } = await openDemoInBrowser());
  }, demoStartMs);
  afterAll(async () => {
    await browser?.close();
    await demo?.stop();
  });
  beforeEach(async () => {
    context = await browser.newContext({ storageState: cookies, viewport: sizes.wall });
    page = await context.newPage();
  });
  afterEach(() => context?.close());

  describe('a wall that was live', () => {
    it('says NOT LIVE, greys its tiles, stands its clock, and comes back by itself', async () => {
      await page.goto(`${demo.url}/wall`);
      await page.locator('.live-word').waitFor();
      expect(await banner().count()).toBe(0);
      await unplug();
      await banner().waitFor({ timeout: 30_000 });
      expect(await banner().getByRole('alert').textContent()).toMatch(/^NOT LIVE/);
      expect(await page.locator('.live-word').count()).toBe(0);
      const letters = await page.evaluate(
        `parseFloat(getComputedStyle(document.querySelector('.lost strong')).fontSize)`,
      );
      expect(letters).toBeGreaterThan(40);
      const filters = `[...document.querySelectorAll('.tile')].every((tile) => getComputedStyle(tile).filter === 'grayscale(1)')`;
      expect(await page.evaluate(filters)).toBe(true);
      const before = [await clock(), ...(await numbers())];
      // Ten minutes of yard time a second: a clock that ran on would have moved far.
      await new Promise((resolve) => setTimeout(resolve, 2500));
      expect([await clock(), ...(await numbers())]).toEqual(before);
      expect(await wcagFindings(page)).toEqual([]);
      await plugIn();
      await banner().waitFor({ state: 'detached', timeout: 30_000 });
      await expect.poll(clock).not.toBe(before[0]);
    }, 120_000);

    it('says so as well when only its live link is cut and pages still load', async () => {
      await page.route('**/api/live', (route) => route.abort());
      await page.goto(`${demo.url}/wall`);
      await page.locator('.tile').first().waitFor();
      await banner().getByText('NOT LIVE').waitFor({ timeout: 20_000 });
      await page.unroute('**/api/live');
      await banner().waitFor({ state: 'detached', timeout: 30_000 });
    }, 90_000);
  });

  describe('opened from memory', () => {
    it('the wall shows what it last saw, with its age, as not live; then live again', async () => {
      await page.goto(`${demo.url}/wall`);
      await page.locator('.tile').first().waitFor();
      await keptForLater();
      await unplug();
      await page.reload();
      await banner().getByText('NOT LIVE').waitFor({ timeout: 20_000 });
      await expect.poll(() => page.locator('.tile').count()).toBe(12);
      expect(await banner().textContent()).toMatch(/What it shows is of \d+ \w+ \d\d:\d\d/);
      expect(await page.locator('.live-word').count()).toBe(0);
      await plugIn();
      await banner().waitFor({ state: 'detached', timeout: 40_000 });
      await page.locator('.live-word').waitFor();
    }, 120_000);

    it('the app on a phone does the same, and forgets the yard when its owner signs out', async () => {
      await page.setViewportSize(sizes.phone);
      await page.goto(demo.url);
      await page.locator('.pile-list li').first().waitFor();
      await keptForLater();
      await unplug();
      await page.reload();
      await banner().getByText('NOT LIVE').waitFor({ timeout: 20_000 });
      await expect.poll(() => page.locator('.pile-list li').count()).toBe(12);
      expect(await wcagFindings(page)).toEqual([]);
      await plugIn();
      await page.getByRole('button', { name: 'Sign out' }).click({ timeout: 30_000 });
      await page.getByRole('heading', { name: 'Sign in' }).waitFor();
      await expect
        .poll(() => page.evaluate(`caches.match('/last-known-wall').then((found) => found === undefined)`))
        .toBe(true);
      cookies = { cookies: [], origins: [] };
    }, 120_000);
  });

  it('can be installed: manifest, icons of the sizes it says, and a page that is kept', async () => {
    await page.goto(demo.url);
    const manifest = await (await page.request.get(`${demo.url}/manifest.webmanifest`)).json();
    expect(manifest).toMatchObject({ start_url: '/', display: 'standalone' });
    for (const { src, sizes: said, type } of manifest.icons.filter(
      ({ type }: { type: string }) => type === 'image/png',
    )) {
      const icon = await page.request.get(`${demo.url}${src}`);
      expect(icon.headers()['content-type']).toBe(type);
      const bytes = await icon.body();
      // Width and height stand at bytes 16 and 20 of a PNG.
      expect(`${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`).toBe(said);
    }
    const devtools = await context.newCDPSession(page);
    const { installabilityErrors } = await devtools.send('Page.getInstallabilityErrors');
    // A fresh private window is never offered to be installed; everything else must be in order.
    expect(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== 'in-incognito')).toEqual(
      [],
    );
  });

  it('never keeps an answer of the API', async () => {
    await page.goto(demo.url);
    await page.evaluate('navigator.serviceWorker.ready.then(() => true)');
    const kept = await page.evaluate(`caches.keys()
        .then((names) => Promise.all(names.map((name) => caches.open(name).then((cache) => cache.keys()))))
        .then((lists) => lists.flat().map(({ url }) => new URL(url).pathname))`);
    expect((kept as string[]).filter((path) => path.startsWith('/api/'))).toEqual([]);
    expect(kept).toContain('/wall');
  });
});
