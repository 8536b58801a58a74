import { pino } from 'pino';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Person } from '../../../shared/yard/people.ts';
import { minuteMs, noonMs, type OutboxRig, openOutboxRig } from '../../../tests/helpers/outboxRig.ts';
import { testRules } from '../testing/testRules.ts';
import { createAnswerDesk } from './answerDesk.ts';

let rig: OutboxRig;
let wren: Person;
let references = 0;
beforeEach(async () => {
  rig = await openOutboxRig();
  wren = await rig.person('wren');
});
afterEach(() => rig.close());

/** Sends a text in and gives the answers written since, oldest first. */
async function say(text: string, from = wren.phone!, reference: string | null = String(++references)) {
  const { records, clock } = rig;
  const before = (await records.messages.list(rig.yard.id, 1000)).length;
  const desk = createAnswerDesk({
    ...{ records, clock, rules: () => testRules(records), channel: 'sms-http', onChanged: () => {} },
    logger: pino({ level: 'silent' }),
  });
  await desk({ from, text, receivedMs: clock.ms, reference });
  const written = await records.messages.list(rig.yard.id, 1000);
  return written
    .slice(0, written.length - before)
    .reverse()
    .map((message) => message.text);
}

describe('a text from somebody of the yard', () => {
  test('is understood in any language, and answered in the language and wording of who sent it', async () => {
    const ute = await rig.person('ute', { language: 'de' });
    await rig.alarm({ code: 'K7' });
    expect(await say('Gesehen K7', ute.phone!)).toEqual([
      expect.stringMatching(/^K7 gesehen: Kern zu heiß, Cage \d+\. Danke\.$/),
    ]);
    await rig.alarm({ code: 'B4' });
    expect(await say('stopp B4 2 Stunden')).toEqual([expect.stringContaining('quiet until 14:00')]);
    await rig.alarm({ code: 'C3' });
    expect(await say('erledigt C3 gegossen', ute.phone!)).toEqual([
      expect.stringContaining('gegossen für Cage'),
    ]);
    expect(await say('stand', ute.phone!)).toEqual([
      expect.stringMatching(/^Gannet Row: 2 mit Alarm\. Cage 3 kein Wert Kern zu heiß K7/),
    ]);
    expect(await say('nicht gesehen K7', ute.phone!)).toEqual([expect.stringContaining('Antworte: gesehen')]);
  });

  test('seen acknowledges, and says what it was', async () => {
    const alarm = await rig.alarm({ code: 'K7' });
    expect(await say('Seen k7!')).toEqual([
      expect.stringMatching(/^K7 seen: core too hot, Cage \d+\. Thank you\.$/),
    ]);
    expect(await rig.records.alarms.get(alarm.id)).toMatchObject({
      state: 'acknowledged',
      acknowledgedBy: wren.id,
    });
    expect(await say('seen K7')).toEqual([expect.stringContaining('was seen already')]);
  });

  test('stop shelves for the time said, four hours when none is, a week at most', async () => {
    const alarm = await rig.alarm({ code: 'K7' });
    expect(await say('stop K7 90m')).toEqual([expect.stringContaining('quiet until 13:30')]);
    const shelved = await rig.records.alarms.get(alarm.id);
    expect(shelved).toMatchObject({ state: 'shelved', shelvedUntilMs: noonMs + 90 * minuteMs });
    await rig.alarm({ code: 'B4' });
    expect(await say('stop B4')).toEqual([expect.stringContaining('quiet until 16:00')]);
    await rig.alarm({ code: 'C3' });
    expect(await say('stop C3 30d')).toEqual([expect.stringContaining('at most 7 d')]);
  });

  test('stop does not silence fire danger', async () => {
    const alarm = await rig.alarm({ code: 'K7', priority: 'highest' });
    expect(await say('stop K7 4h')).toEqual([expect.stringContaining('fire danger and stays loud')]);
    expect((await rig.records.alarms.get(alarm.id))?.state).toBe('unacknowledged');
  });

  test('done writes in the journal and acknowledges', async () => {
    const alarm = await rig.alarm({ code: 'K7' });
    expect(await say('done K7 watered')).toEqual([
      expect.stringContaining('K7: watered written down for Cage'),
    ]);
    const journal = await rig.records.journal.list(alarm.subject.id);
    expect(journal).toMatchObject([{ kind: 'watered', timeMs: noonMs, by: wren.id, note: 'told by text' }]);
    expect((await rig.records.alarms.get(alarm.id))?.state).toBe('acknowledged');
    expect(await say('done K7')).toEqual([expect.stringContaining('What was done?')]);
  });

  test('passed on twice under one reference it is one: one deed, one answer', async () => {
    const alarm = await rig.alarm({ code: 'K7' });
    expect(await say('done K7 turned', wren.phone!, 'r1')).toHaveLength(1);
    rig.clock.ms += 3 * minuteMs;
    expect(await say('done K7 turned', wren.phone!, 'r1')).toEqual([]);
    expect(await rig.records.journal.list(alarm.subject.id)).toHaveLength(1);
    expect(await say('done K7 turned', wren.phone!, 'r2')).toHaveLength(1);
    expect(await rig.records.journal.list(alarm.subject.id)).toHaveLength(2);
  });

  test('cut off before its end it is gone through again, without a second deed', async () => {
    const alarm = await rig.alarm({ code: 'K7' });
    const finish = rig.records.inbound.finish;
    Object.assign(rig.records.inbound, { finish: () => Promise.reject(new Error('cut off')) });
    await expect(say('done K7 turned', wren.phone!, 'r1')).rejects.toThrow('cut off');
    Object.assign(rig.records.inbound, { finish });
    expect(await say('done K7 turned', wren.phone!, 'r1')).toEqual([]);
    expect(await rig.records.journal.list(alarm.subject.id)).toHaveLength(1);
    expect(await rig.records.messages.list(rig.yard.id, 10)).toHaveLength(1);
  });

  test('without a code means the only one that asks, and asks back where there are more', async () => {
    expect(await say('seen')).toEqual(['Gannet Row: no alarm waits for an answer.']);
    const alarm = await rig.alarm({ code: 'K7' });
    expect(await say('ok')).toEqual([expect.stringContaining('K7 seen')]);
    expect((await rig.records.alarms.get(alarm.id))?.state).toBe('acknowledged');
    await rig.alarm({ code: 'B4' });
    await rig.alarm({ code: 'C3' });
    expect(await say('seen')).toEqual([expect.stringMatching(/Which one\? There are (B4, C3|C3, B4)/)]);
  });

  test('status tells the worst piles in one text', async () => {
    await rig.alarm({ code: 'K7' });
    expect(await say('status')).toEqual([expect.stringMatching(/^Gannet Row: 1 with an alarm\. Cage .* K7/)]);
  });

  test('a viewer may say seen, and may neither stop nor write', async () => {
    const viewer = await rig.person('tern', { role: 'viewer' });
    await rig.alarm({ code: 'K7' });
    expect(await say('stop K7', viewer.phone!)).toEqual([expect.stringContaining('your role may not')]);
    expect(await say('done K7 turned', viewer.phone!)).toEqual([
      expect.stringContaining('your role may not'),
    ]);
    expect(await say('seen K7', viewer.phone!)).toEqual([expect.stringContaining('K7 seen')]);
  });

  test('what is not understood gets the help line once an hour', async () => {
    expect(await say('hello?')).toEqual([expect.stringContaining('Text back: seen K7')]);
    expect(await say('what do you mean')).toEqual([]);
    rig.clock.ms += 61 * minuteMs;
    await answersWentOut();
    expect(await say('hm')).toHaveLength(1);
  });

  test('a machine at the other end does not get answers without end', async () => {
    for (let count = 0; count < 30; count += 1) await say('status');
    expect(await rig.records.messages.list(rig.yard.id, 100)).toHaveLength(20);
  });
});

describe('a text from anybody else', () => {
  test.each(['+441632960999', 'GATEWAY', '60999'])(
    'from %s changes nothing and is not answered',
    async (from) => {
      const alarm = await rig.alarm({ code: 'K7' });
      expect(await say('seen K7', from)).toEqual([]);
      expect((await rig.records.alarms.get(alarm.id))?.state).toBe('unacknowledged');
    },
  );

  test('nor from somebody who was disabled, nor about another yard', async () => {
    await rig.alarm({ code: 'K7' });
    const { id: _, ...values } = rig.yard;
    const elsewhere = await rig.records.yards.create({ ...values, name: 'Far Yard' });
    const stranger = await rig.person('crow', { yardId: elsewhere.id });
    await say('seen K7', stranger.phone!);
    await rig.records.people.update(wren.id, { disabled: true });
    expect(await say('seen K7')).toEqual([]);
    const [alarm] = await rig.records.alarms.list(rig.yard.id);
    expect(alarm?.state).toBe('unacknowledged');
  });
});

/** Answers that wait count as given just now; these went out when they were written. */
async function answersWentOut() {
  const earlierMs = rig.clock.ms - 61 * minuteMs;
  const claim = { nowMs: earlierMs, limit: 10, leaseMs: minuteMs, claimant: 'test' };
  for (const { id: messageId } of await rig.records.messages.claimDue(claim))
    await rig.records.messages.finishAttempt(
      { messageId, attempt: 1, startedMs: earlierMs, finishedMs: earlierMs, outcome: 'sent', detail: '' },
      { state: 'sent', nextAttemptMs: earlierMs, gatewayReference: null },
    );
}
