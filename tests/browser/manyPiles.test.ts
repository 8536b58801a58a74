/** The built wall with more piles than any demo has, and with every alarm there is, in a real browser. */
import { mkdir, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { fitTiles, readableMetres } from '../../dashboards/wall/fit.ts';
import { priorities } from '../../shared/alarms/alarm.ts';
import { standingStates } from '../../shared/alarms/lifecycle.ts';
import type { WallPile } from '../../shared/api/types.ts';
import { chromiumPath, hasChromium, launchBrowser } from '../helpers/browser.ts';
import { screensBuilt } from '../helpers/demoProcess.ts';
import { madeUpPile, madeUpWall } from '../helpers/manyPiles.ts';
import { describeInBrowser } from '../helpers/requirement.ts';
import { sizes, wcagFindings } from '../helpers/screens.ts';
import { type StandInYard, startStandInYard } from '../helpers/standInYard.ts';

const nowMs = Date.UTC(2026, 10, 25, 12);
const pictures = fileURLToPath(new URL('../../test-results/pictures/', import.meta.url));
let browser: Browser;
let yard: StandInYard;
let page: Page;

const piles = (count: number) =>
  Array.from({ length: count }, (_, index) => madeUpPile(index + 1, { nowMs }));

async function openWall(
  shown: readonly WallPile[],
  viewport: { width: number; height: number } = sizes.wall,
) {
  yard.show(madeUpWall(shown, nowMs));
  page = await (await browser.newContext({ viewport })).newPage();
  await page.goto(`${yard.url}/wall`);
  await page.locator('.live-word').waitFor();
}

/** Font sizes in pixels of what is read from afar, on the first tile. */
const farFonts = () =>
  page.evaluate(`Object.fromEntries(['.tile h2', '.core-value strong', '.call-what'].map((part) => [part,
    Math.min(...[...document.querySelectorAll(part)].map((element) => parseFloat(getComputedStyle(element).fontSize)))]))`) as Promise<
    Record<'.tile h2' | '.core-value strong' | '.call-what', number>
  >;

/** Tiles whose name, number or alarm is cut or covered by something else of the tile. */
const cutTiles = () =>
  page.evaluate(`[...document.querySelectorAll('.tile')].filter((tile) => {
    const frame = tile.getBoundingClientRect();
    const boxes = ['h2', '.core-value strong', '.core-side svg', '.call'].map((part) => tile.querySelector(part)?.getBoundingClientRect()).filter(Boolean);
    const outside = boxes.some((box) => box.right > frame.right + 1 || box.bottom > frame.bottom + 1);
    const [name, number] = boxes;
    const call = tile.querySelector('.call')?.getBoundingClientRect();
    const covered = name.bottom > number.top + number.height * 0.2 || (call && number.bottom > call.top + 2);
    const words = tile.querySelector('.call-what');
    return outside || covered || (words && words.scrollWidth > words.clientWidth);
  }).map((tile) => tile.textContent)`);

describeInBrowser(
  hasChromium && screensBuilt,
  `no Chromium at ${chromiumPath}, or the screens are not built`,
)('a wall of many piles', () => {
  beforeAll(async () => {
    yard = await startStandInYard(madeUpWall([], nowMs));
    browser = await launchBrowser();
    await mkdir(pictures, { recursive: true });
  });
  afterAll(async () => {
    await browser?.close();
    await yard?.stop();
  });
  afterEach(() => page?.context().close());

  it.each([1, 2, 12, 50, 100, 200])(
    'shows %i at once on 1920 x 1080 without scrolling or cutting',
    async (count) => {
      const alarm = everyAlarm().at(2)!.alarms;
      await openWall([...piles(count - 1), madeUpPile(999, { nowMs, alarms: alarm })]);
      await expect.poll(() => page.locator('.tile').count()).toBe(count);
      expect(await page.evaluate('document.scrollingElement.scrollHeight <= innerHeight')).toBe(true);
      expect(await cutTiles()).toEqual([]);
      expect((await farFonts())['.tile h2']).toBeGreaterThanOrEqual(12);
      await page.screenshot({ path: `${pictures}wall-${count}.png` });
    },
  );

  it('shows more than fit in turn, and everyone’s turn comes', async () => {
    await openWall(piles(450));
    await page.getByText('part 1 of 3').waitFor();
    const first = await page.locator('.tile h2').allTextContents();
    await page.getByText('part 2 of 3').waitFor({ timeout: 20_000 });
    const second = await page.locator('.tile h2').allTextContents();
    expect(second.filter((name) => first.includes(name))).toEqual([]);
    expect([first.length, second.length]).toEqual([150, 150]);
  }, 40_000);

  it('is read from 5 m where fit.ts says so: what it draws is what was worked out', async () => {
    const shown = 12;
    const alarms = everyAlarm()[0]!.alarms;
    await openWall([...piles(shown - 1), madeUpPile(999, { nowMs, alarms })]);
    const board = (await page.locator('.wall main').boundingBox())!;
    const { tileHeight } = fitTiles(shown, board);
    const fonts = await farFonts();
    // The name is the smallest of the far text; its share of the tile is what farTile() counts on.
    expect(fonts['.tile h2'] / tileHeight).toBeGreaterThan(0.155);
    expect(fonts['.core-value strong']).toBeGreaterThan(fonts['.tile h2']);
    expect(readableMetres(fonts['.tile h2'], sizes.wall, 75)).toBeGreaterThanOrEqual(4.9);
    expect(readableMetres(fonts['.core-value strong'], sizes.wall, 43)).toBeGreaterThanOrEqual(5);
  });

  it('stands as the yard does when it goes by the map, and says every pile', async () => {
    const shown = piles(12).map((pile, index) => ({ ...pile, place: index < 5 ? 'north wall' : 'gate' }));
    const map = [
      { place: 'north wall', column: 2, row: 1 },
      { place: 'gate', column: 1, row: 3 },
    ];
    const view = madeUpWall(shown, nowMs);
    await openWall(shown);
    yard.show({ ...view, yard: { ...view.yard, map } });
    await page.evaluate(`localStorage.setItem('tilth-wall-settings', '{"order":"map","night":"never"}')`);
    await page.reload();
    await page.locator('.tile').nth(11).waitFor();
    const boxes = await Promise.all(
      (await page.locator('.tile').all()).map(async (tile) => ({
        place: await tile.locator('.place').textContent(),
        ...(await tile.boundingBox())!,
      })),
    );
    const [wall, gate] = ['north wall', 'gate'].map((place) => boxes.filter((box) => box.place === place));
    expect([wall!.length, gate!.length]).toEqual([5, 7]);
    expect(Math.max(...wall!.map(({ y }) => y))).toBeLessThan(Math.min(...gate!.map(({ y }) => y)));
    expect(Math.min(...wall!.map(({ x }) => x))).toBeGreaterThan(Math.min(...gate!.map(({ x }) => x)));
    expect(await page.evaluate('document.scrollingElement.scrollHeight <= innerHeight')).toBe(true);
    await page.screenshot({ path: `${pictures}wall-map.png` });
  });

  describe('in grey', () => {
    it('tells every priority and state by shape and by word', async () => {
      const wanted = everyAlarm();
      await openWall(wanted);
      await page.evaluate(`document.documentElement.style.filter = 'grayscale(1)'`);
      await writeFile(`${pictures}wall-grey.png`, await page.screenshot());
      const looks = (await page.evaluate(lookOfFlags)) as { shape: string; words: string }[];
      expect(looks.length).toBe(wanted.length);
      // Each pair differs in shape alone, but for held alarms, which share their flag with those not held.
      const shapes = new Set(looks.map(({ shape }) => shape));
      expect(shapes.size).toBe(priorities.length * 3);
      expect(new Set(looks.map(({ shape, words }) => `${shape} ${words}`)).size).toBe(wanted.length);
      expect(await wcagFindings(page)).toEqual([]);
    });

    it('draws flags whose grey pictures differ for every priority', async () => {
      await openWall(everyAlarm().filter((_, index) => index % standingStates.length === 0));
      await page.evaluate(`document.documentElement.style.filter = 'grayscale(1)'`);
      await page.evaluate(
        `document.querySelectorAll('.tile .call').forEach((call) => { call.style.background = '#555' })`,
      );
      const flags = await page.locator('.call .flag').all();
      const drawn = await Promise.all(
        flags.map(async (flag) => (await flag.screenshot()).toString('base64')),
      );
      expect(new Set(drawn).size).toBe(priorities.length);
    });
  });
});

/** A pile for every priority in every state that stands on a wall. */
function everyAlarm(): WallPile[] {
  const conditions = [
    'too-hot-fire-danger',
    'too-hot-ceiling',
    'drying-out-measured',
    'probe-battery-low',
  ] as const;
  return priorities.flatMap((priority, row) =>
    standingStates.map((state, column) => {
      const number = row * standingStates.length + column + 1;
      const condition = conditions[row]!;
      const alarm = {
        id: `alarm-${number}`,
        condition,
        name: condition,
        state,
        priority,
        sinceMs: nowMs - 7_200_000,
        code: 'K7',
      };
      return madeUpPile(number, { nowMs, alarms: [alarm] });
    }),
  );
}

const lookOfFlags = `[...document.querySelectorAll('.tile')].map((tile) => {
  const [pole, cloth] = tile.querySelectorAll('.call .flag path');
  const shape = [cloth.getAttribute('d'), cloth.getAttribute('fill'), pole.getAttribute('stroke-dasharray')].join();
  return { shape, words: tile.querySelector('.call-what').textContent + tile.querySelector('.call-state').textContent };
})`;
