/** Every screen of the demo yard in a real browser, at every size: nothing hidden, nothing refused, nothing by colour alone. */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { chromiumPath, hasChromium } from '../helpers/browser.ts';
import { type DemoInBrowser, demoStartMs, openDemoInBrowser } from '../helpers/demoInBrowser.ts';
import { type DemoProcess, screensBuilt } from '../helpers/demoProcess.ts';
import { describeInBrowser } from '../helpers/requirement.ts';
import { type Size, sizes, stickingOut, watchComplaints, wcagFindings } from '../helpers/screens.ts';

let demo: DemoProcess;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let complaints: string[];
let cookies: DemoInBrowser['cookies'];
let pilePath: string;

/** Screens by address and by what is there once they are drawn. */
const screens = {
  wall: { path: '/wall', drawn: '.tile' },
  piles: { path: '/', drawn: '.pile-list li' },
  pile: { path: () => pilePath, drawn: '.plot canvas' },
  limits: { path: () => `${pilePath}/limits`, drawn: '.limit-figures' },
  records: { path: '/#/records', drawn: '.share-bar' },
  record: { path: () => pilePath.replace('piles', 'records'), drawn: '.record h1' },
  'manage piles': { path: '/#/manage/piles', drawn: '.log li' },
  'manage probes': { path: '/#/manage/probes', drawn: '.card' },
  'manage people': { path: '/#/manage/people', drawn: '.log li' },
  'manage texts': { path: '/#/manage/texts', drawn: '.previews li' },
  'manage wall screens': { path: '/#/manage/walls', drawn: 'form' },
  'manage set aside': { path: '/#/manage/set-aside', drawn: 'main p' },
  'manage health': { path: '/#/manage/health', drawn: '.card' },
  'manage duty': { path: '/#/manage/duty', drawn: '#escalate' },
  'manage gateways': { path: '/#/manage/gateways', drawn: '.card' },
  'manage map': { path: '/#/manage/map', drawn: '.map-preview' },
  'manage yard': { path: '/#/manage/yard', drawn: '.pairs' },
  'first steps': { path: '/#/start/channels', drawn: '.onward' },
  me: { path: '/#/me', drawn: '#change-password' },
} as const;
type Screen = keyof typeof screens;
const names = Object.keys(screens) as Screen[];

async function openScreen(name: Screen): Promise<void> {
  const { path, drawn } = screens[name];
  await page.goto(`${demo.url}${typeof path === 'function' ? path() : path}`);
  await page.locator(drawn).first().waitFor();
}

async function newPage(options: Parameters<Browser['newContext']>[0] = {}): Promise<void> {
  context = await browser.newContext({ storageState: cookies, ...options });
  complaints = watchComplaints(context);
  page = await context.newPage();
}

describeInBrowser(
  hasChromium && screensBuilt,
  `no Chromium at ${chromiumPath}, or the screens are not built`,
)('every screen', () => {
  beforeAll(async () => {
    ({ demo, browser, cookies } = await openDemoInBrowser());
    const first = await browser.newContext({ storageState: cookies });
    const wanted = await first.newPage();
    await wanted.goto(demo.url);
    // One that wants somebody: its page has every part.
    const link = wanted.locator('.pile-list li[class*=wants] a').first();
    await link.waitFor({ timeout: 60_000 });
    pilePath = `/${await link.getAttribute('href')}`;
    await first.close();
  }, demoStartMs);
  afterAll(async () => {
    await browser?.close();
    await demo?.stop();
  });
  afterEach(() => context?.close());

  describe.each(Object.keys(sizes) as Size[])('on a %s', (size) => {
    beforeEach(() => newPage({ viewport: sizes[size] }));

    it.each(names)('%s: WCAG 2.2 AA, nothing refused by our policy, no scrolling sideways', async (name) => {
      await openScreen(name);
      expect(await wcagFindings(page)).toEqual([]);
      expect(await stickingOut(page)).toEqual([]);
      expect(complaints).toEqual([]);
    });

    it('sign-in: the same', async () => {
      await context.clearCookies();
      await page.goto(demo.url);
      await page.getByRole('heading', { name: 'Sign in' }).waitFor();
      expect(await wcagFindings(page)).toEqual([]);
      expect(await stickingOut(page)).toEqual([]);
    });
  });

  describe.each([
    ['a laptop at 200 %', { width: 683, height: 384 }],
    ['a wall at 200 %', { width: 960, height: 540 }],
    ['the narrowest that must do (WCAG 1.4.10)', { width: 320, height: 256 }],
  ])('on %s', (_what, viewport) => {
    beforeEach(() => newPage({ viewport, deviceScaleFactor: 2 }));

    it.each(names)('%s loses nothing', async (name) => {
      await openScreen(name);
      expect(await stickingOut(page)).toEqual([]);
      expect(await cutOff(page)).toEqual([]);
    });
  });

  it('the dark wall holds to WCAG too, and the settings open by keyboard', async () => {
    await newPage({ viewport: sizes.wall });
    await openScreen('wall');
    await page.getByText('This screen').focus();
    await page.keyboard.press('Enter');
    await page.getByLabel('Dark', { exact: true }).selectOption('always');
    await page.locator('html.night').waitFor();
    expect(await wcagFindings(page)).toEqual([]);
    await page.reload();
    await page.locator('html.night .tile').first().waitFor();
  });

  it('keeps still for who wants stillness', async () => {
    await newPage({ viewport: sizes.laptop, reducedMotion: 'reduce' });
    for (const name of ['wall', 'piles', 'pile', 'first steps', 'manage duty', 'manage health'] as const) {
      await openScreen(name);
      expect(await page.evaluate('document.getAnimations().length')).toBe(0);
      const moving = await page.evaluate(`[...document.querySelectorAll('*')].filter((element) => {
          const { transitionDuration, animationName } = getComputedStyle(element);
          return transitionDuration !== '0s' || animationName !== 'none';
        }).length`);
      expect(moving).toBe(0);
    }
  });

  it('shows 12 piles on the wall without scrolling and links each to its page', async () => {
    await newPage({ viewport: sizes.wall });
    await openScreen('wall');
    await expect.poll(() => page.locator('.tile').count()).toBe(12);
    const scrolls = 'document.scrollingElement.scrollHeight - innerHeight';
    expect(await page.evaluate(scrolls)).toBeLessThanOrEqual(0);
    await page.locator('.tile a').first().click();
    await page.getByRole('heading', { name: 'Journal' }).waitFor();
  });

  it('orders the wall by place when this screen is told to', async () => {
    await newPage({ viewport: sizes.wall });
    await openScreen('wall');
    const places = () => page.locator('.place').allTextContents();
    await page.getByText('This screen').click();
    await page.getByLabel('Order').selectOption('place');
    await expect.poll(places).toEqual((await places()).sort((one, other) => one.localeCompare(other)));
  });
});

/** Text that is cut off where it cannot be scrolled to or read; the tiles of a board may shorten what they repeat elsewhere. */
function cutOff(shown: Page): Promise<string[]> {
  return shown.evaluate(`[...document.querySelectorAll('main *, header *')]
    .filter((element) => element.children.length === 0 && element.textContent.trim() !== '' && !element.closest('.tile, .visually-hidden, pre, .u-legend, option'))
    .filter((element) => {
      const { overflowX, clipPath } = getComputedStyle(element);
      // Clipped to nothing: words for who listens to the screen, by a class or at this size only.
      return overflowX !== 'visible' && clipPath !== 'inset(50%)' && element.scrollWidth > element.clientWidth + 1;
    })
    .map((element) => element.textContent)`);
}
