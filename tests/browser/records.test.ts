/** Heat records in a real browser against the real service: read, printed on A4 and Letter, downloaded, listed. */
import { execFile } from 'node:child_process';
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it, vi } from 'vitest';
import { chromiumPath, hasChromium, launchBrowser } from '../helpers/browser.ts';
import { screensBuilt } from '../helpers/demoProcess.ts';
import { pressOn } from '../helpers/keyboard.ts';
import { describeInBrowser, firstExisting } from '../helpers/requirement.ts';
import { type Size, sizes, stickingOut, watchComplaints, wcagFindings } from '../helpers/screens.ts';
import { type SeasonedYard, signInSeasoned, startSeasonedYard } from '../helpers/seasonedYard.ts';

const pictures = fileURLToPath(new URL('../../test-results/pictures/', import.meta.url));
const pdfToText = firstExisting(['/usr/bin/pdftotext']);
const run = promisify(execFile);

let folder: string;
let seasoned: SeasonedYard;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let complaints: string[];
let cookies: Awaited<ReturnType<BrowserContext['storageState']>>;

async function openRecord(rule = ''): Promise<void> {
  await page.goto(`${seasoned.yard.url}/#/records/${seasoned.cage.id}${rule}`);
  await page.locator('.record-sheet').waitFor();
}

async function kept(button: string | RegExp): Promise<string> {
  const coming = page.waitForEvent('download');
  await page.getByRole('button', { name: button }).click();
  const file = join(folder, 'kept.csv');
  await (await coming).saveAs(file);
  return readFile(file, 'utf8');
}

describeInBrowser(
  hasChromium && screensBuilt,
  `no Chromium at ${chromiumPath}, or the screens are not built`,
)('heat records', () => {
  vi.setConfig({ testTimeout: 90_000, hookTimeout: 180_000 });
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'tilth-records-'));
    await mkdir(pictures, { recursive: true });
    [seasoned, browser] = await Promise.all([startSeasonedYard(folder), launchBrowser()]);
    cookies = await signInSeasoned(browser, seasoned);
  });
  afterAll(async () => {
    await browser?.close();
    await seasoned?.yard.stop();
    await rm(folder, { recursive: true, force: true });
  });
  beforeEach(async () => {
    context = await browser.newContext({
      storageState: cookies,
      viewport: sizes.laptop,
      acceptDownloads: true,
    });
    complaints = watchComplaints(context);
    page = await context.newPage();
  });
  afterEach(async () => {
    await context.close();
    expect(complaints).toEqual([]);
  });

  it('says what is missing by one rule and "record consistent with" by another, never more', async () => {
    await openRecord();
    const verdict = page.locator('.verdict-box');
    await verdict.getByText('Record not complete for US EPA Part 503, further reduction').waitFor();
    expect(await verdict.textContent()).toMatch(/h more at or above 55 C, without a break/);
    await page.getByLabel('Held against').selectOption('us-psrp');
    await verdict.getByText('Record consistent with US EPA Part 503, significant reduction').waitFor();
    const whole = (await page.locator('.record-sheet').textContent())!;
    expect(whole).toMatch(/not a test for pathogens/);
    expect(whole).toMatch(/Your local authority/);
    expect(whole).not.toMatch(/certified|is pathogen-free/i);
  });

  it('names the gap of the edge, the days, the work, the alarms and the checks of each probe', async () => {
    await openRecord();
    await page.getByText(/edge 0\.15 m: .*\(6 h\)/).waitFor();
    const probes = page.getByRole('region', { name: 'Probes' });
    await probes.getByText('no check on record').waitFor();
    expect(await probes.getByRole('row').count()).toBe(3);
    const days = page.getByRole('region', { name: 'Day by day' });
    expect(await days.getByRole('row').count()).toBeGreaterThan(49);
    const watered = page.locator('li', { hasText: 'dry on top' });
    expect(await watered.textContent()).toMatch(/Watered\s+dry on top, Wren/);
    await page.getByRole('heading', { name: 'Alarms' }).waitFor();
    await page.locator('li', { hasText: 'getting hot' }).first().waitFor();
  });

  it('by keys alone another rule becomes the yard’s', async () => {
    await openRecord('/ca-ccme-static');
    await pressOn(page, 'Go by this rule for all piles of this kind');
    await page.getByText('The yard goes by this rule now.').waitFor();
    await page.goto(`${seasoned.yard.url}/#/records`);
    const row = page.locator('.record-list li', { hasText: 'Cage 2' });
    await row.getByText('Canada CCME').waitFor();
    await seasoned.client.put('/api/records/rule', { method: 'static-cage', ruleId: 'us-pfrp-static' });
  });

  it('tables for a table program: hours, days, and the list of all piles', async () => {
    await openRecord();
    const hours = await kept('Download hours (CSV)');
    expect(hours).toMatch(/^yard,Gannet Row\r\npile,Cage 2\r\nrule,"?US EPA Part 503/);
    expect(hours.split('\r\n').length).toBeGreaterThan(49 * 24);
    expect(await kept('Download days (CSV)')).toMatch(/Watered dry on top/);
    await page.goto(`${seasoned.yard.url}/#/records`);
    await page.locator('.share-bar').nth(1).waitFor();
    expect((await kept('Download this list (CSV)')).split('\r\n').length).toBe(4);
  });

  it('draws each bar of the list as long as the share beside it says', async () => {
    await page.goto(`${seasoned.yard.url}/#/records`);
    const bars = page.locator('.share-bar');
    await bars.nth(1).waitFor();
    const drawn = (await page.evaluate(`[...document.querySelectorAll('.share-bar')].map((bar) => [
      bar.firstElementChild.getBoundingClientRect().width / bar.clientWidth,
      Number.parseInt(bar.parentElement.textContent) / 100,
    ])`)) as [number, number][];
    for (const [length, share] of drawn) expect(length).toBeCloseTo(share, 1);
    expect(drawn.some(([, share]) => share < 0.9)).toBe(true);
  });

  it.each(['A4', 'Letter'] as const)(
    'prints on %s: the whole record, no buttons, pages numbered',
    async (format) => {
      await openRecord();
      const pdf = await page.pdf({ format });
      const file = join(pictures, `record-${format}.pdf`);
      await writeFile(file, pdf);
      const [, width, height] = /MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/.exec(pdf.toString('latin1'))!;
      // Chromium rounds paper up to whole points and pixels.
      const paper = format === 'A4' ? [595, 842] : [612, 792];
      expect(Math.abs(Number(width) - paper[0]!)).toBeLessThan(2);
      expect(Math.abs(Number(height) - paper[1]!)).toBeLessThan(2);
      if (pdfToText === null)
        return console.warn('SKIPPED: text of the PDF: no /usr/bin/pdftotext (poppler-utils)');
      const { stdout } = await run(pdfToText, ['-layout', file, '-']);
      expect(stdout).toMatch(/Record not complete for US EPA Part 503/);
      expect(stdout).toMatch(/Looked at by/);
      expect(stdout).toMatch(/2 ?\/ ?\d/);
      expect(stdout).not.toMatch(/Download|Sign out|Print, or save/);
      // The columns are named again on the next page.
      expect(stdout.match(/^[\f ]*Day +core/gm)?.length ?? 0).toBeGreaterThan(1);
    },
  );

  it.each(Object.keys(sizes) as Size[])(
    'on a %s: WCAG 2.2 AA, nothing sticks out, in grey too',
    async (size) => {
      await page.setViewportSize(sizes[size]);
      for (const open of [openRecord, () => page.goto(`${seasoned.yard.url}/#/records`)]) {
        await open();
        await page.locator('.record-sheet, .share-bar').first().waitFor();
        await page.evaluate(`document.documentElement.style.filter = 'grayscale(1)'`);
        expect(await wcagFindings(page)).toEqual([]);
        expect(await stickingOut(page)).toEqual([]);
      }
    },
  );

  it('at 200 % zoom and on the narrowest screen nothing sticks out', async () => {
    for (const viewport of [
      { width: 683, height: 384 },
      { width: 320, height: 256 },
    ]) {
      await page.setViewportSize(viewport);
      await openRecord();
      expect(await stickingOut(page)).toEqual([]);
    }
  });
});
