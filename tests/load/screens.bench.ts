/**
 * How soon a wall of 200 piles can be read, how soon a change is drawn, and what 100 piles cost when little happens, in
 * a real browser against the real web service over real stores: `npm run bench screens`.
 */
import type { Browser, CDPSession, Page } from 'playwright-core';
import { testNowMs } from '../../services/web/testing/openTestWeb.ts';
import { addPlacement, reading } from '../../services/web/testing/testData.ts';
import { positions } from '../../shared/yard/yard.ts';
import { type BenchYard, startBenchYard } from '../helpers/benchYard.ts';
import { hasChromium, launchBrowser } from '../helpers/browser.ts';
import { eventually } from '../helpers/eventually.ts';

const loads = 7;
const updates = 25;
const idleSeconds = Number(process.argv[2] ?? 60);
/** Probes speak every five minutes: with 100 piles one is judged anew every three seconds. */
const judgedEverySeconds = 3;

/** Of a wall ordered by what wants somebody most, so many can be read when it is of use. */
const worstOnes = 60;

/** In the page: when the first and the last of the tiles were painted, when a change was heard of, when a new number was painted. */
const watchScript = `(count) => {
  globalThis.seen = { firstMs: null, drawnMs: null, heardMs: null, changedMs: null };
  const painted = (then) => requestAnimationFrame(() => { const channel = new MessageChannel(); channel.port1.onmessage = then; channel.port2.postMessage(0); });
  new MutationObserver((records) => {
    if (seen.firstMs === null && document.querySelectorAll('.core-value strong').length >= Math.min(count, ${worstOnes})) {
      seen.firstMs = -1;
      painted(() => { seen.firstMs = performance.now(); });
    }
    if (seen.drawnMs === null && document.querySelectorAll('.core-value strong').length >= count) {
      seen.drawnMs = -1;
      painted(() => { seen.drawnMs = performance.now(); });
    }
    const changed = records.some(({ target }) => target.parentElement?.closest?.('.core-value'));
    if (seen.heardMs !== null && seen.changedMs === null && changed) {
      seen.changedMs = -1;
      painted(() => { seen.changedMs = performance.now(); });
    }
  }).observe(document, { childList: true, characterData: true, subtree: true });
  const Native = EventSource;
  globalThis.EventSource = class extends Native {
    constructor(...parameters) {
      super(...parameters);
      this.addEventListener('change', () => { seen.heardMs ??= performance.now(); });
    }
  };
}`;

/** The page's policy forbids the ready-made way of waiting, which evaluates text inside the page. */
const until = (page: Page, script: string) => eventually(script, () => page.evaluate(script), 30_000);

const median = (values: readonly number[]) =>
  [...values].sort((one, other) => one - other)[Math.floor(values.length / 2)]!;
const worst = (values: readonly number[]) => Math.max(...values);
const milliseconds = (value: number) => `${value.toFixed(0)} ms`;
const report = (what: string, shown: string) => console.log(`${what.padEnd(62)} ${shown}`);

async function openWall(browser: Browser, yard: BenchYard): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1920, height: 1080 } });
  const page = await context.newPage();
  // The key becomes a cookie first: what is measured is a wall that hangs, not one being hung up.
  await page.request.get(yard.wallUrl);
  await page.addInitScript(`(${watchScript})(${yard.piles.length})`);
  return page;
}

async function firstPaints(
  browser: Browser,
  yard: BenchYard,
): Promise<{ worstFirst: number[]; all: number[] }> {
  const times: { worstFirst: number[]; all: number[] } = { worstFirst: [], all: [] };
  for (let load = 0; load < loads; load += 1) {
    const page = await openWall(browser, yard);
    await page.goto(`${yard.web.url}/wall`);
    await until(page, 'seen.drawnMs > 0');
    times.worstFirst.push((await page.evaluate('seen.firstMs')) as number);
    times.all.push((await page.evaluate('seen.drawnMs')) as number);
    await page.context().close();
  }
  return times;
}

/** From the service's announcement and from the event's arrival in the page to the new number on the glass. */
async function updateTimes(
  browser: Browser,
  yard: BenchYard,
): Promise<{ announced: number[]; heard: number[] }> {
  const page = await openWall(browser, yard);
  await page.goto(`${yard.web.url}/wall`);
  await until(page, 'seen.drawnMs > 0');
  const [announced, heard]: [number[], number[]] = [[], []];
  for (let update = 0; update < updates; update += 1) {
    await page.waitForTimeout(700);
    await page.evaluate('Object.assign(seen, { heardMs: null, changedMs: null })');
    const startedMs = Date.now();
    await yard.judge(yard.piles[(update * 7) % yard.piles.length]!, 40 + update);
    await until(page, 'seen.changedMs > 0');
    const seen = (await page.evaluate('({ ...seen, origin: performance.timeOrigin })')) as {
      heardMs: number;
      changedMs: number;
      origin: number;
    };
    heard.push(seen.changedMs - seen.heardMs);
    announced.push(seen.origin + seen.changedMs - startedMs);
  }
  await page.context().close();
  return { announced, heard };
}

async function processSeconds(devtools: CDPSession): Promise<number> {
  const { processInfo } = await devtools.send('SystemInfo.getProcessInfo');
  return processInfo.reduce((sum, { cpuTime }) => sum + cpuTime, 0);
}

/** Share of one core all of the browser's processes use over a stretch of time. */
async function shareOfCore(
  browser: Browser,
  seconds: number,
  meanwhile: () => Promise<void>,
): Promise<number> {
  const devtools = await browser.newBrowserCDPSession();
  const [before, startedAt] = [await processSeconds(devtools), performance.now()];
  const endAt = startedAt + seconds * 1000;
  while (performance.now() < endAt) await meanwhile();
  return ((await processSeconds(devtools)) - before) / ((performance.now() - startedAt) / 1000);
}

const pause = (seconds: number) => new Promise<void>((resolve) => setTimeout(resolve, seconds * 1000));
const percent = (share: number) => `${(share * 100).toFixed(1)} % of one core`;

async function idle(): Promise<void> {
  const yard = await startBenchYard(100);
  const browser = await launchBrowser();
  const blank = await browser.newPage();
  await blank.goto('about:blank');
  await pause(3);
  report(
    'a browser with an empty page',
    percent(await shareOfCore(browser, idleSeconds / 3, () => pause(1))),
  );
  const page = await openWall(browser, yard);
  await page.goto(`${yard.web.url}/wall`);
  await until(page, 'seen.drawnMs > 0');
  await pause(5);
  let next = 0;
  const share = await shareOfCore(browser, idleSeconds, async () => {
    next += 1;
    await yard.judge(yard.piles[next % yard.piles.length]!, 50 + (next % 20));
    await pause(judgedEverySeconds);
  });
  report(`100 piles, one judged every ${judgedEverySeconds} s (at most 5 %)`, percent(share));
  await browser.close();
  await yard.stop();
}

/** Channels of one pile that sent a reading a minute for a year: 4.2 million. */
const yearChannels = 8;

async function addYear(yard: BenchYard): Promise<void> {
  const [pile] = yard.piles;
  const minutes = 365 * 24 * 60;
  const batch = 20_000;
  for (let number = 0; number < yearChannels; number += 1) {
    const channel = `urn:dev:example:year-${number}_t`;
    const fromMs = testNowMs - minutes * 60_000;
    await addPlacement(yard.base, { pileId: pile!.id, channel, position: positions[number % 4]!, fromMs });
    for (let minute = 0; minute < minutes; minute += batch) {
      const rows = Array.from({ length: Math.min(batch, minutes - minute) }, (_, index) =>
        reading(
          channel,
          fromMs + (minute + index) * 60_000,
          45 + 20 * Math.sin((minute + index) / 9000 + number),
        ),
      );
      await yard.base.series.append(rows);
    }
  }
}

/** Frames a second, and the longest frame, while the curves are pulled to and fro by the mouse. */
async function panning(): Promise<void> {
  const yard = await startBenchYard(1);
  await addYear(yard);
  const browser = await launchBrowser();
  const context = await browser.newContext({ viewport: { width: 1366, height: 768 } });
  const value = yard.base.cookies.owner['tilth-session']!;
  await context.addCookies([{ name: 'tilth-session', value, url: yard.web.url }]);
  const page = await context.newPage();
  for (const span of ['7 days', '30 days', 'whole life']) {
    await page.goto(`${yard.web.url}/#/piles/${yard.piles[0]!.id}`);
    await page.getByRole('button', { name: span }).click();
    const curves = page.locator('.plot .u-over');
    await curves.scrollIntoViewIfNeeded();
    await pause(2);
    const box = (await curves.boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + 50);
    await page.mouse.down();
    await page.evaluate(
      `globalThis.frames = []; (function next(at) { frames.push(at); globalThis.running = requestAnimationFrame(next); })(performance.now())`,
    );
    for (let step = 0; step < 150; step += 1) {
      const swing = Math.sin(step / 12) * box.width * 0.4;
      await page.mouse.move(box.x + box.width / 2 + swing, box.y + 50);
    }
    const frames = (await page.evaluate('cancelAnimationFrame(running), frames')) as number[];
    await page.mouse.up();
    const lengths = frames.slice(1).map((at, index) => at - frames[index]!);
    const rate = (lengths.length / (frames.at(-1)! - frames[0]!)) * 1000;
    report(
      `a year of 1-minute readings, 8 channels, ${span} pulled`,
      `${rate.toFixed(0)} frames/s, longest ${milliseconds(worst(lengths))}`,
    );
  }
  await browser.close();
  await yard.stop();
}

if (!hasChromium) console.log('Chromium is not installed: not measured');
else {
  const yard = await startBenchYard(200);
  const browser = await launchBrowser();
  const { worstFirst, all } = await firstPaints(browser, yard);
  report(
    `200 piles, nothing kept: worst ${worstOnes} readable after (under 1000 ms)`,
    `${milliseconds(median(worstFirst))}, worst of ${loads} ${milliseconds(worst(worstFirst))}`,
  );
  report('   all of them', `${milliseconds(median(all))}, worst of ${loads} ${milliseconds(worst(all))}`);
  const { announced, heard } = await updateTimes(browser, yard);
  report(
    '200 piles, change heard of to drawn (under 100 ms)',
    `${milliseconds(median(heard))}, worst of ${updates} ${milliseconds(worst(heard))}`,
  );
  report(
    '   the same from the moment the service knows',
    `${milliseconds(median(announced))}, worst ${milliseconds(worst(announced))}`,
  );
  await browser.close();
  await yard.stop();
  await idle();
  await panning();
}
