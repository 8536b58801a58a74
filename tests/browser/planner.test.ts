/** The planner in a real browser against the real program, as a keeper uses it: a plan, a cage, a course, a pile. */
import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import AxeBuilder from '@axe-core/playwright';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { HandOverLink, JournalEntryView, PersonView, PileView } from '../../shared/api/types.ts';
import { type ApiClient, createApiClient } from '../helpers/apiClient.ts';
import { chromiumPath, hasChromium, launchBrowser } from '../helpers/browser.ts';
import { describeInBrowser } from '../helpers/requirement.ts';
import { type Size, sizes } from '../helpers/screens.ts';
import { startYardProcess, type YardProcess } from '../helpers/yardProcess.ts';

const built = existsSync(fileURLToPath(new URL('../../dashboards/dist/index.html', import.meta.url)));
const password = 'leaf mould and seaweed';
const parts = ['mix', 'cage', 'heat', 'build'] as const;
/** Phone, laptop, and a laptop at 200 % zoom. */
const views = [
  { width: 390, height: 844 },
  { width: 1366, height: 768 },
  { width: 683, height: 384 },
] as const;
/** Sixteen runs of the model in a worker on a busy two-core machine. */
const courseTimeoutMilliseconds = 60_000;

let folder: string;
let yard: YardProcess;
let client: ApiClient;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let failures: string[];

async function signIn(login: string, secret: string): Promise<void> {
  await page.goto(yard.url);
  await page.getByLabel('Sign-in name').fill(login);
  await page.getByLabel('Password').fill(secret);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.getByRole('navigation', { name: 'Places' }).waitFor();
}

async function openPart(part: (typeof parts)[number]): Promise<void> {
  await page.goto(`${yard.url}/#/planner/${part}`);
  await page.getByRole('heading', { name: 'Plan a pile' }).waitFor();
}

async function addIngredient(typed: string, name: RegExp): Promise<void> {
  await page.getByLabel('Find an ingredient').fill(typed);
  await page.getByRole('button', { name }).click();
}

const amountOf = (name: string) => page.getByRole('spinbutton', { name: `Amount of ${name}` });
const workOut = (name: string) => page.getByRole('checkbox', { name: `work out the amount of ${name}` });

/** Litter typed, straw and water worked out: C:N 30 and 68 % are the aims a new plan has. */
async function planLitterAndStraw(): Promise<void> {
  await openPart('mix');
  await addIngredient('chicken', /^Broiler litter/);
  await amountOf('Broiler litter').fill('200');
  await addIngredient('straw', /^Straw, general/);
  await workOut('Straw, general').check();
  await page.getByRole('button', { name: 'Add water' }).click();
  await workOut('Water').check();
  await page.getByRole('button', { name: 'Work out 2 amounts' }).click();
  await page.getByText('Worked out:').waitFor();
}

/** Presses Tab until what begins with these words has the keyboard. */
async function tabTo(words: string): Promise<void> {
  for (let press = 0; press < 60; press += 1) {
    const focused = String(await page.evaluate('document.activeElement.textContent'));
    if (focused.startsWith(words)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`the keyboard never came to "${words}"`);
}

async function courseReady(): Promise<void> {
  await page.locator('.verdict').waitFor({ timeout: courseTimeoutMilliseconds });
}

describeInBrowser(hasChromium && built, `no Chromium at ${chromiumPath}, or the screens are not built`)(
  'the planner',
  () => {
    beforeAll(async () => {
      folder = await mkdtemp(join(tmpdir(), 'tilth-planner-'));
      yard = await startYardProcess(join(folder, 'data'));
      client = createApiClient(yard.url);
      await client.post('/api/links/first-set-up', {
        token: yard.setUpToken,
        yard: { name: 'Gannet Row', timeZone: 'Europe/London', temperatureUnit: 'C', altitudeMetres: 3 },
        person: { name: 'Wren', login: 'wren', password },
      });
      browser = await launchBrowser();
    });
    afterAll(async () => {
      await browser?.close();
      await yard?.stop();
      await rm(folder, { recursive: true, force: true });
    });
    beforeEach(async () => {
      context = await browser.newContext({ viewport: views[1], reducedMotion: 'reduce' });
      page = await context.newPage();
      failures = [];
      page.on('pageerror', ({ message }) => failures.push(message));
      page.on('console', (line) => line.type() === 'error' && failures.push(line.text()));
    });
    afterEach(async () => {
      await context.close();
      // A refused style or script (our content policy) or a thrown error breaks a screen quietly.
      expect(failures.filter((each) => !each.includes('401'))).toEqual([]);
    });

    describe.each(Object.keys(sizes) as Size[])('on a %s', (size) => {
      beforeEach(() => page.setViewportSize(sizes[size]));

      test('works out two amounts, and the gauges say the aims are met', async () => {
        await signIn('wren', password);
        await page.getByRole('link', { name: 'Plan', exact: true }).click();
        await planLitterAndStraw();
        expect(Number(await amountOf('Straw, general').inputValue())).toBeCloseTo(176.7, 0);
        expect(Number(await amountOf('Water').inputValue())).toBeGreaterThan(400);
        const gauges = page.getByRole('region', { name: 'What it comes to' });
        await gauges.getByText('as it should be').first().waitFor();
        expect(await gauges.getByRole('heading', { level: 3 }).allInnerTexts()).toEqual(
          expect.arrayContaining([
            expect.stringMatching(/C:N[\s\S]*30$/),
            expect.stringMatching(/Moisture[\s\S]*68 %$/),
          ]),
        );
      });

      test('an impossible mix says so and why, what is nearest and what would help', async () => {
        await signIn('wren', password);
        await openPart('mix');
        await addIngredient('lawn', /^Grass clippings, loose/);
        await amountOf('Grass clippings, loose').fill('10');
        await addIngredient('leaf', /^Leaves, loose/);
        await workOut('Leaves, loose and dry').check();
        await page.getByRole('button', { name: 'Add water' }).click();
        await workOut('Water').check();
        await page.getByLabel('Moisture, % to aim for').fill('60');
        await page.getByRole('button', { name: 'Work out 2 amounts' }).click();
        await page.getByRole('heading', { name: 'That cannot be done' }).waitFor();
        const refusal = await page.locator('.refused').textContent();
        expect(refusal).toMatch(/taking away 2\.\d+ kg of water/);
        expect(refusal).toMatch(/wilt|drain/);
        await page.getByRole('button', { name: 'Take this' }).first().click();
        expect(Number(await amountOf('Leaves, loose and dry').inputValue())).toBeCloseTo(5.9, 0);
        expect(await amountOf('Water').inputValue()).toBe('0');
      });

      test('a mix is entered, solved and read with the keyboard alone', async () => {
        await signIn('wren', password);
        await openPart('mix');
        await page.getByLabel('Find an ingredient').focus();
        await page.keyboard.type('horse manure general');
        await page.keyboard.press('Tab');
        await page.keyboard.press('Enter');
        // The keyboard goes on to the amount of what was added.
        await page.locator('.line-list input:focus').waitFor();
        await page.keyboard.type('300');
        expect(await amountOf('Horse manure, general (bedded)').inputValue()).toBe('300');
        await tabTo('Just the water');
        await page.keyboard.press('Enter');
        const said = page.getByRole('status').filter({ hasText: /Worked out|cannot be done/ });
        await said.waitFor();
      });

      test('the cage is drawn from its panel, and boards need more channels than wire', async () => {
        await signIn('wren', password);
        await openPart('cage');
        await page.getByLabel('Panel length, m').fill('3.81');
        await page.getByLabel('Ends overlap by, m').fill('0');
        await page.getByText('1.4 m3').first().waitFor();
        const fromAbove = page.getByRole('img', { name: /^From above/ });
        const holes = () => fromAbove.locator('.channel-hole').count();
        const wire = await holes();
        await page.getByRole('radio', { name: /^No: boards/ }).check();
        expect(await holes()).toBeGreaterThan(wire);
        await page.getByRole('radio', { name: /^6: / }).check();
        expect(await holes()).toBe(6);
        await page
          .getByRole('img', { name: /^Cut: pile 1\.20 m high.*probe tip 0\.60 m below the top/ })
          .waitFor();
        await page.getByLabel('Form').selectOption('box');
        await page
          .getByText(/rows of|in a row|in the middle/)
          .first()
          .waitFor();
      });

      test('the course is reckoned beside a live page, and composting first is compared with it', async () => {
        await signIn('wren', password);
        await planLitterAndStraw();
        await openPart('heat');
        await page.getByRole('progressbar').first().waitFor();
        // The page answers while the worker runs.
        await page.getByLabel('Name of this plan').fill('Spring cage');
        await courseReady();
        expect(await page.locator('.facts').textContent()).toMatch(
          /Days at 55 C or more[\d.]+ days? \([\d.]+ to [\d.]+\)/,
        );
        await page.getByText('Models miss.', { exact: false }).waitFor();
        await page.getByRole('checkbox', { name: /Compare with composting/ }).check();
        const table = page.getByRole('region', { name: /side by side/ });
        await table.waitFor({ timeout: courseTimeoutMilliseconds });
        expect(await table.textContent()).toMatch(/Nitrogen lost beforehandnone\d+ %/);
      });

      test('the pile is started from the sheet, and its journal has the recipe', async () => {
        await signIn('wren', password);
        await planLitterAndStraw();
        await page.getByLabel('Name of this plan').fill(`Bay 3 litter, ${size}`);
        await openPart('build');
        expect(await page.getByRole('region', { name: 'Amounts' }).textContent()).toMatch(
          /Broiler litter200/,
        );
        await page.getByLabel('Where it stands').fill('bay 3');
        await page.getByRole('button', { name: 'Start this pile' }).click();
        await page.getByRole('heading', { level: 1, name: `Bay 3 litter, ${size}` }).waitFor();
        const piles = await client.get<PileView[]>('/api/piles');
        const pile = piles.find(({ name }) => name === `Bay 3 litter, ${size}`)!;
        expect(pile).toMatchObject({ place: 'bay 3', method: 'static-cage' });
        const journal = await client.get<JournalEntryView[]>(`/api/piles/${pile.id}/journal`);
        expect(journal.map(({ kind }) => kind).sort()).toEqual(['built', 'note']);
        expect(journal.find(({ kind }) => kind === 'note')!.note).toMatch(
          /Broiler litter 200 kg.*Core probe: tip/,
        );
      });

      test('a plan is kept in this browser, says so, and is there after loading again', async () => {
        await signIn('wren', password);
        await planLitterAndStraw();
        await page.getByLabel('Name of this plan').fill('Kept');
        await page.getByText('kept in this browser only', { exact: false }).waitFor();
        await page.reload();
        await amountOf('Broiler litter').waitFor();
        expect(await page.getByLabel('Name of this plan').inputValue()).toBe('Kept');
        await page.getByRole('button', { name: 'New plan' }).click();
        expect(await amountOf('Broiler litter').count()).toBe(0);
        await page.getByLabel('Plans in this browser').selectOption({ label: 'Kept' });
        expect(await amountOf('Broiler litter').inputValue()).toBe('200');
      });
    });

    test('every part passes axe at WCAG 2.2 AA and never scrolls sideways: phone, laptop, 200 % zoom', async () => {
      await signIn('wren', password);
      await planLitterAndStraw();
      for (const part of parts) {
        await openPart(part);
        if (part === 'heat') await courseReady();
        for (const view of views) {
          await page.setViewportSize(view);
          const { violations } = await new AxeBuilder({ page })
            .withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa'])
            .analyze();
          expect(violations.map(({ id, nodes }) => `${part} ${view.width}: ${id} ${nodes[0]?.html}`)).toEqual(
            [],
          );
          expect(await page.evaluate('document.documentElement.scrollWidth'), part).toBeLessThanOrEqual(
            view.width,
          );
        }
      }
    }, 120_000);

    test('a viewer is not offered the planner', async () => {
      const viewer = await client.post<PersonView>('/api/people', {
        login: 'ash',
        name: 'Ash',
        role: 'viewer',
        phone: null,
        receivesTexts: false,
        textsFrom: 'low',
      });
      const { url } = await client.post<HandOverLink>(`/api/people/${viewer.id}/password-link`);
      await page.goto(url);
      await page.getByLabel('New password').fill('another long password');
      await page.getByRole('button', { name: /Set password/ }).click();
      await page.getByRole('navigation', { name: 'Places' }).waitFor();
      expect(await page.getByRole('link', { name: 'Plan', exact: true }).count()).toBe(0);
      await page.goto(`${yard.url}/#/planner`);
      expect(await page.getByRole('heading', { name: 'Plan a pile' }).count()).toBe(0);
    });
  },
);
