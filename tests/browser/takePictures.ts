/**
 * Takes the README's pictures (and any you want to look at) from a running demo:
 *
 *   node tests/browser/takePictures.ts SIGN-IN-LINK FOLDER
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { launchBrowser } from '../helpers/browser.ts';

const sizes = {
  phone: { width: 390, height: 844 },
  laptop: { width: 1366, height: 768 },
  wall: { width: 1920, height: 1080 },
} as const;

const [link, folder = 'test-results/pictures'] = process.argv.slice(2);
if (!link) throw new Error('give the sign-in link the demo prints');
mkdirSync(folder, { recursive: true });

const browser = await launchBrowser();
const context = await browser.newContext();
const page = await context.newPage();
await page.goto(link);
await page.getByRole('button', { name: 'Open the yard' }).click();
await page.locator('.pile-list li').first().waitFor();
const pile = await page.locator('.pile-list a').first().getAttribute('href');
const places = {
  wall: '/wall',
  yard: '/',
  pile: `/${pile}`,
  probes: '/#/manage/probes',
  people: '/#/manage/people',
};

for (const [size, viewport] of Object.entries(sizes)) {
  await page.setViewportSize(viewport);
  for (const [place, path] of Object.entries(places)) {
    await page.goto('about:blank');
    await page.goto(new URL(path, link).href);
    await page
      .locator(place === 'wall' ? '.tile' : 'main')
      .first()
      .waitFor();
    await page.waitForTimeout(1500);
    const fullPage = place !== 'wall' || size === 'phone';
    await page.screenshot({ path: join(folder, `${place}-${size}.png`), fullPage });
    console.log(`${place}-${size}.png`);
  }
}
await browser.close();
