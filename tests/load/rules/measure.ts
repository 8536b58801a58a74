/**
 * The measured process of the rules bench: judges the prepared yard while every pile gets a reading a minute, spread
 * over the minute, and prints one line of JSON. With `empty` it only lets the loop run, which is what to compare with.
 */
import { join } from 'node:path';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { setTimeout as sleep } from 'node:timers/promises';
import { pino } from 'pino';
import { systemClock } from '../../../services/clock.ts';
import { openRecords } from '../../../services/records/openRecords.ts';
import { startRules } from '../../../services/rules/startRules.ts';
import { openSqliteSeries } from '../../../services/series/openSqliteSeries.ts';
import { airChannel, coreAt, coreOf, readingOf } from './prepareYard.ts';

const [folder, what, pileText, secondText] = process.argv.slice(2);
const piles = Number(pileText);
const seconds = Number(secondText);

/** The default of 190 s leaves two whole minutes to count over. */
const warmUpSeconds = 70;

/** Everything the loop does between the two looks at it. */
async function measured(work: (second: number) => Promise<void>) {
  const delay = monitorEventLoopDelay({ resolution: 1 });
  let mostBytes = 0;
  const startedMs = performance.now();
  const used = process.cpuUsage();
  delay.enable();
  for (let second = 0; second < seconds; second += 1) {
    await work(second);
    mostBytes = Math.max(mostBytes, process.memoryUsage.rss());
    await sleep(Math.max(0, startedMs + (second + 1) * 1000 - performance.now()));
  }
  delay.disable();
  const { user, system } = process.cpuUsage(used);
  return {
    p50Ms: delay.percentile(50) / 1e6,
    p99Ms: delay.percentile(99) / 1e6,
    worstMs: delay.max / 1e6,
    mostMegabytes: mostBytes / 2 ** 20,
    processorShare: (user + system) / 1000 / (performance.now() - startedMs),
  };
}

async function measureRules() {
  const records = await openRecords({ kind: 'sqlite', file: join(folder!, 'records.sqlite') });
  const series = await openSqliteSeries({ file: join(folder!, 'series.sqlite') });
  let statuses = 0;
  const commit: typeof records.alarms.commit = async (step) => {
    statuses += step.statuses.length;
    return records.alarms.commit(step);
  };
  const startedMs = performance.now();
  const rules = await startRules({
    records: { ...records, alarms: { ...records.alarms, commit } },
    series,
    clock: systemClock,
    config: { settleSeconds: 5, publicUrl: () => null },
    onCommitted: () => {},
    logger: pino({ level: 'warn' }),
  });
  await rules.settle();
  const startSeconds = (performance.now() - startedMs) / 1000;
  const startMegabytes = process.memoryUsage.rss() / 2 ** 20;
  statuses = 0;
  // The first minute staggers the piles; after it each is assessed once a minute.
  const warmUp = seconds > 2 * warmUpSeconds ? warmUpSeconds : 0;
  const result = await measured(async (second) => {
    if (second === warmUp) statuses = 0;
    const nowMs = Date.now();
    const readings = second % 60 === 0 ? [readingOf(airChannel, nowMs, 9)] : [];
    for (let number = second % 60; number < piles; number += 60)
      readings.push(readingOf(coreOf(number), nowMs, coreAt(number, second / 60)));
    await series.append(readings);
    rules.nudge();
  });
  const alarms = await records.alarms.list((await records.yards.list())[0]!.id, { standingOnly: true });
  // Only with `node --expose-gc`: what is really held.
  globalThis.gc?.();
  const { heapUsed, external, arrayBuffers } = process.memoryUsage();
  const memory = { heap: heapUsed / 2 ** 20, external: external / 2 ** 20, buffers: arrayBuffers / 2 ** 20 };
  await rules.stop();
  await series.close();
  await records.close();
  const assessedPerMinute = (statuses / (seconds - warmUp)) * 60;
  return { ...result, startSeconds, startMegabytes, assessedPerMinute, standing: alarms.length, memory };
}

console.log(JSON.stringify(what === 'empty' ? await measured(async () => {}) : await measureRules()));
