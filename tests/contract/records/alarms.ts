import { expect, test } from 'vitest';
import { RecordsError, VersionConflict } from '../../../services/records/port.ts';
import {
  minuteMs,
  sampleAlarm,
  sampleMessage,
  sampleStatus,
  sampleTransition,
  sampleYard,
  startMs,
  stepOf,
} from './samples.ts';
import { type FreshDatabase, useRecords } from './useRecords.ts';

export function describeAlarms(fresh: FreshDatabase): void {
  const at = useRecords(fresh);

  test('one step stores alarm, transition, text, link, status, note and mark together', async () => {
    const sample = await sampleYard(at.records);
    const alarm = sampleAlarm(sample);
    const answerLink = linkFor(alarm.id, sample.person.id);
    await at.records.alarms.commit({
      alarms: [alarm],
      transitions: [sampleTransition(alarm)],
      messages: [sampleMessage(sample, { alarmId: alarm.id, occurrence: 1, answerLink })],
      statuses: [sampleStatus(sample.pile.id)],
      journal: [noteOn(sample.pile.id)],
      marks: [['rules cursor', '17']],
    });
    expect(await at.records.journal.list(sample.pile.id)).toMatchObject([noteOn(sample.pile.id)]);
    expect(await at.records.alarms.get(alarm.id)).toEqual(alarm);
    expect(await at.records.alarms.transitions(alarm.id)).toEqual([sampleTransition(alarm)]);
    expect(await at.records.messages.list(sample.yard.id, 10)).toMatchObject([
      { alarmId: alarm.id, occurrence: 1 },
    ]);
    expect(await at.records.alarms.findAnswerLink('hash')).toEqual(answerLink);
    expect(await at.records.statuses.forYard(sample.yard.id)).toEqual([sampleStatus(sample.pile.id)]);
    expect(await at.records.marks.get('rules cursor')).toBe('17');
  });

  test('alarms are counted by state and priority, over all yards', async () => {
    expect(await at.records.alarms.counts()).toEqual([]);
    const [one, other] = [await sampleYard(at.records), await sampleYard(at.records, 'other')];
    const low = sampleAlarm(one, { code: 'B4', priority: 'low', condition: 'too-wet' });
    await at.records.alarms.commit(stepOf({ alarms: [sampleAlarm(one), low, sampleAlarm(other)] }));
    expect(await at.records.alarms.counts()).toEqual([
      { state: 'unacknowledged', priority: 'high', count: 2 },
      { state: 'unacknowledged', priority: 'low', count: 1 },
    ]);
  });

  test('a step that fails at its last part leaves nothing behind', async () => {
    const sample = await sampleYard(at.records);
    const alarm = sampleAlarm(sample);
    const step = stepOf({
      alarms: [alarm],
      transitions: [sampleTransition(alarm)],
      messages: [sampleMessage(sample)],
      statuses: [sampleStatus('no such pile')],
      marks: [['rules cursor', '17']],
    });
    await expect(at.records.alarms.commit(step)).rejects.toMatchObject({ field: 'reference' });
    expect(await at.records.alarms.get(alarm.id)).toBeNull();
    expect(await at.records.messages.list(sample.yard.id, 10)).toEqual([]);
    expect(await at.records.marks.get('rules cursor')).toBeNull();
  });

  test('a version that is not the next one is a conflict, and its texts are not written', async () => {
    const sample = await sampleYard(at.records);
    const alarm = sampleAlarm(sample);
    await at.records.alarms.commit(stepOf({ alarms: [alarm] }));
    for (const version of [1, 3]) {
      const step = stepOf({ alarms: [{ ...alarm, version }], messages: [sampleMessage(sample)] });
      await expect(at.records.alarms.commit(step)).rejects.toThrow(VersionConflict);
    }
    const unborn = sampleAlarm(sample, { condition: 'stalled', code: 'A1', version: 2 });
    await expect(at.records.alarms.commit(stepOf({ alarms: [unborn] }))).rejects.toThrow(VersionConflict);
    expect(await at.records.messages.list(sample.yard.id, 10)).toEqual([]);
    await at.records.alarms.commit(stepOf({ alarms: [{ ...alarm, state: 'acknowledged', version: 2 }] }));
    expect(await at.records.alarms.get(alarm.id)).toMatchObject({ state: 'acknowledged', version: 2 });
  });

  test('one condition on one subject is one alarm for ever', async () => {
    const sample = await sampleYard(at.records);
    const alarm = sampleAlarm(sample);
    await at.records.alarms.commit(stepOf({ alarms: [alarm] }));
    const twin = sampleAlarm(sample, { code: 'B2' });
    await expect(at.records.alarms.commit(stepOf({ alarms: [twin] }))).rejects.toThrow(VersionConflict);
    const found = await at.records.alarms.find(sample.yard.id, 'pile', sample.pile.id, 'too-hot-ceiling');
    expect(found).toEqual(alarm);
    expect(
      await at.records.alarms.find(sample.yard.id, 'probe', sample.pile.id, 'too-hot-ceiling'),
    ).toBeNull();
  });

  test('a code names one standing alarm of a yard; an alarm back to normal gives it up', async () => {
    const sample = await sampleYard(at.records);
    const elsewhere = await sampleYard(at.records, 'otto');
    const holder = sampleAlarm(sample);
    const wanting = sampleAlarm(sample, { condition: 'stalled' });
    await at.records.alarms.commit(stepOf({ alarms: [holder, sampleAlarm(elsewhere)] }));
    const attempt = at.records.alarms.commit(stepOf({ alarms: [wanting] }));
    await expect(attempt).rejects.toMatchObject({ name: 'RecordsError', field: 'code' });
    await at.records.alarms.commit(stepOf({ alarms: [wanting, { ...holder, state: 'normal', version: 2 }] }));
    const standing = await at.records.alarms.list(sample.yard.id, { standingOnly: true });
    expect(standing).toEqual([wanting]);
    expect(await at.records.alarms.list(sample.yard.id)).toHaveLength(2);
  });

  test('lists have the most pressing first, then the longest standing', async () => {
    const sample = await sampleYard(at.records);
    const alarms = [
      sampleAlarm(sample, { condition: 'stalled', code: 'A1', priority: 'low' }),
      sampleAlarm(sample, { condition: 'too-wet', code: 'A2', activeSinceMs: startMs + minuteMs }),
      sampleAlarm(sample, { condition: 'too-hot-ceiling', code: 'A3', activeSinceMs: startMs }),
      sampleAlarm(sample, { condition: 'too-hot-fire-danger', code: 'A4', priority: 'highest' }),
      sampleAlarm(sample, { condition: 'probe-silent', code: 'A5', subject: { kind: 'probe', id: 'p1' } }),
    ];
    await at.records.alarms.commit(stepOf({ alarms }));
    const codes = (await at.records.alarms.forPile(sample.pile.id)).map(({ code }) => code);
    expect(codes).toEqual(['A4', 'A3', 'A2', 'A1']);
  });

  test('history of a pile is newest first and tells the condition', async () => {
    const sample = await sampleYard(at.records);
    const alarm = sampleAlarm(sample);
    const acknowledged = sampleTransition(alarm, {
      event: 'acknowledge',
      from: 'unacknowledged',
      to: 'acknowledged',
      by: 'marta',
      note: 'on my way',
      atMs: startMs + minuteMs,
    });
    await at.records.alarms.commit(
      stepOf({ alarms: [alarm], transitions: [sampleTransition(alarm), acknowledged] }),
    );
    const history = await at.records.alarms.history(sample.pile.id, 1);
    expect(history).toEqual([{ ...acknowledged, condition: 'too-hot-ceiling' }]);
    expect(await at.records.alarms.transitions(alarm.id)).toHaveLength(2);
    const about = { condition: 'too-hot-ceiling', subject: alarm.subject };
    const between = (toMs: number) => at.records.alarms.transitionsBetween(sample.yard.id, startMs, toMs);
    expect(await between(startMs + minuteMs)).toEqual([{ ...sampleTransition(alarm), ...about }]);
    expect(await between(startMs + minuteMs + 1)).toHaveLength(2);
    expect(await at.records.alarms.transitionsBetween('elsewhere', 0, startMs * 2)).toEqual([]);
  });

  test('evidence that could not be read back is refused', async () => {
    const sample = await sampleYard(at.records);
    const alarm = sampleAlarm(sample, { evidence: [{ label: 'core', value: Number.NaN, unit: 'C' }] });
    await expect(at.records.alarms.commit(stepOf({ alarms: [alarm] }))).rejects.toThrow(RecordsError);
    expect(await at.records.alarms.list(sample.yard.id)).toEqual([]);
  });

  test('a text with a key already in the outbox is left out, with its link', async () => {
    const sample = await sampleYard(at.records);
    const alarm = sampleAlarm(sample);
    const first = sampleMessage(sample, { idempotencyKey: 'once', text: 'first' });
    await at.records.alarms.commit(stepOf({ alarms: [alarm], messages: [first] }));
    const again = { ...first, text: 'second', answerLink: linkFor(alarm.id, sample.person.id) };
    await at.records.alarms.commit(stepOf({ messages: [again, again], marks: [['cursor', '2']] }));
    expect((await at.records.messages.list(sample.yard.id, 10)).map(({ text }) => text)).toEqual(['first']);
    expect(await at.records.alarms.findAnswerLink('hash')).toBeNull();
    expect(await at.records.marks.get('cursor')).toBe('2');
  });

  test('an answer link can be stored by itself', async () => {
    const sample = await sampleYard(at.records);
    const alarm = sampleAlarm(sample);
    await at.records.alarms.commit(stepOf({ alarms: [alarm] }));
    await at.records.alarms.saveAnswerLink(linkFor(alarm.id, sample.person.id));
    expect(await at.records.alarms.findAnswerLink('hash')).toEqual(linkFor(alarm.id, sample.person.id));
    await expect(at.records.alarms.saveAnswerLink(linkFor('none', sample.person.id))).rejects.toThrow(
      RecordsError,
    );
  });
}

const linkFor = (alarmId: string, personId: string) => ({
  tokenHash: alarmId === 'none' ? 'other hash' : 'hash',
  alarmId,
  occurrence: 1,
  personId,
  expiresMs: startMs + 60 * minuteMs,
});

/** What the system notes down about a pile. */
function noteOn(pileId: string) {
  const times = { timeMs: 5000, recordedAtMs: 6000 };
  return { pileId, ...times, kind: 'note', value: null, note: 'Milestone: one', by: null } as const;
}
