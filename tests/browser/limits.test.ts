/** Limits tried against a pile's own past, in a real browser against the real service: by mouse, by keys, on a phone. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it, vi } from 'vitest';
import type { LimitsView } from '../../shared/api/types.ts';
import { chromiumPath, hasChromium, launchBrowser } from '../helpers/browser.ts';
import { screensBuilt } from '../helpers/demoProcess.ts';
import { pressOn, tabTo, typeInto } from '../helpers/keyboard.ts';
import { describeInBrowser } from '../helpers/requirement.ts';
import { type Size, sizes, stickingOut, watchComplaints, wcagFindings } from '../helpers/screens.ts';
import { type SeasonedYard, signInSeasoned, startSeasonedYard } from '../helpers/seasonedYard.ts';

let folder: string;
let seasoned: SeasonedYard;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let complaints: string[];
let cookies: Awaited<ReturnType<BrowserContext['storageState']>>;

const limitsOf = (id: string) => seasoned.client.get<LimitsView>(`/api/piles/${id}/limits`);
const grip = () => page.getByRole('slider', { name: 'Limit' });
const headline = () => page.locator('.headline');

async function openPage(options: Parameters<Browser['newContext']>[0] = { viewport: sizes.laptop }) {
  context = await browser.newContext({ storageState: cookies, ...options });
  complaints = watchComplaints(context);
  page = await context.newPage();
  await page.goto(`${seasoned.yard.url}/#/piles/${seasoned.cage.id}/limits`);
  await page.locator('.limit-figures').waitFor();
  await page.getByLabel('Which limit').selectOption('too-hot-ceiling');
}

/** What a limit is in force, for this pile. */
async function inForce(parameter: string): Promise<unknown> {
  const { conditions } = await limitsOf(seasoned.cage.id);
  const ceiling = conditions.find(({ condition }) => condition === 'too-hot-ceiling')!;
  return ceiling.parameters.find(({ key }) => key === parameter)!.value;
}

/** Ceiling back as the helper left it: told at once, at every touch. */
async function makeNervous(): Promise<void> {
  const { current } = await limitsOf(seasoned.cage.id);
  await seasoned.client.put(`/api/piles/${seasoned.cage.id}/limits`, {
    expectedVersion: current.version,
    overrides: { 'too-hot-ceiling': { onDelayMinutes: 0, offDelayMinutes: 0, deadbandCelsius: 0.5 } },
    reason: 'want to know at once',
  });
}

describeInBrowser(
  hasChromium && screensBuilt,
  `no Chromium at ${chromiumPath}, or the screens are not built`,
)('the limits of a pile', () => {
  vi.setConfig({ testTimeout: 90_000, hookTimeout: 180_000 });
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'tilth-limits-'));
    [seasoned, browser] = await Promise.all([startSeasonedYard(folder), launchBrowser()]);
    cookies = await signInSeasoned(browser, seasoned);
  });
  afterAll(async () => {
    await browser?.close();
    await seasoned?.yard.stop();
    await rm(folder, { recursive: true, force: true });
  });
  beforeEach(makeNervous);
  afterEach(async () => {
    await context?.close();
    expect(complaints).toEqual([]);
  });

  it.each(['laptop', 'wall'] as const)(
    'on a %s a line that is pulled by the mouse is replayed at once: fewer texts, and the alarms that go',
    async (size) => {
      await openPage({ viewport: sizes[size] });
      const box = (await grip().boundingBox())!;
      await page.mouse.move(box.x + 30, box.y + box.height / 2);
      await page.mouse.down();
      await page.mouse.move(box.x + 30, box.y + box.height / 2 - 12, { steps: 6 });
      await page.mouse.up();
      await expect.poll(async () => Number(await grip().getAttribute('aria-valuenow'))).toBeGreaterThan(71.5);
      await headline()
        .getByText(/^\d+ texts?, not \d+\./)
        .waitFor();
      const [, tried, now] = /(\d+) texts?, not (\d+)/.exec((await headline().textContent())!)!;
      expect(Number(tried)).toBeLessThan(Number(now));
      await page.getByRole('heading', { name: /^Would not have come \(\d+\)/ }).waitFor();
      // Above 71 C it is said how dangerous that is, and cannot be saved unread.
      await page.getByText('The ceiling would be above 71 C').waitFor();
      await page.getByLabel('Why').fill('fewer texts');
      await page.getByRole('button', { name: /^Save as version/ }).click();
      await page.getByText('Tick that you have read').waitFor();
      expect(await inForce('limitCelsius')).toBe(71);
    },
  );

  it.each(Object.keys(sizes) as Size[])(
    'on a %s by keys alone: a suggestion taken with one press, saved with a reason, and undone',
    async (size) => {
      await openPage({ viewport: sizes[size] });
      await page.getByText(/With .* you would have had \d+ texts?, not \d+/).waitFor({ timeout: 60_000 });
      await pressOn(page, 'Try these numbers');
      await headline()
        .getByText(/texts?, not/)
        .waitFor();
      const { current: nervous } = await limitsOf(seasoned.cage.id);
      const before = nervous.version;
      await typeInto(page, 'Why', 'every touch was a text');
      await pressOn(page, `Save as version ${before + 1}`);
      await page.getByText(`Saved as version ${before + 1}. It is in force now.`).waitFor();
      expect((await limitsOf(seasoned.cage.id)).current.overrides).not.toEqual(nervous.overrides);
      const newest = page.locator('.log > li').first();
      await newest.getByText('every touch was a text').waitFor();
      await newest.getByText('Wren').waitFor();
      await pressOn(page, 'Undo the last change...');
      await typeInto(page, 'Why', 'was better before');
      await pressOn(page, `Put version ${before} in force again`);
      await page.getByText(`was better before (back to version ${before})`).first().waitFor();
      expect((await limitsOf(seasoned.cage.id)).current.overrides).toEqual(nervous.overrides);
    },
  );

  it('arrow keys on the line, Home and End, stay within what is allowed', async () => {
    await openPage();
    await tabTo(page, 'Limit');
    await page.keyboard.press('ArrowDown');
    expect(await grip().getAttribute('aria-valuetext')).toBe('70.5 C');
    await page.keyboard.press('PageUp');
    expect(await grip().getAttribute('aria-valuetext')).toBe('73 C');
    await page.keyboard.press('End');
    expect(await grip().getAttribute('aria-valuetext')).toBe('79 C');
    await page.keyboard.press('Home');
    expect(await grip().getAttribute('aria-valuetext')).toBe('30 C');
    expect(await page.getByLabel('Limit, C').inputValue()).toBe('30');
  });

  it('a ceiling that comes too late is told by what it loses', async () => {
    await openPage();
    await page.getByLabel('On-delay, min').fill('480');
    await page.getByText('The ceiling would be told more than an hour late.').waitFor();
    const table = page.getByRole('region', { name: 'Warning before trouble' });
    await table.getByText('core above 71 C for an hour').waitFor();
    expect(await table.getByRole('row').count()).toBe(2);
  });

  it('fire danger cannot be switched off, and says so', async () => {
    await openPage();
    await page.getByLabel('Which limit').selectOption('too-hot-fire-danger');
    await page.getByLabel('Judge this at all').uncheck();
    await page.getByText('Fire danger cannot be switched off').waitFor();
    expect(await page.getByRole('button', { name: /^Save as version/ }).count()).toBe(0);
    await page.getByText('Limits of fire danger are never suggested').waitFor();
  });

  it('a replay can be stopped and started again', async () => {
    await openPage();
    await page.evaluate(`new MutationObserver((_, watch) => {
        const stop = [...document.querySelectorAll('button')].find((one) => one.textContent === 'Stop');
        if (stop) { stop.click(); watch.disconnect(); }
      }).observe(document.body, { subtree: true, childList: true })`);
    await page.getByLabel('Deadband, C').fill('3');
    await page.getByText('Stopped.').waitFor();
    expect(await headline().count()).toBe(0);
    await page.getByRole('button', { name: 'Replay again' }).click();
    await headline().waitFor();
  });

  it('what was saved is copied to a pile chosen from a list that says what would change there', async () => {
    await openPage();
    await page.getByText('Copy to other piles').click();
    const row = page.locator('.copy-targets li', { hasText: 'Cage 5' });
    await row.getByText('On-delay').waitFor();
    await row.getByRole('checkbox').check();
    await page.locator('.copy-limits').getByLabel('Why').fill('same mix');
    await page.getByRole('button', { name: 'Copy to this pile' }).click();
    await page.getByText('Copied to one pile.').waitFor();
    const { current } = await limitsOf(seasoned.sister.id);
    expect(current.overrides['too-hot-ceiling']).toMatchObject({ onDelayMinutes: 0 });
    expect(current.reason).toMatch(/^same mix \(copied from Cage 2/);
    await row.getByText('already the same').waitFor();
  });

  it('on a phone the tab is pulled by a finger, and the page still scrolls beside it', async () => {
    await openPage({ viewport: sizes.phone, hasTouch: true, isMobile: true });
    await grip().scrollIntoViewIfNeeded();
    const box = (await grip().boundingBox())!;
    expect(box.height).toBeGreaterThanOrEqual(44);
    const session = await context.newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', y: number) =>
      session.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: type === 'touchEnd' ? [] : [{ x: box.x + 30, y }],
      });
    await touch('touchStart', box.y + 22);
    for (const by of [6, 12, 18]) await touch('touchMove', box.y + 22 + by);
    await touch('touchEnd', 0);
    await expect.poll(async () => Number(await grip().getAttribute('aria-valuenow'))).toBeLessThan(70);
    await headline().waitFor();
  });

  it.each(Object.keys(sizes) as Size[])(
    'on a %s: WCAG 2.2 AA, nothing sticks out, grey tells it too',
    async (size) => {
      await openPage({ viewport: sizes[size], reducedMotion: 'reduce' });
      await page.getByLabel('Limit, C').fill('74');
      await headline().waitFor();
      await page.getByText('More numbers').click();
      await page.getByText('Limit by limit').click();
      await page.getByText('Copy to other piles').click();
      await page.locator('.copy-targets').waitFor();
      await page.evaluate(`document.documentElement.style.filter = 'grayscale(1)'`);
      expect(await wcagFindings(page)).toEqual([]);
      expect(await stickingOut(page)).toEqual([]);
      expect(await page.evaluate('document.getAnimations().length')).toBe(0);
    },
  );

  it('at 200 % zoom and on the narrowest screen nothing sticks out', async () => {
    await openPage({ viewport: { width: 683, height: 384 }, deviceScaleFactor: 2 });
    expect(await stickingOut(page)).toEqual([]);
    await page.setViewportSize({ width: 320, height: 256 });
    // The chart is drawn anew once the page has heard of its new width.
    await expect.poll(() => stickingOut(page)).toEqual([]);
  });
});
