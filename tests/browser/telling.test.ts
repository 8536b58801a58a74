/** Screens of telling people, in a real browser: the monthly alarm report, on screen and paper, and the duty plan's fields. */
import { fileURLToPath } from 'node:url';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { startWeb, type Web } from '../../services/web/startWeb.ts';
import { openTestWeb, type TestWeb, testNowMs } from '../../services/web/testing/openTestWeb.ts';
import type { Alarm, AlarmTransition } from '../../shared/alarms/alarm.ts';
import { newAlarm } from '../../shared/alarms/newAlarm.ts';
import { chromiumPath, hasChromium, launchBrowser } from '../helpers/browser.ts';
import { screensBuilt } from '../helpers/demoProcess.ts';
import { pressOn, tabTo, typeInto } from '../helpers/keyboard.ts';
import { describeInBrowser } from '../helpers/requirement.ts';
import { stickingOut, watchComplaints, wcagFindings } from '../helpers/screens.ts';

const dashboardsFolder = fileURLToPath(new URL('../../dashboards/dist', import.meta.url));
const shapes = {
  'the narrowest that must do (WCAG 1.4.10)': { width: 320, height: 640 },
  'a phone': { width: 390, height: 844 },
  'a laptop': { width: 1366, height: 768 },
} as const;
const picturesTo = process.env.TILTH_PICTURES;

let base: TestWeb;
let web: Web;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let complaints: string[];

async function open(
  where: string,
  viewport: { width: number; height: number } = shapes['a laptop'],
): Promise<void> {
  context = await browser.newContext({ viewport });
  complaints = watchComplaints(context);
  const [name, value] = Object.entries(base.cookies.owner)[0]!;
  await context.addCookies([{ name, value, url: web.url }]);
  page = await context.newPage();
  await page.goto(`${web.url}/#/${where}`);
}

async function picture(name: string): Promise<void> {
  if (picturesTo !== undefined) await page.screenshot({ path: `${picturesTo}/${name}.png`, fullPage: true });
}

/** October: an alarm that rang eleven times within a day, of which one was answered; and one that stands till now. */
async function anOctober(): Promise<void> {
  const atMs = Date.parse('2026-10-12T21:30:00Z');
  const pile = { yardId: base.yard.id, place: 'bay 3', method: 'static-cage', startedMs: atMs } as const;
  const { id: pileId } = await base.records.piles.create({ ...pile, name: 'Cage 2' });
  const alarmOf = (condition: Alarm['condition'], code: string): Alarm => ({
    ...newAlarm(base.yard.id, { kind: 'pile', id: pileId }, condition),
    ...{ state: 'unacknowledged', occurrence: 11, code, activeSinceMs: atMs, version: 1, priority: 'high' },
  });
  const [hot, dry] = [alarmOf('too-hot-ceiling', 'K7'), alarmOf('drying-out-measured', 'D4')];
  const transitions = Array.from({ length: 11 }, (_, index): AlarmTransition[] => {
    const step = { alarmId: hot.id, occurrence: index + 1, note: null, limitsVersion: 0, evidence: [] };
    const raisedMs = atMs + index * 20 * 60_000;
    const [raised, back] = ['unacknowledged', 'returned-unacknowledged'] as const;
    return [
      { ...step, atMs: raisedMs, event: 'became-active', from: 'normal', to: raised, by: null },
      { ...step, atMs: raisedMs + 600_000, event: 'returned-to-normal', from: raised, to: back, by: null },
    ];
  }).flat();
  const messages = Array.from({ length: 11 }, (_, index) => ({
    ...{ yardId: base.yard.id, pileId, alarmId: hot.id, occurrence: index + 1, answerLink: null },
    ...{ idempotencyKey: `text ${index}`, personId: base.people.keeper.id, text: 'hot' },
    ...{ channel: 'sms-http' as const, address: '+441632960123', priority: 'high' as const },
    ...{ createdMs: atMs + index * 20 * 60_000, notBeforeMs: atMs, expiresMs: testNowMs },
  }));
  await base.records.alarms.commit({ alarms: [hot, dry], transitions, messages, statuses: [], marks: [] });
}

describeInBrowser(
  hasChromium && screensBuilt,
  `no Chromium at ${chromiumPath}, or the screens are not built`,
)('telling people', () => {
  beforeAll(async () => {
    browser = await launchBrowser();
  });
  afterAll(() => browser?.close());
  beforeEach(async () => {
    base = await openTestWeb({ dashboardsFolder });
    await anOctober();
    web = await startWeb({ ...base.options, config: { ...base.options.config, publicUrl: null } });
  });
  afterEach(async () => {
    await context.close();
    await web.stop();
    await base.close();
  });

  it.each(Object.entries(shapes))(
    'the report and the duty plan on %s: WCAG 2.2 AA, nothing refused, nothing sticks out',
    async (shape, viewport) => {
      await open('manage/report/2026-10', viewport);
      await page.getByRole('heading', { name: /October 2026/ }).waitFor();
      expect(await wcagFindings(page)).toEqual([]);
      expect(await stickingOut(page)).toEqual([]);
      await picture(`report ${shape.slice(0, 10)}`);
      await page.goto(`${web.url}/#/manage/duty`);
      await page.getByLabel(/Seconds within which texts/).waitFor();
      expect(await wcagFindings(page)).toEqual([]);
      expect(await stickingOut(page)).toEqual([]);
      await picture(`duty ${shape.slice(0, 10)}`);
      expect(complaints).toEqual([]);
    },
  );

  it('the report tells October: texts a person, at night, the worst alarm, what chattered, what is stale', async () => {
    await open('manage/report/2026-10');
    await page.getByText('11 texts, 11 alarms').waitFor();
    const people = page.getByRole('region', { name: 'Texts to each person' });
    await expect
      .poll(() => people.getByRole('row', { name: /Some keeper/ }).textContent())
      // 22:30 to 01:50 by the yard's clock: every one of them at night.
      .toMatch(/Some keeper11\s*0\.4\s*11\s*2026-10-1[23]: \d+/);
    const worst = page.getByRole('region', { name: /ten alarms/ });
    expect(await worst.getByRole('row').nth(1).textContent()).toMatch(/Cage 2: .*11\s*11/);
    const chattering = page.getByRole('region', { name: 'Came and went too fast' });
    expect(await chattering.textContent()).toMatch(/Cage 2: .*held back \d+ times/);
    const stale = page.getByRole('region', { name: /more than a day, now/ });
    await expect.poll(() => stale.getByRole('listitem').count()).toBe(2);
    const figures = page.getByRole('region', { name: 'Beside what is aimed at' });
    expect(
      await figures
        .getByRole('row', { name: /to one person/ })
        .first()
        .textContent(),
    ).toMatch(/11.*missed/);
    await worst.getByRole('link', { name: 'Try its limits' }).first().click();
    await expect.poll(() => page.url()).toMatch(/#\/piles\/[^/]+\/limits$/);
  });

  it('on paper there is the document alone, in black on white', async () => {
    await open('manage/report/2026-10');
    await page.getByText('11 texts, 11 alarms').waitFor();
    await page.emulateMedia({ media: 'print' });
    for (const hidden of ['The month before', 'Print it, or save it as PDF', 'Try its limits'])
      expect(await page.getByText(hidden).first().isVisible()).toBe(false);
    expect(await page.getByRole('heading', { name: /Test Yard, October 2026/ }).isVisible()).toBe(true);
    const pdf = await page.pdf({ format: 'A4' });
    expect(pdf.byteLength).toBeGreaterThan(5_000);
    await picture('report paper');
  });

  it('the months go by keyboard, and an empty one says so', async () => {
    await open('manage/report');
    await page.getByRole('heading', { name: /October 2026/ }).waitFor();
    await pressOn(page, 'The month before');
    await page.getByRole('heading', { name: /September 2026/ }).waitFor();
    await page.getByText('No texts and no alarms in this month.').waitFor();
    await pressOn(page, 'The month after');
    await page.getByRole('heading', { name: /October 2026/ }).waitFor();
  });

  it('by keyboard the plan gets a monthly report and another time of telling together', async () => {
    await open('manage/duty');
    await typeInto(page, 'Seconds within which texts', '120');
    await tabTo(page, /^On the first of a month/);
    await page.keyboard.press('Space');
    await pressOn(page, 'Save the plan');
    await page.getByText('Saved.').waitFor();
    const { plan } = await base.records.duty.current(base.yard.id);
    expect(plan).toMatchObject({ groupSeconds: 120, monthReport: { at: '08:00' } });
  });
});
