/**
 * Takes the README's pictures (and any you want to look at) from a running demo, every screen at every size:
 *
 *   node tests/browser/takePictures.ts SIGN-IN-LINK FOLDER
 */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { launchBrowser } from '../helpers/browser.ts';
import { walkFirstSteps } from '../helpers/firstWalk.ts';
import { sizes } from '../helpers/screens.ts';
import { openStandInHttp } from '../helpers/standInHttp.ts';
import { startYardProcess } from '../helpers/yardProcess.ts';

const [link, folder = 'test-results/pictures'] = process.argv.slice(2);
if (!link) throw new Error('give the sign-in link the demo prints');
mkdirSync(folder, { recursive: true });

const browser = await launchBrowser();
const context = await browser.newContext();
// The demo's clock runs through its nights in minutes: by day, unless the picture is of the night.
await context.addInitScript(`localStorage.setItem('tilth-wall-settings', '{"night":"never"}')`);
const page = await context.newPage();
await page.goto(link);
await page.getByRole('heading', { name: 'Welcome' }).waitFor();
await page.screenshot({ path: join(folder, 'welcome.png') });
await page.getByRole('button', { name: 'Open the yard' }).click();
await page.locator('.pile-list li').first().waitFor();
const pile = await page.locator('.pile-list a').first().getAttribute('href');

/** Screens by name: where they are and what is there once they are drawn. */
const places = {
  wall: ['/wall', '.live-word'],
  yard: ['/', '.pile-list li'],
  pile: [`/${pile}`, '.plot canvas'],
  limits: [`/${pile}/limits`, '.limit-figures'],
  records: ['/#/records', '.share-bar'],
  record: [`/${pile?.replace('piles', 'records')}`, '.record h1'],
  piles: ['/#/manage/piles', '.log li'],
  probes: ['/#/manage/probes', '.card'],
  people: ['/#/manage/people', '.log li'],
  walls: ['/#/manage/walls', 'form'],
  'set-aside': ['/#/manage/set-aside', 'main p'],
  health: ['/#/manage/health', '.card'],
  duty: ['/#/manage/duty', '#escalate'],
  gateways: ['/#/manage/gateways', '.card'],
  'yard-map': ['/#/manage/map', '.map-preview'],
  'yard-settings': ['/#/manage/yard', '.pairs'],
  me: ['/#/me', '#change-password'],
} as const;

for (const [size, viewport] of Object.entries(sizes)) {
  await page.setViewportSize(viewport);
  for (const [place, [path, drawn]] of Object.entries(places)) {
    await page.goto('about:blank');
    await page.goto(new URL(path, link).href);
    await page.locator(drawn).first().waitFor();
    await page.waitForTimeout(1000);
    const fullPage = place !== 'wall' || size === 'phone';
    await page.screenshot({ path: join(folder, `${place}-${size}.png`), fullPage });
    console.log(`${place}-${size}.png`);
  }
}
await picturesOfOnePile();
await picturesOfAPlan();
await picturesForTheReadme();
await picturesInGrey();
await page.goto(new URL('/wall', link).href);
await page.getByText('This screen').click();
await page.getByLabel('Dark', { exact: true }).selectOption('always');
await page.screenshot({ path: join(folder, 'wall-night.png') });
const stranger = await browser.newPage({ viewport: sizes.phone });
await stranger.goto(new URL('/', link).href);
await stranger.getByRole('heading', { name: 'Sign in' }).waitFor();
await stranger.screenshot({ path: join(folder, 'sign-in-phone.png') });

// The first steps are walked in a yard of their own: the demo's is set up already.
const dataFolder = mkdtempSync(join(tmpdir(), 'tilth-pictures-'));
const gateway = await openStandInHttp({
  ...{ well: 200, busy: 503, 'refuses-recipient': 410, 'refuses-account': 401 },
});
for (const size of ['phone', 'laptop'] as const) {
  const sms = JSON.stringify({ url: `http://127.0.0.1:${gateway.port}` });
  const yard = await startYardProcess(join(dataFolder, size), ['--sms', sms]);
  const walker = await browser.newPage({ viewport: sizes[size], timezoneId: 'Europe/Dublin' });
  const probe = await walkFirstSteps(walker, yard, async (stage) => {
    await walker.screenshot({ path: join(folder, `first-${stage}-${size}.png`), fullPage: true });
    console.log(`first-${stage}-${size}.png`);
  });
  await probe.stop();
  await walker.close();
  await yard.stop();
}
await gateway.goAway();
rmSync(dataFolder, { recursive: true, force: true });
await browser.close();

/** One pile as it was days ago, what a thumb finds, a press on its way, and all of it without colours. */
async function picturesOfOnePile(): Promise<void> {
  const take = async (name: string) => {
    await page.waitForTimeout(400);
    await page.screenshot({ path: join(folder, `${name}.png`) });
    console.log(`${name}.png`);
  };
  await page.setViewportSize(sizes.phone);
  await page.goto('about:blank');
  await page.goto(new URL(`/${pile}`, link).href);
  await page.locator('.plot canvas').waitFor();
  await page.getByText('to come, four in five').waitFor({ timeout: 60_000 });
  await page.getByRole('slider').focus();
  for (let step = 0; step < 40; step += 1) await page.keyboard.press('ArrowLeft');
  await page.getByRole('slider').scrollIntoViewIfNeeded();
  await take('pile-moment-phone');
  await page.locator('.plot').scrollIntoViewIfNeeded();
  await take('pile-course-phone');
  await page.getByRole('button', { name: 'Did it...' }).click();
  await take('pile-did-it-phone');
  await page.locator('dialog').getByRole('button', { name: 'Hand reading' }).click();
  await take('pile-hand-reading-phone');
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Did it...' }).click();
  await page.locator('dialog').getByRole('button', { name: 'Turned' }).click();
  await take('pile-press-phone');
  await page.getByRole('button', { name: 'Undo' }).click();
}

/** A mix of litter and straw with water, from its amounts to the sheet it is built from. */
async function picturesOfAPlan(): Promise<void> {
  await page.setViewportSize(sizes.laptop);
  await page.goto(new URL('/#/planner/mix', link).href);
  for (const [typed, name] of [
    ['chicken', /^Broiler litter/],
    ['straw', /^Straw, general/],
  ] as const) {
    await page.getByLabel('Find an ingredient').fill(typed);
    await page.getByRole('button', { name }).click();
  }
  await page.getByRole('spinbutton', { name: 'Amount of Broiler litter' }).fill('200');
  await page.getByRole('checkbox', { name: 'work out the amount of Straw, general' }).check();
  await page.getByRole('button', { name: 'Add water' }).click();
  await page.getByRole('checkbox', { name: 'work out the amount of Water' }).check();
  await page.getByRole('button', { name: 'Work out 2 amounts' }).click();
  await page.getByText('Worked out:').waitFor();
  for (const part of ['mix', 'cage', 'heat', 'build'] as const) {
    await page.goto(new URL(`/#/planner/${part}`, link).href);
    if (part === 'heat') await page.locator('.verdict').waitFor({ timeout: 120_000 });
    for (const [size, viewport] of Object.entries(sizes)) {
      await page.setViewportSize(viewport);
      await page.waitForTimeout(800);
      await page.screenshot({ path: join(folder, `plan-${part}-${size}.png`), fullPage: true });
      console.log(`plan-${part}-${size}.png`);
    }
  }
}

/** What a page of the README has room for: a screenful each, on the part that matters (`dashboards/pictures`). */
async function picturesForTheReadme(): Promise<void> {
  const take = async (name: string, path: string, drawn: string, at: string) => {
    await page.goto('about:blank');
    await page.goto(new URL(path, link).href);
    await page.locator(drawn).first().waitFor({ timeout: 120_000 });
    await page.evaluate(`document.querySelector('${at}').scrollIntoView()`);
    await page.waitForTimeout(1000);
    await page.screenshot({ path: join(folder, `readme-${name}.png`) });
    console.log(`readme-${name}.png`);
  };
  await page.setViewportSize(sizes.laptop);
  await take('pile', `/${pile}`, '.plot canvas', 'h1');
  await take('course', `/${pile}`, '.plot canvas', '#where-title');
  await take('limits', `/${pile}/limits`, '.limit-figures', 'h1');
  await take('plan', '/#/planner/mix', '.planner', '.planner nav');
  await take('heat', '/#/planner/heat', '.verdict', '.planner nav');
  await take('record', `/${pile?.replace('piles', 'records')}`, '.record h1', '.record h1');
  await page.setViewportSize(sizes.phone);
  await take('pile-phone', `/${pile}`, '.plot canvas', 'h1');
}

/** Every screen once more as who sees no colours has it. */
async function picturesInGrey(): Promise<void> {
  const devtools = await context.newCDPSession(page);
  await devtools.send('Emulation.setEmulatedVisionDeficiency', { type: 'achromatopsia' });
  for (const [place, [path, drawn]] of Object.entries(places)) {
    await page.setViewportSize(place === 'wall' ? sizes.wall : sizes.phone);
    await page.goto('about:blank');
    await page.goto(new URL(path, link).href);
    await page.locator(drawn).first().waitFor();
    await page.waitForTimeout(800);
    await page.screenshot({ path: join(folder, `grey-${place}.png`), fullPage: place !== 'wall' });
    console.log(`grey-${place}.png`);
  }
  await devtools.send('Emulation.setEmulatedVisionDeficiency', { type: 'none' });
}
