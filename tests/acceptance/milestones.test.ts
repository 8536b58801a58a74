import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { openRecords } from '../../services/records/openRecords.ts';
import { type Records, VersionConflict } from '../../services/records/port.ts';
import { type Rules, startRules } from '../../services/rules/startRules.ts';
import { openSqliteSeries } from '../../services/series/openSqliteSeries.ts';
import type { SeriesStore } from '../../services/series/port.ts';
import type { PileMethod } from '../../shared/yard/method.ts';
import type { Pile, Yard } from '../../shared/yard/yard.ts';

const minuteMs = 60_000;
const hourMs = 60 * minuteMs;
const startMs = 1_780_272_000_000;
const probe = 'urn:dev:ow:28139bbb0b000001';

let folder: string;
let records: Records;
let series: SeriesStore;
let rules: Rules | null;
let yard: Yard;
let nowMs: number;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'tilth-milestones-'));
  nowMs = startMs;
  rules = null;
  records = await openRecords({ kind: 'sqlite', file: join(folder, 'records.db') });
  series = await openSqliteSeries({ file: join(folder, 'series.db') });
  const where = { timeZone: 'Europe/London', temperatureUnit: 'C', altitudeMetres: 3 } as const;
  yard = await records.yards.create({ name: 'Gannet Row', ...where });
  await addPerson('wren', '+441632960123', 'low');
  await addPerson('alder', '+441632960124', 'medium');
});

afterEach(async () => {
  await rules?.stop();
  await series.close();
  await records.close();
  await rm(folder, { recursive: true });
});

async function addPerson(login: string, phone: string, textsFrom: 'low' | 'medium'): Promise<void> {
  const person = { yardId: yard.id, login, name: login, role: 'keeper', phone, textsFrom } as const;
  await records.people.create({ ...person, receivesTexts: true, disabled: false }, null);
}

async function start(over: Records = records): Promise<void> {
  await rules?.stop();
  rules = await startRules({
    records: over,
    series,
    clock: { nowMs: () => nowMs },
    config: { settleSeconds: 60, tickMilliseconds: 3_600_000, publicUrl: () => null },
    onCommitted: () => {},
    logger: pino({ level: 'silent' }),
  });
}

/** A pile with one core probe that has read 60 C every twenty minutes for some hours; judged up to then. */
async function hotPile(method: PileMethod, hours: number): Promise<Pile> {
  const pile = await records.piles.create({
    yardId: yard.id,
    name: 'Bin 1',
    place: 'wall',
    method,
    startedMs: startMs,
  });
  const row = { id: probe, yardId: yard.id, label: 'Probe 1', createdMs: startMs };
  await records.probes.create({ ...row, expectedIntervalSeconds: 1200 }, 'hash');
  const place = { yardId: yard.id, pileId: pile.id, position: 'core', depthMetres: 0.6 } as const;
  const span = { quantity: 'temperature', fromMs: startMs, toMs: null } as const;
  await records.placements.create({ ...place, ...span, channel: `${probe}_core` });
  await store(0, hours);
  await start();
  await judgeAt(hours);
  return pile;
}

async function store(fromHours: number, toHours: number): Promise<void> {
  const channel = `${probe}_core`;
  const readings = Array.from({ length: (toHours - fromHours) * 3 }, (_, index) => {
    const timeMs = startMs + fromHours * hourMs + index * 20 * minuteMs;
    return { channel, timeMs, rawValue: 60, value: 60, quality: 'good', reason: null } as const;
  });
  await series.append(readings);
}

async function judgeAt(hours: number): Promise<void> {
  nowMs = startMs + hours * hourMs;
  await rules!.settle();
}

const notes = async (pile: Pile) =>
  (await records.journal.list(pile.id))
    .filter(({ kind }) => kind === 'note')
    .map(({ note, by }) => [note, by]);
const texts = async () =>
  (await records.messages.list(yard.id, 50)).filter(({ kind }) => kind === 'milestone');

test('a complete record is noted once in the journal, and texted once, at low priority, to those who want such', async () => {
  const pile = await hotPile('hot-bin', 80);
  const [[note, by], ...more] = (await notes(pile)) as [[string, null]];
  expect(more).toEqual([]);
  expect(note).toMatch(/^Milestone: sanitisation record complete\./);
  expect(by).toBeNull();
  expect(await texts()).toMatchObject([{ address: '+441632960123', priority: 'low', pileId: pile.id }]);
  expect((await texts())[0]!.text).toMatch(/^wall, Bin 1: sanitisation record complete\./);
  await store(80, 90);
  for (let hours = 81; hours < 90; hours += 1) {
    await start();
    await judgeAt(hours);
  }
  expect(await notes(pile)).toHaveLength(1);
  expect(await texts()).toHaveLength(1);
});

test('two days of heat reach nothing, and the status says how far the record has come', async () => {
  const pile = await hotPile('hot-bin', 48);
  expect(await notes(pile)).toEqual([]);
  const [status] = await records.statuses.forYard(yard.id);
  expect(status!.sanitisationProgress).toBeGreaterThan(0.6);
  expect(status!.sanitisationProgress).toBeLessThan(0.7);
  expect(status).toMatchObject({ sanitisationOutcome: 'not-yet', stage: 'hot' });
});

test('a cage is told the core record only, and its status never says complete', async () => {
  const pile = await hotPile('static-cage', 80);
  expect((await notes(pile))[0]![0]).toMatch(/^Milestone: core record complete, core only\./);
  const [status] = await records.statuses.forYard(yard.id);
  expect(status).toMatchObject({ sanitisationProgress: 0.99, sanitisationOutcome: 'core-record-only' });
});

test('a step that could not be stored leaves neither note nor text, and is done again', async () => {
  await hotPile('hot-bin', 60);
  let failures = 2;
  const commit: Records['alarms']['commit'] = async (step) => {
    if ((step.journal ?? []).length > 0 && failures-- > 0) throw new VersionConflict('moved');
    return records.alarms.commit(step);
  };
  await start({ ...records, alarms: { ...records.alarms, commit } });
  await store(60, 80);
  for (let minutes = 0; minutes < 5; minutes += 1) await judgeAt(80 + minutes / 60);
  expect(failures).toBeLessThan(0);
  expect(await texts()).toHaveLength(1);
  const [pile] = await records.piles.list(yard.id);
  expect(await notes(pile!)).toHaveLength(1);
});
