/**
 * The page of one pile, as somebody beside it uses it: on a phone and on a laptop, in real Chromium, against the real
 * service with the simulator.
 */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { JournalEntryView, PilePage } from '../../shared/api/types.ts';
import { chromiumPath, hasChromium } from '../helpers/browser.ts';
import { type DemoInBrowser, demoStartMs, openDemoInBrowser } from '../helpers/demoInBrowser.ts';
import { type DemoProcess, screensBuilt } from '../helpers/demoProcess.ts';
import { exif } from '../helpers/jpegParts.ts';
import { pressOn, tabTo, typeInto } from '../helpers/keyboard.ts';
import { describeInBrowser } from '../helpers/requirement.ts';
import { type Size, sizes, stickingOut, watchComplaints, wcagFindings } from '../helpers/screens.ts';

let demo: DemoProcess;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let complaints: string[];
let cookies: DemoInBrowser['cookies'];
/** Ids of the demo's piles by name. */
let ids: Map<string, string>;

type View = Parameters<Browser['newContext']>[0];

async function openPage(view: View): Promise<void> {
  context = await browser.newContext({ storageState: cookies, viewport: sizes.phone, ...view });
  complaints = watchComplaints(context);
  page = await context.newPage();
}

async function openPile(name: string): Promise<void> {
  await page.goto(`${demo.url}/#/piles/${ids.get(name)}`);
  await page.getByRole('heading', { name: 'Journal' }).waitFor();
  await page.locator('.plot canvas').waitFor();
}

const asked = async <T>(path: string) =>
  (await (await context.request.get(`${demo.url}${path}`)).json()) as T;
const journalOf = (name: string) => asked<JournalEntryView[]>(`/api/piles/${ids.get(name)}/journal`);
const ofKind = async (name: string, kind: string) =>
  (await journalOf(name)).filter((entry) => entry.kind === kind && entry.by !== null);
const waiting = () => page.locator('.waiting .press');
const journal = () => page.getByRole('region', { name: 'Journal' });
const didIt = async (what: string) => {
  await page.getByRole('button', { name: 'Did it...' }).click();
  await page.locator('dialog').getByRole('button', { name: what, exact: true }).click();
};
const cut = () => page.getByRole('img', { name: /^Cut through the middle/ });
const slider = () => page.getByRole('slider', { name: 'Moment shown' });
const shownMoment = () => page.locator('.scrub-moment strong').textContent();

describeInBrowser(
  hasChromium && screensBuilt,
  `no Chromium at ${chromiumPath}, or the screens are not built`,
)('one pile', () => {
  beforeAll(async () => {
    ({ demo, browser, cookies } = await openDemoInBrowser());
    const first = await browser.newContext({ storageState: cookies });
    const piles = (await (await first.request.get(`${demo.url}/api/piles`)).json()) as {
      id: string;
      name: string;
    }[];
    ids = new Map(piles.map(({ id, name }) => [name, id]));
    await first.close();
  }, demoStartMs);
  afterAll(async () => {
    await browser?.close();
    await demo?.stop();
  });
  afterEach(async () => {
    await context.close();
    expect(complaints).toEqual([]);
  });

  describe.each(Object.keys(sizes) as Size[])('on a %s', (size) => {
    beforeEach(() => openPage({ viewport: sizes[size], hasTouch: size === 'phone' }));

    it('shows where it is hot, with a number beside every point, at its depth', async () => {
      await openPile('Cage 1');
      await expect.poll(() => cut().getAttribute('aria-label')).toMatch(/1 core at 0.60 m \d+\.\d C/);
      for (const words of ['1 core 0.60 m', '2 shoulder 0.30 m', '3 edge 0.12 m'])
        await cut().getByText(words).waitFor();
      expect(await cut().locator('.point-label text').first().textContent()).toMatch(/^\d+\.\d C$/);
      await page.getByRole('img', { name: /^From above/ }).waitFor();
      await page.getByText('Drawn as a usual static cage').waitFor();
      // Deeper is lower: the core's tip lies below the edge's.
      const tip = async (index: number) => (await cut().locator('.bubble').nth(index).boundingBox())!.y;
      expect(await tip(0)).toBeGreaterThan(await tip(2));
      expect(await stickingOut(page)).toEqual([]);
      expect(await wcagFindings(page)).toEqual([]);
    });

    it('is scrubbed through time by pointer and keyboard; the moment is told in words', async () => {
      await openPile('Cage 1');
      expect(await shownMoment()).toBe('now');
      const now = await cut().getAttribute('aria-label');
      await slider().scrollIntoViewIfNeeded();
      const box = (await slider().boundingBox())!;
      expect(box.height).toBeGreaterThanOrEqual(48);
      const [x, y] = [box.x + box.width * 0.25, box.y + box.height / 2];
      if (size === 'phone') await page.touchscreen.tap(x, y);
      else await page.mouse.click(x, y);
      await expect.poll(shownMoment).toMatch(/^(Mon|Tue|Wed|Thu|Fri|Sat|Sun) \d+ \w+, \d\d:\d\d$/);
      await expect.poll(() => cut().getAttribute('aria-label')).not.toBe(now);
      expect(await page.locator('.moment-line').isVisible()).toBe(true);
      const before = await shownMoment();
      await slider().focus();
      await page.keyboard.press('ArrowRight');
      await expect.poll(shownMoment).not.toBe(before);
      expect(await slider().getAttribute('aria-valuetext')).toContain('core at 0.60 m');
      await page.keyboard.press('End');
      await expect.poll(shownMoment).toBe('now');
    });

    it('plays from the beginning, stops when told, and a tap on the curves chooses a moment', async () => {
      await openPile('Cage 1');
      await page.getByRole('button', { name: 'Play' }).click();
      await expect.poll(shownMoment).toMatch(/\d\d:\d\d/);
      const early = await shownMoment();
      await expect.poll(shownMoment).not.toBe(early);
      await page.getByRole('button', { name: 'Stop' }).click();
      await page.getByRole('button', { name: 'Now' }).click();
      await expect.poll(shownMoment).toBe('now');
      const curves = page.locator('.plot .u-over');
      await curves.scrollIntoViewIfNeeded();
      const { x, y, width } = (await curves.boundingBox())!;
      await page.mouse.click(x + width * 0.3, y + 40);
      await expect.poll(shownMoment).toMatch(/\d\d:\d\d/);
    });

    it('says of a dying probe that it is not believed, and never takes its value for the pile', async () => {
      await openPile('Bin D');
      await expect
        .poll(() => cut().getAttribute('aria-label'), { timeout: 90_000 })
        .toMatch(/core at 0.60 m (not believed|silent|old)/);
      await page.locator('.points strong').first().waitFor();
      // Told by shape as well: a dashed ring.
      expect(await cut().locator('.bubble circle[stroke-dasharray]').count()).toBeGreaterThan(0);
      await page.getByRole('article').filter({ hasText: 'probe' }).first().waitFor({ timeout: 60_000 });
    });

    it('says what is to come, or what it still lacks for saying so', async () => {
      await openPile('Cage 3');
      const toCome = page.getByRole('region', { name: 'What is to come' });
      await toCome.getByText(/ceiling of 71 C/).waitFor({ timeout: 60_000 });
      await toCome.getByText(/Fitted to this pile’s own readings/).waitFor();
      const legend = page.locator('.legend');
      await legend.getByText('to come, four in five').waitFor();
      await legend.getByText('usual for its method').waitFor({ timeout: 60_000 });
      await openPile('Worm bed');
      await toCome.getByText(/does not heat by itself/).waitFor({ timeout: 30_000 });
    });

    it('says why an alarm is on, with numbers, causes for and against, the look that would tell, and what to do', async () => {
      await openPile('Cage 2');
      const card = page.getByRole('article').filter({ hasText: 'hot' }).first();
      await card.waitFor({ timeout: 90_000 });
      await expect.poll(() => card.textContent(), { timeout: 60_000 }).toMatch(/Why it is on: .*\d/);
      await card.getByText('First:').waitFor();
      await card.getByText('Likely causes, and every step').click();
      await card.getByRole('heading', { name: 'Likely causes' }).waitFor();
      expect(await card.locator('.causes li').first().textContent()).toMatch(/\d+ %/);
      expect(await card.textContent()).toMatch(/For it:|Against it:/);
      expect(await card.locator('.cautions li').count()).toBeGreaterThan(0);
      expect(await wcagFindings(page)).toEqual([]);
    });

    it('writes down what was done with a thumb, and undoes a wrong press before it leaves', async () => {
      await openPile('Cage 4');
      await page.getByRole('button', { name: 'Did it...' }).click();
      for (const button of await page.locator('dialog button').all())
        expect((await button.boundingBox())!.height).toBeGreaterThanOrEqual(48);
      expect(await wcagFindings(page)).toEqual([]);
      await page.locator('dialog').getByRole('button', { name: 'Turned' }).click();
      await waiting().getByRole('button', { name: 'Undo' }).click();
      expect(await waiting().count()).toBe(0);
      await didIt('Watered');
      const litres = { phone: '20 litres', laptop: '50 litres', wall: '10 litres' }[size];
      await page.getByRole('button', { name: litres }).click();
      await journal().getByText(litres).first().waitFor();
      await expect.poll(() => waiting().count()).toBe(0);
      expect(await ofKind('Cage 4', 'turned')).toEqual([]);
      await page
        .getByRole('button', { name: /^Take back Watered/ })
        .first()
        .click();
      await expect.poll(() => ofKind('Cage 4', 'watered')).toEqual([]);
    });

    it('shelves and acknowledges with the bar at the bottom', async () => {
      const wanting = { phone: 'Bin B', laptop: 'Bin C', wall: 'Bin D' }[size];
      await openPile(wanting);
      await page.getByRole('article').first().waitFor({ timeout: 100_000 });
      const bar = page.getByRole('region', { name: 'Quick buttons' });
      const { y, height } = (await bar.boundingBox())!;
      expect(y + height).toBeGreaterThan(sizes[size].height - 10);
      await bar.getByRole('button', { name: 'Shelve...' }).click();
      await page.getByRole('button', { name: 'Waiting for water' }).click();
      await page.getByLabel('For how long').selectOption('1 day');
      expect(await wcagFindings(page)).toEqual([]);
      await page.getByRole('button', { name: 'Shelve it' }).click();
      await page
        .getByRole('article')
        .getByText(/Waiting for water/)
        .first()
        .waitFor();
      await page.getByRole('button', { name: 'Bring back' }).first().click();
      const seen = bar.getByRole('button', { name: /^Seen/ });
      await seen.click();
      const which = page.locator('dialog').getByRole('button', { name: /^Seen:/ });
      while ((await which.count()) > 0) await which.first().click();
      if ((await page.locator('dialog').count()) > 0) await page.keyboard.press('Escape');
      await page.getByRole('article').getByText('seen by Maren Oddsdal').first().waitFor();
    });

    it('marks the journal on the chart; a tap says what was done', async () => {
      await openPile('Cage 3');
      const mark = page.locator('.mark').last();
      const { width, height } = (await mark.boundingBox())!;
      expect(Math.min(width, height)).toBeGreaterThanOrEqual(44);
      // What the mark is called says what a tap must bring: what was done, and when.
      const called = /^(?<kind>[^,]+).*, (?<when>\d+ \w+ \d\d:\d\d)$/.exec(
        (await mark.locator('span').last().textContent())!,
      )!;
      await mark.click();
      const said = (await page.locator('.mark-said li').first().textContent())!;
      expect(said.startsWith(`${called.groups!.when} ${called.groups!.kind} `)).toBe(true);
    });
  });

  describe('with a poor signal', () => {
    beforeEach(() => openPage({}));

    it('a press is kept while there is no link, through a closed page, and arrives once', async () => {
      await openPile('Leaf heap');
      // The screens' files are kept by the browser before the link goes.
      await page.evaluate('navigator.serviceWorker.ready.then(() => null)');
      await page.waitForTimeout(1000);
      await context.setOffline(true);
      await didIt('Turned');
      await waiting().getByText('No link: it is kept on this device').waitFor({ timeout: 30_000 });
      await page.reload();
      await waiting().getByText('Turned').waitFor();
      expect(complaints.every((text) => /ERR_INTERNET_DISCONNECTED/.test(text))).toBe(true);
      complaints.length = 0;
      await context.setOffline(false);
      await page.getByRole('heading', { name: 'Leaf heap' }).waitFor({ timeout: 30_000 });
      await expect.poll(() => ofKind('Leaf heap', 'turned'), { timeout: 60_000 }).toHaveLength(1);
      await expect.poll(() => waiting().count()).toBe(0);
    });

    it('a press whose answer was lost is sent again and is still one', async () => {
      await openPile('Curing heap');
      let lost = 0;
      await page.route('**/journal', async (route) => {
        if (lost > 0) return route.continue();
        lost += 1;
        await route.fetch();
        return route.abort('connectionreset');
      });
      await didIt('Opened');
      await expect.poll(() => waiting().count(), { timeout: 60_000 }).toBe(0);
      expect(lost).toBe(1);
      expect(await ofKind('Curing heap', 'opened')).toHaveLength(1);
      complaints.length = 0;
    });

    it('what the service will not take is shown with its reason until somebody has read it', async () => {
      await openPile('Curing heap');
      await page.route('**/journal', (route) =>
        route.fulfill({
          status: 409,
          contentType: 'application/problem+json',
          body: JSON.stringify({ status: 409, code: 'conflict', detail: 'The pile has ended.' }),
        }),
      );
      await didIt('Opened');
      await waiting().getByText('was not taken. The pile has ended.').waitFor({ timeout: 30_000 });
      expect(await wcagFindings(page)).toEqual([]);
      await waiting().getByRole('button', { name: 'Forget it' }).click();
      expect(await waiting().count()).toBe(0);
      complaints.length = 0;
    });
  });

  describe('a photo', () => {
    beforeEach(() => openPage({}));

    /** A large photo with place and time in it, as a phone makes it. */
    async function phonePhoto(): Promise<Buffer> {
      const bytes = (await page.evaluate(`new Promise((resolve) => {
          const canvas = document.createElement('canvas');
          canvas.width = 2400; canvas.height = 1800;
          const context = canvas.getContext('2d');
          for (let stripe = 0; stripe < 40; stripe += 1) {
            context.fillStyle = 'hsl(' + stripe * 9 + ' 60% 40%)';
            context.fillRect(stripe * 60, 0, 60, 1800);
          }
          canvas.toBlob(async (blob) => resolve([...new Uint8Array(await blob.arrayBuffer())]), 'image/jpeg', 0.9);
        })`)) as number[];
      const plain = Buffer.from(bytes);
      return Buffer.concat([plain.subarray(0, 2), exif, plain.subarray(2)]);
    }

    it('is made small on the phone, loses place and time, and is shown in the journal', async () => {
      await openPile('Cage 1');
      const sent = await phonePhoto();
      expect(sent.toString('latin1')).toContain('GPS 58.21');
      await didIt('Photo');
      await page
        .getByLabel('Take or choose a photo')
        .setInputFiles({ name: 'core.jpg', mimeType: 'image/jpeg', buffer: sent });
      await page.getByRole('img', { name: 'What will be kept' }).waitFor();
      await page.getByLabel('What it shows').fill('white threads');
      expect(await wcagFindings(page)).toEqual([]);
      await page.getByRole('button', { name: /^Keep this photo \(\d+ kB\)/ }).click();
      const shown = journal().getByRole('img', { name: 'white threads' });
      await shown.waitFor({ timeout: 30_000 });
      await shown.scrollIntoViewIfNeeded();
      await expect
        .poll(() => shown.evaluate((image) => (image as unknown as { naturalWidth: number }).naturalWidth), {
          timeout: 30_000,
        })
        .toBe(1280);
      const [entry] = (await journalOf('Cage 1')).filter(({ photo }) => photo !== null);
      expect(entry!.photo).toEqual({ widthPixels: 1280, heightPixels: 960 });
      const kept = await context.request.get(`${demo.url}/api/journal/${entry!.id}/photo`);
      const bytes = await kept.body();
      expect(bytes.toString('latin1')).not.toMatch(/Exif|GPS/);
      expect(bytes.length).toBeLessThan(700_000);
    });

    it('that is none is refused in words', async () => {
      await openPile('Cage 1');
      await didIt('Photo');
      const file = page.getByLabel('Take or choose a photo');
      await file.setInputFiles({
        name: 'x.jpg',
        mimeType: 'image/jpeg',
        buffer: Buffer.from('no picture'),
      });
      await page.getByText('This browser cannot read this picture').waitFor();
      await file.setInputFiles({ name: 'x.pdf', mimeType: 'application/pdf', buffer: Buffer.from('%PDF') });
      await page.getByText('This is no picture').waitFor();
      expect(await page.getByRole('button', { name: 'Choose a photo first' }).isDisabled()).toBe(true);
    });
  });

  describe('by keyboard alone', () => {
    beforeEach(() => openPage({}));

    it('the past is scrubbed, a deed written down and undone', async () => {
      await openPile('Windrow');
      await tabTo(page, 'Moment shown');
      await page.keyboard.press('Home');
      await expect.poll(shownMoment).toMatch(/\d\d:\d\d/);
      await pressOn(page, 'Did it...');
      await pressOn(page, 'Note');
      await typeInto(page, 'Note', 'smells of earth');
      await pressOn(page, 'Write down: Note');
      await pressOn(page, 'Undo');
      expect(await waiting().count()).toBe(0);
      const { journal: entries } = await asked<PilePage>(`/api/piles/${ids.get('Windrow')}/page`);
      expect(entries.some(({ note }) => note === 'smells of earth')).toBe(false);
    });
  });

  describe('for whoever sees it otherwise', () => {
    it('nothing sticks out at 200 % zoom, and the bar does not cover the page', async () => {
      await openPage({ viewport: { width: 683, height: 384 } });
      await openPile('Cage 2');
      expect(await stickingOut(page)).toEqual([]);
      expect(await wcagFindings(page)).toEqual([]);
      const position = await page.evaluate(`getComputedStyle(document.querySelector('.thumb')).position`);
      expect(position).toBe('static');
    });

    it('nothing moves by itself where motion is not wanted', async () => {
      await openPage({ reducedMotion: 'reduce' });
      await openPile('Cage 2');
      await page.getByRole('button', { name: 'Did it...' }).click();
      expect(await page.evaluate('document.getAnimations().length')).toBe(0);
    });

    it('without colours every state is still told: words, shapes and dashes', async () => {
      await openPage({});
      const devtools = await context.newCDPSession(page);
      await devtools.send('Emulation.setEmulatedVisionDeficiency', { type: 'achromatopsia' });
      await openPile('Bin D');
      await page.getByRole('article').first().waitFor({ timeout: 90_000 });
      for (const card of await page.getByRole('article').all())
        expect(await card.locator('h3 svg path, h3 svg polygon').count()).toBeGreaterThan(0);
      const labels = await cut().locator('.point-label').allTextContents();
      for (const label of labels) expect(label).toMatch(/\d+\.\d C|old|silent|not believed/);
      const dashes = await page
        .locator('.legend path')
        .evaluateAll((lines) => lines.map((line) => (line as unknown as { outerHTML: string }).outerHTML));
      expect(new Set(dashes.map((line) => /dasharray="[^"]*"/.exec(line)?.[0])).size).toBeGreaterThan(3);
    });
  });
});
