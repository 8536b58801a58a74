/**
 * Makes the app's icons from its mark, in the browser; run after changing `dashboards/public/mark.svg`:
 *
 *   node tests/browser/makeIcons.ts
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { launchBrowser } from '../helpers/browser.ts';

const folder = new URL('../../dashboards/public/', import.meta.url);
const mark = readFileSync(new URL('mark.svg', folder), 'utf8');
/** Phones cut a maskable icon to any shape inside its middle four fifths: the ground fills it, the mark stays inside. */
const icons = [
  { file: 'icon-180.png', pixels: 180, inset: 0 },
  { file: 'icon-192.png', pixels: 192, inset: 0 },
  { file: 'icon-512.png', pixels: 512, inset: 0 },
  { file: 'icon-whole-512.png', pixels: 512, inset: 0.1 },
];

const browser = await launchBrowser();
for (const { file, pixels, inset } of icons) {
  const page = await browser.newPage({ viewport: { width: pixels, height: pixels } });
  const ground = inset > 0 ? '#2f3a2c' : 'transparent';
  await page.setContent(
    `<style>*{margin:0}body{background:${ground};padding:${pixels * inset}px}svg{display:block;width:100%}</style>${mark}`,
  );
  await page.screenshot({ path: fileURLToPath(new URL(file, folder)), omitBackground: true });
  await page.close();
}
await browser.close();
