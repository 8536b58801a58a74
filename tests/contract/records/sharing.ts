import { expect, test } from 'vitest';
import { DeedGone, LeaseLost, RecordsError } from '../../../services/records/port.ts';
import { sampleAlarm, sampleMessage, sampleYard, startMs, stepOf } from './samples.ts';
import { type FreshDatabase, useRecords } from './useRecords.ts';

/** Work shared by several processes: leases with fences, signs of life, and what people ask of whoever judges. */
export function describeSharing(fresh: FreshDatabase): void {
  const at = useRecords(fresh);
  const seen = async (name: string) => (await at.records.leases.list()).find((lease) => lease.name === name)!;

  test('a lease is made once, free, and taken by one of those who saw it free', async () => {
    await at.records.leases.ensure(['rules:a', 'rules:b']);
    await at.records.leases.ensure(['rules:a']);
    const free = await seen('rules:a');
    expect(free).toEqual({ name: 'rules:a', holder: null, fence: 0, beat: 0 });
    const other = await at.another();
    const grants = await Promise.all([
      at.records.leases.take(free, 'one'),
      other.leases.take(free, 'two'),
      at.records.leases.take(free, 'three'),
    ]);
    const [grant, ...more] = grants.filter((one) => one !== null);
    expect(more).toEqual([]);
    expect(grant).toMatchObject({ name: 'rules:a', fence: 1 });
    expect(await seen('rules:a')).toMatchObject({ holder: grant!.holder });
  });

  test('a sign of life keeps a lease from those who saw it before, and tells what is no longer held', async () => {
    const { leases } = at.records;
    await leases.ensure(['rules:a', 'rules:b']);
    const a = (await leases.take(await seen('rules:a'), 'one'))!;
    const b = (await leases.take(await seen('rules:b'), 'one'))!;
    const before = await seen('rules:a');
    expect((await leases.renew([a, b])).sort()).toEqual(['rules:a', 'rules:b']);
    expect(await leases.take(before, 'two')).toBeNull();
    expect(await leases.take(await seen('rules:a'), 'two')).toMatchObject({ fence: 2 });
    expect(await leases.renew([a, b])).toEqual(['rules:b']);
    await leases.release(a);
    expect(await seen('rules:a')).toMatchObject({ holder: 'two' });
    await leases.release(b);
    expect(await seen('rules:b')).toMatchObject({ holder: null });
  });

  test('a step under a lease is stored while it is held, and not at all by who slept through it', async () => {
    const { leases, alarms, marks, messages } = at.records;
    const sample = await sampleYard(at.records);
    const name = `rules:${sample.yard.id}`;
    await leases.ensure([name]);
    const sleeper = (await leases.take(await seen(name), 'sleeper'))!;
    const alarm = sampleAlarm(sample);
    await alarms.commit({ ...stepOf({ alarms: [alarm] }), lease: sleeper });
    await leases.take(await seen(name), 'other');
    const late = {
      ...stepOf({ alarms: [{ ...alarm, version: 2, state: 'normal' as const }] }),
      messages: [sampleMessage(sample)],
      marks: [['rules:cursor', '99']] as const,
      lease: sleeper,
    };
    await expect(alarms.commit(late)).rejects.toThrow(LeaseLost);
    expect(await alarms.get(alarm.id)).toMatchObject({ version: 1, state: 'unacknowledged' });
    expect(await messages.list(sample.yard.id, 10)).toEqual([]);
    expect(await marks.get('rules:cursor')).toBeNull();
  });

  test('whoever takes a lease waits for the step that is being stored under it', async () => {
    const { leases, alarms } = at.records;
    await leases.ensure(['rules:a']);
    const other = await at.another();
    let last: string | null = null;
    for (let round = 0; round < 20; round += 1) {
      const grant = (await leases.take(await seen('rules:a'), 'one'))!;
      const mark = String(round);
      const now = await seen('rules:a');
      const [stored, taken] = await Promise.allSettled([
        alarms.commit({ ...stepOf({}), marks: [['last', mark]], lease: grant }),
        other.leases.take(now, 'two'),
      ]);
      expect(taken.status).toBe('fulfilled');
      // Stored before it was taken, or refused: never after.
      const isRefused = stored.status === 'rejected' && stored.reason instanceof LeaseLost;
      expect(stored.status === 'fulfilled' || isRefused).toBe(true);
      if (!isRefused) last = mark;
      expect(await at.records.marks.get('last')).toBe(last);
    }
  });

  test('processes tell of themselves, and are struck off only as they were seen', async () => {
    const { processes } = at.records;
    await processes.beat('one', '{"a":1}');
    await processes.beat('one', '{"a":2}');
    await processes.beat('two', '{}');
    const [one] = await processes.list();
    expect(one).toEqual({ id: 'one', standing: '{"a":2}', beat: 2 });
    await processes.beat('one', '{"a":3}');
    await processes.forget(one!);
    expect((await processes.list()).map(({ id }) => id)).toEqual(['one', 'two']);
    await processes.forget((await processes.list())[0]!);
    expect((await processes.list()).map(({ id }) => id)).toEqual(['two']);
  });

  test('a deed waits for its yard, is answered together with its step, and its answer is taken once', async () => {
    const { deeds, alarms } = at.records;
    const [one, other] = [await sampleYard(at.records), await sampleYard(at.records, 'other')];
    const alarm = sampleAlarm(one);
    await alarms.commit(stepOf({ alarms: [alarm] }));
    const event = { kind: 'acknowledge', atMs: startMs, by: one.person.id } as const;
    const deed = { id: 'd1', yardId: one.yard.id, alarmId: alarm.id, event, createdMs: startMs };
    await deeds.add(deed);
    await expect(deeds.add({ ...deed, id: 'd2', alarmId: 'nobody' })).rejects.toThrow(RecordsError);
    expect(await deeds.waiting([other.yard.id])).toEqual([]);
    expect(await deeds.waiting([other.yard.id, one.yard.id])).toEqual([deed]);
    expect(await deeds.takeAnswer('d1')).toBeNull();
    await alarms.commit({ ...stepOf({ alarms: [{ ...alarm, version: 2 }] }), deedId: 'd1' });
    expect(await deeds.waiting([one.yard.id])).toEqual([]);
    expect(await deeds.takeBack('d1')).toBe(false);
    expect(await deeds.takeAnswer('d1')).toEqual({ kind: 'done' });
    expect(await deeds.takeAnswer('d1')).toBeNull();
  });

  test('an errand is taken by one, of its own channels, answered once, and taken back only before', async () => {
    const { errands } = at.records;
    const other = await at.another();
    const errand = { id: 'e1', channel: 'sms-http', address: '+441632960999', createdMs: startMs } as const;
    await errands.add(errand);
    await errands.add({ ...errand, id: 'e2', address: null, createdMs: startMs + 1 });
    expect(await errands.take([])).toEqual([]);
    expect(await errands.take(['email'])).toEqual([]);
    const took = await Promise.all([errands.take(['sms-http']), other.errands.take(['sms-http', 'email'])]);
    const byTime = took.flat().toSorted((a, b) => a.createdMs - b.createdMs);
    expect(byTime).toEqual([errand, { ...errand, id: 'e2', address: null, createdMs: startMs + 1 }]);
    expect(await errands.takeBack('e1')).toBe(false);
    expect(await errands.takeAnswer('e1')).toBeNull();
    await errands.answer('e1', '{"kind":"sent"}');
    expect(await errands.takeAnswer('e1')).toBe('{"kind":"sent"}');
    expect(await errands.takeAnswer('e1')).toBeNull();
    await errands.add({ ...errand, id: 'e3' });
    expect(await errands.takeBack('e3')).toBe(true);
    await errands.sweep(startMs + 2);
    await errands.answer('e2', 'null');
    expect(await errands.takeAnswer('e2')).toBeNull();
  });

  test('of two who set a mark once, both get what the first one set', async () => {
    const other = await at.another();
    const set = await Promise.all([
      at.records.marks.setOnce('keys', 'one'),
      other.marks.setOnce('keys', 'two'),
      at.records.marks.setOnce('keys', 'three'),
    ]);
    expect(new Set(set).size).toBe(1);
    expect(await at.records.marks.get('keys')).toBe(set[0]);
  });

  test('a deed taken back is not done, not even by a step on its way', async () => {
    const { deeds, alarms } = at.records;
    const sample = await sampleYard(at.records);
    const alarm = sampleAlarm(sample);
    await alarms.commit(stepOf({ alarms: [alarm] }));
    const event = { kind: 'shelve', atMs: 1, by: 'x', untilMs: 2, reason: 'probe out' } as const;
    await deeds.add({ id: 'd1', yardId: sample.yard.id, alarmId: alarm.id, event, createdMs: startMs });
    expect(await deeds.takeBack('d1')).toBe(true);
    const step = { ...stepOf({ alarms: [{ ...alarm, version: 2 }] }), deedId: 'd1' };
    await expect(alarms.commit(step)).rejects.toThrow(DeedGone);
    expect(await alarms.get(alarm.id)).toMatchObject({ version: 1 });
  });

  test('a refused deed says why, and one nobody comes back for is swept away', async () => {
    const { deeds, alarms } = at.records;
    const sample = await sampleYard(at.records);
    const alarm = sampleAlarm(sample);
    await alarms.commit(stepOf({ alarms: [alarm] }));
    const event = { kind: 'unshelve', atMs: 1, by: null } as const;
    const deed = { yardId: sample.yard.id, alarmId: alarm.id, event, createdMs: startMs };
    const refusal = { kind: 'refused', field: 'event', message: 'it is not shelved' } as const;
    await deeds.add({ ...deed, id: 'd1' });
    await deeds.refuse('d1', refusal);
    await deeds.refuse('d1', { ...refusal, message: 'again' });
    expect(await deeds.takeAnswer('d1')).toEqual(refusal);
    await deeds.add({ ...deed, id: 'd2' });
    await deeds.sweep(startMs);
    expect(await deeds.waiting([sample.yard.id])).toHaveLength(1);
    await deeds.sweep(startMs + 1);
    expect(await deeds.waiting([sample.yard.id])).toEqual([]);
  });
}
