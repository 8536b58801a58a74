/** The first start of a yard in a real browser: the printed link, the yard and its owner, and what a beginner sees then. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { chromiumPath, hasChromium, launchBrowser } from '../helpers/browser.ts';
import { screensBuilt } from '../helpers/demoProcess.ts';
import { pick, pressOn, typeInto } from '../helpers/keyboard.ts';
import { describeIf } from '../helpers/requirement.ts';
import { type Size, sizes, stickingOut, watchComplaints, wcagFindings } from '../helpers/screens.ts';
import { startYardProcess, type YardProcess } from '../helpers/yardProcess.ts';

let browser: Browser;
let folder: string;
const yards: YardProcess[] = [];

async function startYard(name: string): Promise<YardProcess> {
  const yard = await startYardProcess(join(folder, name));
  yards.push(yard);
  return yard;
}

describeIf(hasChromium && screensBuilt, `no Chromium at ${chromiumPath}, or the screens are not built`)(
  'a first start',
  () => {
    beforeAll(async () => {
      folder = await mkdtemp(join(tmpdir(), 'tilth-first-'));
      browser = await launchBrowser();
    });
    afterAll(async () => {
      await browser?.close();
      await Promise.all(yards.map((yard) => yard.stop()));
      await rm(folder, { recursive: true, force: true });
    });

    it.each(Object.keys(sizes) as Size[])(
      'makes the yard and its owner from the printed link, by keyboard, on a %s',
      async (size) => {
        const yard = await startYard(size);
        const context = await browser.newContext({ viewport: sizes[size], timezoneId: 'Europe/Dublin' });
        const complaints = watchComplaints(context);
        const page = await context.newPage();
        await page.goto(`${yard.url}/`);
        await page.getByText('This yard has no owner yet').waitFor();
        await page.goto(`${yard.url}/#/set-up/${yard.setUpToken}`);
        await page.getByRole('heading', { name: 'Set up your yard' }).waitFor();
        expect(await wcagFindings(page)).toEqual([]);
        expect(await stickingOut(page)).toEqual([]);
        expect(await page.getByLabel('Time zone').inputValue()).toBe('Europe/Dublin');
        await typeInto(page, 'Name of the yard', 'Gannet Row');
        await pick(page, 'Temperatures in', 'F');
        await typeInto(page, 'Your name', 'Wren');
        await typeInto(page, 'Sign-in name', 'wren');
        await typeInto(page, 'Password', 'short');
        await pressOn(page, 'Start this yard');
        expect(await page.locator('.field .wrong').textContent()).toMatch(/12/);
        expect(await page.getByLabel('Your name').inputValue()).toBe('Wren');
        await page.getByLabel('Password').focus();
        await page.keyboard.press('ControlOrMeta+a');
        await page.keyboard.type('leaf mould and seaweed');
        await pressOn(page, 'Start this yard');
        await page.getByLabel('Where it stands').waitFor();
        expect(await wcagFindings(page)).toEqual([]);
        expect(await page.locator('.yard-name').textContent()).toBe('Gannet Row');
        await page.goto(`${yard.url}/wall`);
        await page.getByText('No pile is open in this yard yet.').waitFor();
        expect(await wcagFindings(page)).toEqual([]);
        // The refused password is all the browser has to complain of.
        expect(complaints).toEqual([expect.stringMatching(/400 .*first-set-up$/)]);
        await context.close();
      },
      90_000,
    );

    it('uses the link up: a second person is told so and asked to sign in', async () => {
      const yard = yards[0]!;
      const page = await browser.newPage();
      await page.goto(`${yard.url}/#/set-up/${yard.setUpToken}`);
      await page.getByRole('heading', { name: 'This link does not work' }).waitFor();
      await page.goto('about:blank');
      await page.goto(yard.url);
      await page.getByLabel('Sign-in name').fill('wren');
      await page.getByLabel('Password').fill('leaf mould and seaweed');
      await page.keyboard.press('Enter');
      await page.getByText('No pile is open in this yard yet.').waitFor();
    }, 60_000);
  },
);
