/** The editor of texts in a real browser: what is typed is counted and shown as it will arrive, and refused when it cannot be. */
import { fileURLToPath } from 'node:url';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { startWeb, type Web } from '../../services/web/startWeb.ts';
import { openTestWeb, type TestWeb } from '../../services/web/testing/openTestWeb.ts';
import { chromiumPath, hasChromium, launchBrowser } from '../helpers/browser.ts';
import { screensBuilt } from '../helpers/demoProcess.ts';
import { tabTo } from '../helpers/keyboard.ts';
import { describeInBrowser } from '../helpers/requirement.ts';
import { type Size, sizes, stickingOut, watchComplaints, wcagFindings } from '../helpers/screens.ts';

const dashboardsFolder = fileURLToPath(new URL('../../dashboards/dist', import.meta.url));
let base: TestWeb;
let web: Web;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let complaints: string[];

async function open(size: Size): Promise<void> {
  context = await browser.newContext({ viewport: sizes[size] });
  complaints = watchComplaints(context);
  const [name, value] = Object.entries(base.cookies.owner)[0]!;
  await context.addCookies([{ name, value, url: web.url }]);
  page = await context.newPage();
  await page.goto(`${web.url}/#/manage/texts`);
  await page.getByLabel('Your wording').waitFor();
}
const area = () => page.getByLabel('Your wording');
const save = () => page.getByRole('button', { name: 'Save' });
const firstPreview = () => page.locator('.previews li').first();

describeInBrowser(
  hasChromium && screensBuilt,
  `no Chromium at ${chromiumPath}, or the screens are not built`,
)('the editor of texts', () => {
  beforeAll(async () => {
    browser = await launchBrowser();
  });
  afterAll(() => browser?.close());
  beforeEach(async () => {
    base = await openTestWeb({ dashboardsFolder });
    const pile = { yardId: base.yard.id, place: 'Südbucht', method: 'static-cage' } as const;
    await base.records.piles.create({ ...pile, name: 'Käfig „Žofie“', startedMs: base.clock.ms });
    web = await startWeb({ ...base.options, config: { ...base.options.config, publicUrl: null } });
  });
  afterEach(async () => {
    await context.close();
    await web.stop();
    await base.close();
  });

  it.each(Object.keys(sizes) as Size[])(
    'on a %s: WCAG 2.2 AA, nothing refused, nothing sticks out',
    async (size) => {
      await open(size);
      expect(await wcagFindings(page)).toEqual([]);
      expect(await stickingOut(page)).toEqual([]);
      await area().fill('{name}: {what}. {answer}');
      await page.getByText('{action} is missing').waitFor();
      expect(await wcagFindings(page)).toEqual([]);
      expect(await stickingOut(page)).toEqual([]);
      expect(complaints).toEqual([]);
    },
  );

  it('shows real piles in plain letters, counts, refuses what cannot be, saves and takes back', async () => {
    await open('laptop');
    await expect.poll(() => firstPreview().textContent()).toContain('Käfig "Zofie"');
    await expect.poll(() => firstPreview().textContent()).toMatch(/1[0-5]\d characters, 1 SMS/);
    expect(await save().isDisabled()).toBe(true);

    await area().fill('Yard: {name} {what}[ {value}]. {action} {answer} {weather}');
    await page.getByText('{weather} is not known here').waitFor();
    expect(await save().isDisabled()).toBe(true);
    await area().fill(`${'Please be careful. '.repeat(5)}{name}: {what}. {action} {answer}`);
    await page.getByText('it is too long').waitFor();

    await area().fill('Yard: {name} {what}[ {value}]. {action} {answer}');
    await expect
      .poll(() => firstPreview().textContent())
      .toContain('Yard: Käfig "Zofie" core too hot 72.4 C.');
    await save().click();
    await page.getByText('Saved. The next texts say it so.').waitFor();
    const { overrides } = await base.records.wordings.current(base.yard.id);
    expect(overrides.en?.['alarm.text']).toBe('Yard: {name} {what}[ {value}]. {action} {answer}');
    await page.getByRole('button', { name: 'Take our wording again' }).click();
    await expect.poll(() => area().inputValue()).toContain('[{place}, ]');
    expect((await base.records.wordings.current(base.yard.id)).overrides.en).toEqual({});
  });

  it('works by keyboard and in the other language', async () => {
    await open('phone');
    await tabTo(page, /^Language/);
    await page.keyboard.press('ArrowDown');
    await expect.poll(() => firstPreview().textContent()).toContain('Kern zu heiß 72.4 C (Grenze 71 C)');
    await tabTo(page, '{action}');
    await page.keyboard.press('Enter');
    await expect.poll(() => area().inputValue()).toMatch(/\{action\}.*\{action\}/);
    expect(await page.evaluate('document.activeElement.tagName')).toBe('TEXTAREA');
  });
});
