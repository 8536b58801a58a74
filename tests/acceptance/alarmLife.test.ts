import { afterEach, describe, expect, test } from 'vitest';
import { type JudgedYard, startJudgedYard, startMs } from '../helpers/judgedYard.ts';

const minuteMs = 60_000;
let yard: JudgedYard;
afterEach(() => yard.stop());

const deed = (kind: 'acknowledge' | 'reset' | 'return-to-service') =>
  ({ kind, atMs: yard.nowMs(), by: yard.wren.id }) as const;

describe('fire danger', () => {
  const fire = 'too-hot-fire-danger';

  test('is texted, held through cooling and a restart, and ends only when a person resets it; history says who', async () => {
    yard = await startJudgedYard();
    await yard.live(0, 40, () => 84);
    expect((await yard.texts()).map(({ priority, text }) => [priority, /FIRE DANGER/.test(text)])).toEqual([
      ['highest', true],
    ]);
    await yard.act(fire, deed('acknowledge'));
    await expect(yard.act(fire, deed('reset'))).rejects.toMatchObject({ field: 'event' });
    await yard.live(40, 180, () => 45);
    await yard.restart();
    expect(await yard.alarm(fire)).toMatchObject({ state: 'latched-acknowledged' });
    await yard.act(fire, deed('reset'));
    expect(await yard.alarm(fire)).toMatchObject({ state: 'normal', activeSinceMs: null });
    const history = await yard.records.alarms.transitions((await yard.alarm(fire))!.id);
    expect(history.map(({ event, by }) => [event, by])).toEqual([
      ['became-active', null],
      ['acknowledge', yard.wren.id],
      ['returned-to-normal', null],
      ['reset', yard.wren.id],
    ]);
  });

  test('is texted even when it rose and fell before anybody could be told', async () => {
    yard = await startJudgedYard();
    // Hours of buffered readings come at once, after an outage: hot in its middle, cool at its end.
    for (let minutes = 0; minutes < 400; minutes += 5) {
      await yard.store(0, minutes, minutes > 20 && minutes < 60 ? 84 : 45);
    }
    await yard.judgeAt(402);
    expect((await yard.texts()).map(({ text }) => /FIRE DANGER/.test(text))).toContain(true);
    expect(await yard.alarm(fire)).toMatchObject({ state: 'latched-unacknowledged' });
  });

  test('acknowledged and still burning an hour later is texted again', async () => {
    yard = await startJudgedYard();
    await yard.live(0, 30, () => 84);
    await yard.act(fire, deed('acknowledge'));
    await yard.live(30, 100, () => 84);
    expect((await yard.texts()).map(({ occurrence }) => occurrence)).toEqual([1, 2]);
  });
});

describe('out of service', () => {
  test('takes a reason, hides what comes and goes, and shows as new what holds when it ends', async () => {
    yard = await startJudgedYard();
    await yard.live(0, 60, () => 72);
    const out = { kind: 'take-out-of-service', atMs: yard.nowMs(), by: yard.wren.id } as const;
    await yard.act('too-hot-ceiling', { ...out, reason: 'probe next to a heater' });
    await yard.live(60, 200, (minutes) => (minutes < 120 ? 60 : 73));
    expect(await yard.alarm('too-hot-ceiling')).toMatchObject({
      state: 'out-of-service',
      hiddenReason: 'probe next to a heater',
      shelvedUntilMs: null,
    });
    expect(await yard.texts()).toHaveLength(1);
    await yard.act('too-hot-ceiling', deed('return-to-service'));
    expect(await yard.alarm('too-hot-ceiling')).toMatchObject({
      state: 'unacknowledged',
      hiddenReason: null,
    });
    await yard.live(200, 210, () => 73);
    expect(await yard.texts()).toHaveLength(2);
  });
});

describe('hidden by design', () => {
  test('is on record with its reason, not texted, and texted when the reason is over', async () => {
    yard = await startJudgedYard({ method: 'turned-windrow' });
    const overrides = { stalled: { graceHoursAfterWork: 5, onDelayMinutes: 30 } };
    const change = { pileId: yard.piles[0]!.id, overrides, reason: '', by: null, savedMs: startMs };
    await yard.records.limits.save({ ...change, expectedVersion: 0 });
    await yard.write('watered', 25 * 60);
    await yard.live(0, 60, () => 55);
    await yard.live(24 * 60, 29 * 60, (minutes) => (minutes < 24 * 60 + 30 ? 55 : 30));
    expect(await yard.alarm('stalled')).toMatchObject({
      state: 'suppressed',
      hiddenReason: 'watered less than 5 h ago: a fall is expected',
    });
    const about = async () => (await yard.texts()).filter(({ alarmId }) => alarmId!.endsWith('.stalled'));
    expect(await about()).toEqual([]);
    await yard.live(29 * 60, 31 * 60, () => 30);
    expect(await about()).toHaveLength(1);
  });
});

describe('a flood', () => {
  const hot = (minutes: number, number: number) => (minutes >= 20 && number < 12 ? 73 : 60);

  test('of twelve hot piles at once is one text that says so, and each alarm stands', async () => {
    yard = await startJudgedYard({ piles: 13 });
    await yard.live(0, 65, hot);
    const texts = await yard.texts();
    expect(texts.map(({ text, alarmId }) => [text, alarmId])).toEqual([
      [
        expect.stringMatching(
          /^Gannet Row: 12 alarms at once: 12 core too hot\. .*Cage 1: core too hot\. Do not turn it\..* Open the alarm list\.$/,
        ),
        null,
      ],
    ]);
    expect(await yard.standing()).toEqual(Array(12).fill('too-hot-ceiling unacknowledged'));
  });

  test('keeps no fire danger back, survives a restart, and its end tells what came meanwhile', async () => {
    yard = await startJudgedYard({ piles: 14 });
    await judgeAtOnce(12, 'too-hot-fire-danger');
    await judgeAtOnce(13, 'too-hot-ceiling');
    await yard.live(0, 55, hot);
    await yard.restart();
    const more = (minutes: number, number: number) =>
      number === 12 ? 85 : number === 13 ? 74 : hot(minutes, number);
    await yard.live(55, 75, more);
    const texts = (await yard.texts()).map(({ text, createdMs }) => [text, (createdMs - startMs) / minuteMs]);
    expect(texts).toEqual([
      [expect.stringMatching(/12 alarms at once: .*Do not turn it/), 52],
      [expect.stringMatching(/Cage 13: FIRE DANGER/), 57],
      [expect.stringMatching(/1 alarm.* Cage 14: .*Do not turn it/), 62],
    ]);
  });

  test('does not tell of what was answered while its text was kept back', async () => {
    yard = await startJudgedYard({ piles: 14 });
    await judgeAtOnce(12, 'too-hot-ceiling');
    await judgeAtOnce(13, 'too-hot-ceiling');
    await yard.live(0, 55, hot);
    await yard.live(55, 60, (minutes, number) => (number >= 12 ? 74 : hot(minutes, number)));
    await yard.act('too-hot-ceiling', deed('acknowledge'), yard.piles[12]);
    await yard.live(60, 75, (minutes, number) => (number >= 12 ? 74 : hot(minutes, number)));
    const later = (await yard.texts()).slice(1).map(({ text }) => text);
    expect(later).toEqual([expect.stringMatching(/: 1 alarm.* Cage 14: .*Do not turn it/)]);
  });

  async function judgeAtOnce(number: number, condition: string): Promise<void> {
    const pileId = yard.piles[number]!.id;
    const change = { pileId, reason: '', by: null, savedMs: startMs, expectedVersion: 0 };
    await yard.records.limits.save({ ...change, overrides: { [condition]: { onDelayMinutes: 0 } } });
    yard.rules().factsChanged(pileId);
  }
});

test('what is shelved comes back by itself at its time, across a restart', async () => {
  yard = await startJudgedYard();
  await yard.live(0, 60, () => 72);
  const untilMs = startMs + 120 * minuteMs;
  const shelve = {
    kind: 'shelve',
    atMs: yard.nowMs(),
    by: yard.wren.id,
    untilMs,
    reason: 'hose comes',
  } as const;
  await yard.act('too-hot-ceiling', shelve);
  await yard.restart();
  await yard.live(60, 130, () => 72);
  expect(await yard.steps('too-hot-ceiling')).toEqual([
    ['became-active', 30],
    ['shelve', 57],
    ['unshelve', 120],
  ]);
});
