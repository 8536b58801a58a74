/**
 * What people do with the yard, by keyboard alone, in a real browser against the real service with the simulator. Each
 * flow at each size: a phone's, a laptop's and a wall's layout must all be workable without a pointer.
 */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { chromiumPath, hasChromium } from '../helpers/browser.ts';
import { type DemoInBrowser, demoStartMs, openDemoInBrowser } from '../helpers/demoInBrowser.ts';
import { type DemoProcess, screensBuilt } from '../helpers/demoProcess.ts';
import { pick, pressOn, typeInto } from '../helpers/keyboard.ts';
import { readCredential, startProbe } from '../helpers/probeByHand.ts';
import { describeInBrowser } from '../helpers/requirement.ts';
import { type Size, sizes, watchComplaints, wcagFindings } from '../helpers/screens.ts';

let demo: DemoProcess;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let complaints: string[];
let cookies: DemoInBrowser['cookies'];

const open = (path: string) => page.goto(`${demo.url}/#/${path}`);

/** Opens the page of any pile. */
async function openPile(): Promise<void> {
  await page.goto(demo.url);
  await page.locator('.pile-list a').last().waitFor();
  await page.goto(`${demo.url}/${await page.locator('.pile-list a').last().getAttribute('href')}`);
  await page.getByRole('heading', { name: 'Journal' }).waitFor();
}

/** Opens the page of a pile with an alarm nobody has seen; each size takes another one. Drying stands until somebody waters. */
async function openWantingPile(): Promise<void> {
  await page.goto(demo.url);
  const unseen = page.locator('.pile-list li', { hasText: 'nobody has seen it' });
  const drying = unseen.filter({ hasText: 'drying out' });
  await drying
    .first()
    .waitFor({ timeout: 60_000 })
    .catch(() => null);
  // A further try may find all of those seen already.
  const chosen = (await drying.count()) > 0 ? drying.last() : unseen.first();
  const link = await chosen.locator('a').getAttribute('href');
  await page.goto(`${demo.url}/${link}`);
  await page.locator('article.alarm').first().waitFor();
}

/** Unfolds the form that adds something; where there is nothing yet it is open already. */
async function unfold(title: string): Promise<void> {
  await page.locator('details.add', { hasText: title }).waitFor();
  await page.locator('.log li, .card').first().or(page.locator('details.add[open]')).first().waitFor();
  if ((await page.locator('details.add[open]').count()) === 0) await pressOn(page, title);
}

/** Publishes a temperature as a probe would, with the credential the page shows. */
async function sendAsProbe(): Promise<void> {
  const probe = await startProbe(await readCredential(page));
  await probe.send({ core: 41.5 });
  await probe.stop();
}

describeInBrowser(
  hasChromium && screensBuilt,
  `no Chromium at ${chromiumPath}, or the screens are not built`,
)('by keyboard alone', () => {
  beforeAll(async () => {
    ({ demo, browser, cookies } = await openDemoInBrowser());
  }, demoStartMs);
  afterAll(async () => {
    await browser?.close();
    await demo?.stop();
  });

  describe.each(Object.keys(sizes) as Size[])('on a %s', (size) => {
    beforeEach(async () => {
      context = await browser.newContext({ storageState: cookies, viewport: sizes[size] });
      complaints = watchComplaints(context);
      page = await context.newPage();
    });
    afterEach(async () => {
      await context.close();
      expect(complaints).toEqual([]);
    });

    it('an alarm is shelved with a reason, brought back, and seen', async () => {
      await openWantingPile();
      const card = page.locator('article.alarm').first();
      const name = (await card.locator('h3').textContent())!.trim();
      const same = page.locator('article.alarm', { hasText: name.split(' ').at(-1)! });
      await pressOn(page, 'Shelve...');
      await pick(page, 'For how long', '1 w');
      await typeInto(page, 'Why', `watering tomorrow, ${size}`);
      expect(await wcagFindings(page)).toEqual([]);
      await pressOn(page, 'Shelve it');
      await same.getByText(`watering tomorrow, ${size}`).waitFor();
      await pressOn(page, 'Bring back');
      await same.getByText('nobody has seen it').waitFor();
      // From the top again: going on from where "Bring back" was, Tab would come to the next alarm's button.
      await page.reload();
      await same.waitFor();
      await pressOn(page, 'I have seen it');
      await same.getByText('seen by Maren Oddsdal').waitFor();
    });

    it('a hand reading, a squeeze test and a note go into the journal', async () => {
      await openPile();
      const journal = page.getByRole('region', { name: 'Journal' });
      await pressOn(page, 'Did it...');
      await pressOn(page, 'Hand reading');
      await typeInto(page, 'Temperature', '58.5');
      await typeInto(page, 'Note', `at the back, ${size}`);
      await pressOn(page, 'Write down: Hand reading');
      await journal.getByText(`58.5 C at 0.60 m at the back, ${size}`).waitFor();
      await pressOn(page, 'Did it...');
      await pressOn(page, 'Squeeze test');
      await pressOn(page, /^4 a drop or two/);
      await journal.getByText('4 of 5').first().waitFor();
    });

    it('the course is taken back in time and to now again, by keys and by pulling it', async () => {
      await openPile();
      const plot = page.locator('.plot');
      await plot.waitFor();
      const label = () => plot.getAttribute('aria-label');
      const now = await label();
      await pressOn(page, 'Earlier');
      await expect.poll(label).not.toBe(now);
      await pressOn(page, 'Now');
      await expect.poll(() => page.getByRole('button', { name: 'Now' }).isDisabled()).toBe(true);
      const curves = page.locator('.plot .u-over');
      await curves.scrollIntoViewIfNeeded();
      const box = (await curves.boundingBox())!;
      await page.mouse.move(box.x + 20, box.y + 40);
      await page.mouse.down();
      await page.mouse.move(box.x + box.width - 20, box.y + 40, { steps: 5 });
      await page.mouse.up();
      await expect.poll(() => page.getByRole('button', { name: 'Now' }).isEnabled()).toBe(true);
    });

    it('a reading that cannot be is refused in words beside its field', async () => {
      await openPile();
      await pressOn(page, 'Did it...');
      await pressOn(page, 'Hand reading');
      await typeInto(page, 'Temperature', '400');
      await pressOn(page, 'Write down: Hand reading');
      const field = page.getByRole('spinbutton', { name: 'Temperature' });
      await expect.poll(() => field.getAttribute('aria-invalid')).toBe('true');
      expect(await page.locator('.field .wrong').textContent()).toMatch(/120/);
    });

    it('a pile is started, a probe enrolled, its channel placed, and the pile shows what it says', async () => {
      await open('manage/piles');
      await unfold('Start a pile');
      await typeInto(page, 'Name', `Heap ${size}`);
      await typeInto(page, 'Where it stands', 'by the gate');
      await pick(page, 'How it is run', 'leaf');
      await pressOn(page, 'Start this pile');
      await page.getByRole('link', { name: `Heap ${size}` }).waitFor();
      await open('manage/probes');
      await unfold('Add a probe');
      await typeInto(page, 'Label on the probe', `Stick ${size}`);
      await pressOn(page, 'Make its credential');
      await page.getByRole('heading', { name: `What to put into Stick ${size}` }).waitFor();
      await page.locator('.qr').waitFor();
      expect((await page.locator('.secret').textContent())!.length).toBeGreaterThan(20);
      expect(await wcagFindings(page)).toEqual([]);
      await sendAsProbe();
      const card = page.locator('article.card', { hasText: `Stick ${size}` });
      await card.getByText('not placed yet').waitFor({ timeout: 30_000 });
      await pressOn(page, /^not placed yet/);
      await pick(page, 'Pile', `Heap ${size}`);
      await typeInto(page, 'How deep', '0.4');
      await pressOn(page, 'It is there now');
      await card.getByText(`in Heap ${size}, core, 0.4 m deep`).waitFor();
    });

    it('a person is added and handed a link to set a password', async () => {
      await open('manage/people');
      await unfold('Add a person');
      await typeInto(page, 'Name', `Ash ${size}`);
      await typeInto(page, 'Sign-in name', `ash-${size}`);
      await pressOn(page, 'Add');
      const link = page.locator('.secret');
      await link.waitFor();
      const stranger = await (await browser.newContext({ viewport: sizes[size] })).newPage();
      await stranger.goto((await link.textContent())!);
      await typeInto(stranger, 'New password', 'seven wet leaves fall');
      expect(await wcagFindings(stranger)).toEqual([]);
      await pressOn(stranger, 'Set password and sign in');
      await stranger.locator('.pile-list li').first().waitFor();
      await stranger.context().close();
    });

    it('a wall link is made, opens the wall without signing in, and is worth nothing once taken back', async () => {
      await open('manage/walls');
      await unfold('Make a wall link');
      await typeInto(page, 'Which screen', `Shed ${size}`);
      await pressOn(page, 'Make the link');
      const link = page.locator('.secret');
      await link.waitFor();
      const kiosk = await (await browser.newContext({ viewport: sizes.wall })).newPage();
      await kiosk.goto((await link.textContent())!);
      await kiosk.locator('.tile').first().waitFor();
      expect(kiosk.url()).toBe(`${demo.url}/wall`);
      await pressOn(page, 'Take it back');
      await page
        .locator('.log li', { hasText: `Shed ${size}` })
        .getByText('taken back')
        .waitFor();
      await kiosk.getByRole('heading', { name: 'This screen is not signed in' }).waitFor();
      expect(await kiosk.locator('.tile').count()).toBe(0);
      await kiosk.context().close();
    });
  });
});
