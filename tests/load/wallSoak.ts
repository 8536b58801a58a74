/**
 * A month on the wall in minutes: every pile read every five minutes, alarms that come and go, links that are cut, nights
 * that fall, piles that end and begin. Prints what the page holds after each day and fails when it grew.
 *
 *   node tests/load/wallSoak.ts [days] [piles]
 */
import type { CDPSession } from 'playwright-core';
import type { LiveChangeEvent, WallAlarm, WallPile } from '../../shared/api/types.ts';
import { launchBrowser } from '../helpers/browser.ts';
import { madeUpPile, madeUpWall } from '../helpers/manyPiles.ts';
import { startStandInYard } from '../helpers/standInYard.ts';

const [days = 30, count = 100] = process.argv.slice(2).map(Number);
const minuteMs = 60_000;
const stepMinutes = 5;
const stepsPerDay = (24 * 60) / stepMinutes;
/** Times the page's own pauses are cut by, so that it keeps up with the yard's clock. */
const haste = 60;
/** More than this is growth, not noise of the collector. */
const mostGrowthShare = 0.1;

/** In the page: all of its timers run faster; the rest is as it is on a wall. */
const hasten = `(haste) => {
  for (const name of ['setTimeout', 'setInterval']) {
    const native = globalThis[name];
    globalThis[name] = (then, delay = 0, ...rest) => native(then, delay / haste, ...rest);
  }
}`;

interface Held {
  readonly heapBytes: number;
  readonly nodes: number;
  readonly listeners: number;
}

async function held(devtools: CDPSession): Promise<Held> {
  // Twice: what the first round frees may hold what the second can.
  for (let round = 0; round < 2; round += 1) await devtools.send('HeapProfiler.collectGarbage');
  const { usedSize } = await devtools.send('Runtime.getHeapUsage');
  const { metrics } = await devtools.send('Performance.getMetrics');
  const metric = (name: string) => metrics.find((candidate) => candidate.name === name)!.value;
  return { heapBytes: usedSize, nodes: metric('Nodes'), listeners: metric('JSEventListeners') };
}

const startMs = Date.UTC(2026, 10, 1);

/** The yard at a step: each pile goes its own way, some call, one in a while is a new one in an old place. */
function pilesAt(step: number): WallPile[] {
  const nowMs = startMs + step * stepMinutes * minuteMs;
  return Array.from({ length: count! }, (_, index) => {
    const celsius = 50 + 25 * Math.sin(step / 40 + index);
    const alarms = celsius > 71 ? [alarmOf(index, step, nowMs)] : [];
    const number = index + count! * Math.floor((step + index * 37) / (stepsPerDay * 9));
    return madeUpPile(number + 1, { nowMs, celsius, alarms });
  });
}

function alarmOf(index: number, step: number, nowMs: number): WallAlarm {
  const state = step % 3 === 0 ? 'unacknowledged' : 'acknowledged';
  const what = { condition: 'too-hot-ceiling', name: 'Too hot: ceiling', priority: 'high' } as const;
  return { id: `alarm-${index}-${step % 50}`, ...what, state, sinceMs: nowMs - minuteMs, code: 'K7' };
}

const yard = await startStandInYard(madeUpWall(pilesAt(0), startMs));
const browser = await launchBrowser();
const page = await (await browser.newContext({ viewport: { width: 1920, height: 1080 } })).newPage();
await page.addInitScript(`(${hasten})(${haste})`);
await page.goto(`${yard.url}/wall`);
await page.locator('.tile').first().waitFor();
const devtools = await page.context().newCDPSession(page);
await devtools.send('Performance.enable');

/** Piles told of at once: mostly all of them, at times few enough for the wall to ask for just those. */
const batchAt = (step: number) => (step % 10 === 0 ? 34 : count!);

/** Shows a step and has every pile of it fetched and drawn: nothing is skipped over. */
async function play(step: number): Promise<void> {
  const nowMs = startMs + step * stepMinutes * minuteMs;
  const piles = pilesAt(step);
  yard.show(madeUpWall(piles, nowMs));
  if (step % 97 === 0) yard.cut();
  yard.tick(nowMs);
  const batch = batchAt(step);
  for (let from = 0; from < piles.length; from += batch) {
    const told = piles.slice(from, from + batch);
    const wanted = yard.pilesFetched() + told.length;
    const tell = () => yard.announce(told.map(({ id }): LiveChangeEvent => ({ kind: 'pile', id })));
    tell();
    // Told again should it have fallen into a cut link.
    for (let waits = 1; yard.pilesFetched() < wanted; waits += 1) {
      await new Promise((resolve) => setTimeout(resolve, 2));
      if (waits % 100 === 0) tell();
    }
  }
  if (step % stepsPerDay === 0) yard.announce([{ kind: 'yard', id: null }]);
}

const startedAt = performance.now();
const eachDay: Held[] = [];
for (let step = 1; step <= days! * stepsPerDay; step += 1) {
  await play(step);
  if (step % stepsPerDay !== 0) continue;
  const day = step / stepsPerDay;
  const last = await held(devtools);
  eachDay.push(last);
  const megabytes = (last.heapBytes / 1e6).toFixed(2);
  const lit = await page.evaluate(`document.documentElement.classList.contains('night') ? 'dark' : 'light'`);
  const shown = await page.locator('.tile').count();
  console.log(
    `day ${String(day).padStart(2)}: heap ${megabytes} MB, ${last.nodes} nodes, ${last.listeners} listeners, ${shown} tiles, ${lit}`,
  );
}
const seconds = (performance.now() - startedAt) / 1000;
await browser.close();
await yard.stop();

/**
 * From the first fifth of the days to the last, by the least of each: a day on which the collector had not come round yet
 * says nothing, while what is truly held is there every day.
 */
function grew(name: keyof Held): number {
  const some = Math.max(1, Math.floor(eachDay.length / 5));
  const least = (of: readonly Held[]) => Math.min(...of.map((day) => day[name]));
  // The first day fills caches and compiles code.
  const early = least(eachDay.slice(1, 1 + some));
  return (least(eachDay.slice(-some)) - early) / early;
}

const names = ['heapBytes', 'nodes', 'listeners'] as const;
for (const name of names)
  console.log(`${name}: ${(grew(name) * 100).toFixed(1)} % from the first days to the last`);
console.log(
  `${days} days of ${count} piles, ${yard.pilesFetched()} readings drawn, in ${seconds.toFixed(0)} s`,
);
if (names.some((name) => grew(name) > mostGrowthShare)) {
  console.error('The page grew: a wall would not last.');
  process.exit(1);
}
