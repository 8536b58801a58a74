/** What a keeper sees of the program itself while InfluxDB is away and while it catches up. */
import { mkdir } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type ForwardStatus, forwardStatistics, stateText } from '../../services/series/forward/status.ts';
import { startWeb, type Web } from '../../services/web/startWeb.ts';
import { openTestWeb, type TestWeb, testNowMs } from '../../services/web/testing/openTestWeb.ts';
import { chromiumPath, hasChromium, launchBrowser } from '../helpers/browser.ts';
import { describeInBrowser } from '../helpers/requirement.ts';
import { sizes, stickingOut, wcagFindings } from '../helpers/screens.ts';

const away: ForwardStatus = {
  ...{ state: 'away', text: stateText('away', 'connect ECONNREFUSED'), sinceMs: testNowMs },
  ...{ waiting: 359_012, waitingSinceMs: testNowMs - 3_600_000, forwardedSequence: 1, written: 1_000 },
  ...{ refused: 0, beyondRetention: 0, failures: 9, pace: null },
  disk: { level: 'low', usedBytes: 3.3e9, limitBytes: 4e9 },
};
const catchingUp: ForwardStatus = {
  ...away,
  ...{ state: 'catching-up', text: stateText('catching-up', null), waiting: 240_000, written: 120_012 },
  ...{ failures: 0, pace: { readingsPerSecond: 12_000, secondsLeft: 20 } },
};

let base: TestWeb;
let web: Web;
let browser: Browser;
let page: Page;
let status = away;

describeInBrowser(hasChromium, `no Chromium at ${chromiumPath}`)('the page about the service', () => {
  beforeAll(async () => {
    const dashboardsFolder = fileURLToPath(new URL('../../dashboards/dist', import.meta.url));
    const ingest = { readingsStored: 360_012, waiting: 0, lastStoredMs: testNowMs, failedCommitsInRow: 0 };
    const statistics = () => ({ ...ingest, ...forwardStatistics(status) });
    base = await openTestWeb({ dashboardsFolder, publicUrl: null }, { statistics });
    web = await startWeb(base.options);
    browser = await launchBrowser();
    const context = await browser.newContext({ viewport: sizes.phone });
    const [name, value] = Object.entries(base.cookies.keeper)[0]!;
    await context.addCookies([{ name, value, url: web.url }]);
    page = await context.newPage();
  });
  afterAll(async () => {
    await browser?.close();
    await web?.stop();
    await base?.close();
  });

  it('says that InfluxDB is away and what waits, then by itself how fast it catches up and for how long', async () => {
    await page.goto(`${web.url}/#/manage/service`);
    const card = page.locator('.gateway');
    await card.getByRole('heading', { name: 'InfluxDB: Cannot be reached' }).waitFor();
    expect(await card.textContent()).toMatch(/359,012, since[\s\S]*3\.30 GB of 4\.00 GB, running low/);
    await picture('away');
    status = catchingUp;
    await card.getByRole('heading', { name: 'InfluxDB: Catching up' }).waitFor();
    expect(await card.textContent()).toMatch(/240,000[\s\S]*12,000 readings a second, .*left/);
    await picture('catching-up');
    expect(await wcagFindings(page)).toEqual([]);
    expect(await stickingOut(page)).toEqual([]);
  });
});

async function picture(name: string): Promise<void> {
  await mkdir('test-results', { recursive: true });
  for (const [size, viewport] of Object.entries({ phone: sizes.phone, laptop: sizes.laptop })) {
    await page.setViewportSize(viewport);
    await page.screenshot({ path: `test-results/service-${name}-${size}.png`, fullPage: true });
  }
  await page.setViewportSize(sizes.phone);
}
