import { createHash } from 'node:crypto';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openRecords } from '../../services/records/openRecords.ts';
import { type Records, VersionConflict } from '../../services/records/port.ts';
import { type Rules, startRules } from '../../services/rules/startRules.ts';
import { openSqliteSeries } from '../../services/series/openSqliteSeries.ts';
import type { SeriesStore } from '../../services/series/port.ts';
import type { Quality } from '../../shared/readings/reading.ts';
import type { Person } from '../../shared/yard/people.ts';
import type { Pile, Yard } from '../../shared/yard/yard.ts';

const minuteMs = 60_000;
const startMs = 1_780_272_000_000;
const probe = (number: number) => `urn:dev:ow:28139bbb0b0000${String(number).padStart(2, '0')}`;

let folder: string;
let records: Records;
let series: SeriesStore;
let rules: Rules;
let yard: Yard;
let pile: Pile;
let wren: Person;
let nowMs: number;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'tilth-judgement-'));
  nowMs = startMs;
  records = await openRecords({ kind: 'sqlite', file: join(folder, 'records.db') });
  series = await openSqliteSeries({ file: join(folder, 'series.db') });
  yard = await records.yards.create({
    name: 'Gannet Row',
    timeZone: 'Europe/London',
    temperatureUnit: 'C',
    altitudeMetres: 3,
  });
  pile = await records.piles.create({
    yardId: yard.id,
    name: 'Cage 2',
    place: 'bay 3',
    method: 'static-cage',
    startedMs: startMs,
  });
  const person = {
    yardId: yard.id,
    login: 'wren',
    name: 'Wren',
    role: 'keeper',
    phone: '+441632960123',
  } as const;
  wren = await records.people.create(
    { ...person, receivesTexts: true, textsFrom: 'medium', disabled: false },
    null,
  );
  await addProbe(1);
  rules = await start();
});

afterEach(async () => {
  await rules.stop();
  await series.close();
  await records.close();
  await rm(folder, { recursive: true });
});

async function start(over: Records = records): Promise<Rules> {
  return startRules({
    records: over,
    series,
    clock: { nowMs: () => nowMs },
    config: { settleSeconds: 60, tickMilliseconds: 3_600_000, publicUrl: () => 'http://yard.test' },
    onCommitted: () => {},
    logger: pino({ level: 'silent' }),
  });
}

async function addProbe(number: number): Promise<void> {
  const row = { id: probe(number), yardId: yard.id, label: `Probe ${number}`, createdMs: startMs };
  await records.probes.create({ ...row, expectedIntervalSeconds: 300 }, 'hash');
  const place = { yardId: yard.id, pileId: pile.id, position: 'core', depthMetres: 0.6 } as const;
  const span = { quantity: 'temperature', fromMs: startMs, toMs: null } as const;
  await records.placements.create({ ...place, ...span, channel: `${probe(number)}_core` });
}

async function store(
  number: number,
  minutes: number,
  value: number,
  quality: Quality = 'good',
): Promise<void> {
  const channel = `${probe(number)}_core`;
  const reason = quality === 'bad' ? 'did-not-answer' : null;
  await series.append([
    { channel, timeMs: startMs + minutes * minuteMs, rawValue: value, value, quality, reason },
  ]);
}

/** Lets the clock come to some minutes after the start and judges what is due. */
async function judgeAt(minutes: number): Promise<void> {
  nowMs = startMs + minutes * minuteMs;
  await rules.settle();
}

/** A reading every five minutes, judged as it comes. */
async function live(
  from: number,
  to: number,
  value: (minutes: number) => number,
  numbers = [1],
): Promise<void> {
  for (let minutes = from; minutes < to; minutes += 5) {
    for (const number of numbers) await store(number, minutes, value(minutes));
    await judgeAt(minutes + 2);
  }
}

const texts = () => records.messages.list(yard.id, 100);
const alarm = (
  condition: 'too-hot-ceiling' | 'probe-silent' | 'probe-bad-values',
  kind = 'pile',
  id = pile.id,
) => records.alarms.find(yard.id, kind, id, condition);
const standing = async () =>
  (await records.alarms.list(yard.id, { standingOnly: true })).map(
    ({ condition, state }) => `${condition} ${state}`,
  );

test('hot core: one text, answered by its link, back under the deadband: normal, and chatter sends nothing more', async () => {
  await live(0, 60, () => 72.4);
  const [text, ...others] = await texts();
  expect(others).toEqual([]);
  expect(text).toMatchObject({
    personId: wren.id,
    address: wren.phone,
    channel: 'sms-http',
    priority: 'high',
  });
  expect(text!.text).toMatch(/^(bay 3, )?Cage 2: core too hot 72\.4 C \(limit 71 C\)/);
  const token = /http:\/\/yard\.test\/a\/([\w-]{16})/.exec(text!.text)![1]!;
  const link = await records.alarms.findAnswerLink(createHash('sha256').update(token).digest('hex'));
  expect(link).toMatchObject({ alarmId: text!.alarmId, occurrence: 1, personId: wren.id });
  await rules.act(link!.alarmId, { kind: 'acknowledge', atMs: nowMs, by: wren.id });
  expect(await alarm('too-hot-ceiling')).toMatchObject({ state: 'acknowledged', acknowledgedBy: wren.id });
  await live(60, 120, () => 69.5);
  expect(await alarm('too-hot-ceiling')).toMatchObject({ state: 'acknowledged' });
  await live(120, 180, () => 68.9);
  expect(await alarm('too-hot-ceiling')).toMatchObject({ state: 'normal', activeSinceMs: null });
  expect(await texts()).toHaveLength(1);
});

test('chatter across the limit within an hour of the first text sends no second one', async () => {
  await live(0, 300, (minutes) => (Math.floor(minutes / 40) % 2 === 0 ? 73 : 66));
  const steps = await records.alarms.transitions((await alarm('too-hot-ceiling'))!.id);
  expect(steps.filter((step) => step.event === 'became-active').length).toBeGreaterThan(2);
  expect(await texts()).toHaveLength(1);
});

test('a restart after every reading gives the same alarm, the same times and one text', async () => {
  for (let minutes = 0; minutes < 60; minutes += 5) {
    await live(minutes, minutes + 5, () => 72);
    await rules.stop();
    rules = await start();
  }
  await judgeAt(61);
  const steps = await records.alarms.transitions((await alarm('too-hot-ceiling'))!.id);
  expect(steps.map(({ event, atMs }) => [event, (atMs - startMs) / minuteMs])).toEqual([
    ['became-active', 30],
  ]);
  expect(await texts()).toHaveLength(1);
});

test('a step that could not be stored is done again, and nothing is sent twice', async () => {
  let failures = 3;
  const commit: Records['alarms']['commit'] = async (step) => {
    if (step.messages.length > 0 && failures-- > 0) throw new VersionConflict('moved');
    return records.alarms.commit(step);
  };
  await rules.stop();
  rules = await start({ ...records, alarms: { ...records.alarms, commit } });
  await live(0, 60, () => 72);
  for (let again = 0; again < 4; again += 1) await judgeAt(62 + again);
  expect(failures).toBeLessThan(0);
  expect(await texts()).toHaveLength(1);
  expect(await alarm('too-hot-ceiling')).toMatchObject({ state: 'unacknowledged', occurrence: 1 });
});

test('a reading that still waited at a restart is not lost: its dip restarts the delay', async () => {
  await live(0, 25, () => 72);
  await store(1, 25, 72);
  // Too short for any tick of the clock to see it.
  await store(1, 27.2, 60);
  await store(1, 27.6, 72);
  await judgeAt(27.7);
  await rules.stop();
  rules = await start();
  await live(30, 70, () => 72);
  expect(await alarm('too-hot-ceiling')).toMatchObject({ activeSinceMs: startMs + 58 * minuteMs });
});

describe('a new occurrence soon after the last text', () => {
  const hotAgain = (minutes: number) => (minutes >= 15 && minutes < 25 ? 66 : 72);

  beforeEach(async () => {
    const overrides = { 'too-hot-ceiling': { onDelayMinutes: 5, offDelayMinutes: 5 } };
    const change = { pileId: pile.id, overrides, reason: '', by: null, savedMs: nowMs };
    await records.limits.save({ ...change, expectedVersion: 0 });
    rules.factsChanged(pile.id);
    await live(0, 10, hotAgain);
    await acknowledge();
    await live(10, 35, hotAgain);
  });

  const acknowledge = async () =>
    rules.act((await alarm('too-hot-ceiling'))!.id, { kind: 'acknowledge', atMs: nowMs, by: wren.id });

  test('is texted when an hour has passed and nobody has answered', async () => {
    expect(await alarm('too-hot-ceiling')).toMatchObject({ state: 'unacknowledged', occurrence: 2 });
    expect(await texts()).toHaveLength(1);
    await live(35, 80, hotAgain);
    expect(await texts()).toHaveLength(2);
  });

  test('is not texted when it was answered while its text waited', async () => {
    await acknowledge();
    await live(35, 80, hotAgain);
    expect(await texts()).toHaveLength(1);
  });
});

describe('late readings', () => {
  test('a buffered pack is judged by when it was measured', async () => {
    await live(0, 20, () => 60);
    await judgeAt(300);
    for (let minutes = 20; minutes < 300; minutes += 5) await store(1, minutes, minutes >= 100 ? 73 : 60);
    await judgeAt(303);
    const steps = await records.alarms.transitions((await alarm('too-hot-ceiling'))!.id);
    expect(steps.map(({ event, atMs }) => [event, (atMs - startMs) / minuteMs])).toEqual([
      ['became-active', 130],
    ]);
    expect((await texts()).filter(({ alarmId }) => alarmId!.startsWith('pile.')).length).toBe(1);
  });

  test('what was told on the word of an old reading is taken back when the readings between say otherwise', async () => {
    await store(1, 0, 72);
    await judgeAt(36);
    expect(await alarm('too-hot-ceiling')).toMatchObject({ state: 'unacknowledged' });
    await store(1, 10, 60);
    for (let minutes = 15; minutes < 60; minutes += 5) await store(1, minutes, minutes < 40 ? 72 : 60);
    await judgeAt(57);
    expect(await alarm('too-hot-ceiling')).toMatchObject({ state: 'returned-unacknowledged' });
  });

  test('a cooler probe in time and a hotter one hours late raise what being in time would have raised', async () => {
    await addProbe(2);
    rules.factsChanged();
    await live(0, 240, () => 55);
    for (let minutes = 0; minutes < 240; minutes += 5) await store(2, minutes, minutes >= 60 ? 75 : 50);
    await judgeAt(242);
    expect(await alarm('too-hot-ceiling')).toMatchObject({ activeSinceMs: startMs + 90 * minuteMs });
    expect((await texts()).filter(({ alarmId }) => alarmId!.startsWith('pile.')).length).toBe(1);
  });
});

describe('probes', () => {
  test('one that goes silent raises an alarm about itself and leaves the pile alone', async () => {
    await addProbe(2);
    rules.factsChanged();
    await live(0, 60, () => 60, [1, 2]);
    await live(60, 180, () => 60, [1]);
    expect(await standing()).toEqual(['probe-silent unacknowledged']);
    expect((await texts())[0]!.text).toMatch(/Probe 2: probe silent/);
    await live(180, 200, () => 60, [1, 2]);
    expect(await alarm('probe-silent', 'probe', probe(2))).toMatchObject({
      state: 'returned-unacknowledged',
    });
  });

  test('all silent at once is one alarm on the yard and one text', async () => {
    for (const number of [2, 3, 4]) await addProbe(number);
    rules.factsChanged();
    await live(0, 60, () => 60, [1, 2, 3, 4]);
    for (let minutes = 60; minutes < 300; minutes += 7) await judgeAt(minutes);
    const list = await records.alarms.list(yard.id, { standingOnly: true });
    expect(list.filter(({ state }) => state !== 'suppressed').map(({ subject }) => subject.kind)).toEqual([
      'yard',
    ]);
    expect(await texts()).toHaveLength(1);
  });

  test('bad values while hot are pressing, and the pile does not look cooler', async () => {
    await live(0, 60, () => 68);
    for (let minutes = 60; minutes < 110; minutes += 5) await store(1, minutes, -127, 'bad');
    await judgeAt(112);
    expect(await alarm('probe-bad-values', 'probe', probe(1))).toMatchObject({
      priority: 'high',
      state: 'unacknowledged',
    });
    const [status] = await records.statuses.forYard(yard.id);
    expect(status).toMatchObject({ coreCelsius: 68, coreTimeMs: startMs + 55 * minuteMs });
  });
});

test('a restart keeps how many bad values came in a row, and counts none of them twice', async () => {
  const bad = (minutes: number) => store(1, minutes, -127, 'bad');
  await store(1, 0, 60);
  await store(1, 5, 60);
  await judgeAt(7);
  await bad(10);
  await judgeAt(12);
  // Two in a row, of which the second is stored and not yet judged.
  await bad(15);
  await rules.stop();
  rules = await start();
  for (const minutes of [17, 30, 45, 59]) await judgeAt(minutes);
  expect(await alarm('probe-bad-values', 'probe', probe(1))).toBeNull();
  // The third: from here on it is an alarm in twenty minutes, whatever restarts.
  await bad(60);
  await judgeAt(62);
  await rules.stop();
  rules = await start();
  await judgeAt(79);
  expect(await alarm('probe-bad-values', 'probe', probe(1))).toBeNull();
  await judgeAt(83);
  expect(await alarm('probe-bad-values', 'probe', probe(1))).toMatchObject({ state: 'unacknowledged' });
});

test('changed limits count from the next reading on, and the alarm says which version judged it', async () => {
  await live(0, 60, () => 60);
  const overrides = { 'too-hot-ceiling': { limitCelsius: 55, onDelayMinutes: 5 } };
  const change = { pileId: pile.id, overrides, reason: 'seedlings near', by: wren.id, savedMs: nowMs };
  await records.limits.save({ ...change, expectedVersion: 0 });
  rules.factsChanged(pile.id);
  await live(60, 80, () => 60);
  expect(await alarm('too-hot-ceiling')).toMatchObject({ state: 'unacknowledged', limitsVersion: 1 });
});

test('a shelved alarm comes back as new, with a text, when its time is over', async () => {
  await live(0, 60, () => 72);
  const { id } = (await alarm('too-hot-ceiling'))!;
  const untilMs = startMs + 150 * minuteMs;
  await rules.act(id, { kind: 'shelve', atMs: nowMs, by: wren.id, untilMs, reason: 'hose on its way' });
  await live(60, 150, () => 72);
  expect(await alarm('too-hot-ceiling')).toMatchObject({ state: 'shelved' });
  await live(150, 160, () => 72);
  expect(await alarm('too-hot-ceiling')).toMatchObject({ state: 'unacknowledged', occurrence: 2 });
  expect(await texts()).toHaveLength(2);
});

test('what cannot be done now is refused in words, and an unknown alarm by name', async () => {
  await live(0, 60, () => 72);
  const { id } = (await alarm('too-hot-ceiling'))!;
  const reset = { kind: 'reset', atMs: nowMs, by: wren.id } as const;
  await expect(rules.act(id, reset)).rejects.toMatchObject({ field: 'event', message: /can be reset/ });
  await expect(rules.act('pile.none', reset)).rejects.toMatchObject({ field: 'alarmId' });
});

test('an ended pile leaves no alarm standing', async () => {
  await live(0, 60, () => 85);
  expect((await standing()).length).toBeGreaterThan(0);
  await records.piles.end(pile.id, nowMs);
  rules.factsChanged(pile.id);
  await judgeAt(70);
  expect(await standing()).toEqual([]);
});
