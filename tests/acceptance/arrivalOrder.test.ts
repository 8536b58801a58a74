import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { pino } from 'pino';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { openRecords } from '../../services/records/openRecords.ts';
import type { Records } from '../../services/records/port.ts';
import { type Rules, startRules } from '../../services/rules/startRules.ts';
import { openSqliteSeries } from '../../services/series/openSqliteSeries.ts';
import type { SeriesStore } from '../../services/series/port.ts';
import type { PileId } from '../../shared/yard/yard.ts';

const minuteMs = 60_000;
const startMs = 1_780_272_000_000;
const overrides = {
  'too-hot-ceiling': { onDelayMinutes: 10, offDelayMinutes: 15 },
  'too-hot-early-notice': { onDelayMinutes: 20, offDelayMinutes: 10 },
  'drying-out-measured': { onDelayMinutes: 15, offDelayMinutes: 15 },
};

let folder: string;
let records: Records;
let series: SeriesStore;
let rules: Rules;
let nowMs: number;
let made = 0;
/** Judging at once, as by default, and waiting for a stretch to come together must come to the same. */
let settleSeconds = 0;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'tilth-order-'));
  records = await openRecords({ kind: 'sqlite', file: join(folder, 'records.db') });
  series = await openSqliteSeries({ file: join(folder, 'series.db') });
  nowMs = startMs;
  rules = await start();
});

afterEach(async () => {
  await rules.stop();
  await series.close();
  await records.close();
  await rm(folder, { recursive: true });
});

function start(): Promise<Rules> {
  return startRules({
    records,
    series,
    clock: { nowMs: () => nowMs },
    config: { settleSeconds, tickMilliseconds: 3_600_000, publicUrl: () => null },
    onCommitted: () => {},
    logger: pino({ level: 'silent' }),
  });
}

/** A yard of its own with one pile, its channels named after it. */
async function makePile(): Promise<PileId> {
  made += 1;
  const yard = await records.yards.create({
    name: `Yard ${made}`,
    timeZone: 'UTC',
    temperatureUnit: 'C',
    altitudeMetres: 0,
  });
  const pile = await records.piles.create({
    yardId: yard.id,
    name: 'Bin',
    place: '',
    method: 'hot-bin',
    startedMs: startMs,
  });
  const place = {
    yardId: yard.id,
    pileId: pile.id,
    position: 'core',
    depthMetres: null,
    fromMs: startMs,
    toMs: null,
  } as const;
  for (const channel of ['a', 'b'])
    await records.placements.create({ ...place, quantity: 'temperature', channel: `${pile.id}_${channel}` });
  await records.placements.create({ ...place, quantity: 'moisture', channel: `${pile.id}_m` });
  const limits = { pileId: pile.id, overrides, reason: '', by: null, savedMs: startMs };
  await records.limits.save({ ...limits, expectedVersion: 0 });
  return pile.id;
}

const sample = fc.record({
  gapMinutes: fc.integer({ min: 1, max: 25 }),
  channel: fc.constantFrom('a', 'a', 'b', 'm'),
  celsius: fc.constantFrom(50, 62, 64, 66, 70, 72, 74),
  delayMinutes: fc.oneof(fc.constant(0), fc.integer({ min: 1, max: 8 }), fc.integer({ min: 30, max: 300 })),
});
type Sample = typeof sample extends fc.Arbitrary<infer T> ? T : never;

/** Stores each sample for the pile in time, and for the other one when it arrives; restarts where asked. */
async function run(samples: readonly Sample[], restartEvery: number, inTime: PileId, delayed: PileId) {
  let minutes = 0;
  const arrivals = samples.flatMap((one) => {
    minutes += one.gapMinutes;
    const value = one.channel === 'm' ? one.celsius / 140 : one.celsius;
    const reading = {
      timeMs: startMs + minutes * minuteMs,
      rawValue: value,
      value,
      quality: 'good',
      reason: null,
    } as const;
    return [
      { at: minutes, reading: { ...reading, channel: `${inTime}_${one.channel}` } },
      { at: minutes + one.delayMinutes, reading: { ...reading, channel: `${delayed}_${one.channel}` } },
    ];
  });
  const endMinutes = minutes + 480;
  for (let at = 0, step = 1; at <= endMinutes; at += 12, step += 1) {
    const come = arrivals.filter((arrival) => arrival.at > at - 12 && arrival.at <= at);
    if (come.length > 0) await series.append(come.map((arrival) => arrival.reading));
    nowMs = startMs + at * minuteMs;
    await rules.settle();
    if (step % restartEvery !== 0) continue;
    await rules.stop();
    rules = await start();
  }
}

async function standingOf(pileId: PileId) {
  const alarms = await records.alarms.forPile(pileId);
  const state = JSON.parse((await records.marks.get(`rules:state:pile:${pileId}`)) ?? '{"trail":[{}]}');
  return {
    active: alarms
      .filter((alarm) => alarm.timing.active)
      .map((alarm) => alarm.condition)
      .sort(),
    timers: state.trail.at(-1).timers ?? [],
  };
}

test.each([0, 60])(
  'readings hours late, in any order, in any batches, across restarts, leave what being in time leaves (judged after %s s)',
  async (seconds) => {
    settleSeconds = seconds;
    await rules.stop();
    rules = await start();
    let compared = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.array(sample, { minLength: 5, maxLength: 40 }),
        fc.integer({ min: 3, max: 60 }),
        async (samples, every) => {
          nowMs = startMs;
          const [inTime, delayed] = [await makePile(), await makePile()];
          rules.factsChanged();
          await run(samples, every, inTime, delayed);
          const wanted = await standingOf(inTime);
          compared += wanted.active.length + wanted.timers.length;
          expect(await standingOf(delayed)).toEqual(wanted);
        },
      ),
      { numRuns: 8 },
    );
    expect(compared).toBeGreaterThan(5);
  },
  300_000,
);
