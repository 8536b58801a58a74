import { expect, test } from 'vitest';
import { VersionConflict } from '../../../services/records/port.ts';
import { defaultDutyPlan } from '../../../shared/messages/dutyPlan.ts';
import { sampleYard, startMs } from './samples.ts';
import { type FreshDatabase, useRecords } from './useRecords.ts';

export function describeDuty(fresh: FreshDatabase): void {
  const at = useRecords(fresh);

  test('a yard has the default plan until one is saved, and then the latest', async () => {
    const { yard, person } = await sampleYard(at.records);
    expect(await at.records.duty.current(yard.id)).toMatchObject({ version: 0, plan: defaultDutyPlan });
    const plan = { ...defaultDutyPlan, textsPerHour: 4, holidays: ['2026-12-25'] };
    const change = { yardId: yard.id, plan, by: person.id, savedMs: startMs };
    const saved = await at.records.duty.save({ ...change, expectedVersion: 0 });
    expect(saved).toEqual({ ...change, version: 1 });
    expect(await at.records.duty.current(yard.id)).toEqual(saved);
    await expect(at.records.duty.save({ ...change, expectedVersion: 0 })).rejects.toThrow(VersionConflict);
    await expect(
      at.records.duty.save({ ...change, yardId: 'none', expectedVersion: 0 }),
    ).rejects.toMatchObject({ field: 'yardId' });
  });

  test("a yard's own wording is kept by version; none until one is saved", async () => {
    const { yard, person } = await sampleYard(at.records);
    expect(await at.records.wordings.current(yard.id)).toMatchObject({ version: 0, overrides: {} });
    const overrides = { de: { 'alarm.nextPerson': '{names} schläft.' } } as const;
    const change = { yardId: yard.id, overrides, by: person.id, savedMs: startMs };
    expect(await at.records.wordings.save({ ...change, expectedVersion: 0 })).toEqual({
      ...change,
      version: 1,
    });
    expect((await at.records.wordings.current(yard.id)).overrides).toEqual(overrides);
    await expect(at.records.wordings.save({ ...change, expectedVersion: 0 })).rejects.toThrow(
      VersionConflict,
    );
    const wrong = { fr: {} } as unknown as typeof overrides;
    await expect(
      at.records.wordings.save({ ...change, overrides: wrong, expectedVersion: 1 }),
    ).rejects.toMatchObject({ field: 'overrides' });
  });

  test('a plan that could not be read back is not stored', async () => {
    const { yard } = await sampleYard(at.records);
    const plan = { ...defaultDutyPlan, textsPerHour: -1 };
    const save = at.records.duty.save({
      yardId: yard.id,
      plan,
      by: null,
      savedMs: startMs,
      expectedVersion: 0,
    });
    await expect(save).rejects.toMatchObject({ field: 'plan' });
  });

  test('a person may be reached in several ways; one that is no more is kept and says so', async () => {
    const { yard, person } = await sampleYard(at.records);
    const values = {
      personId: person.id,
      channel: 'email' as const,
      address: 'marta@yard.example',
      toldFrom: 'low' as const,
      createdMs: startMs,
    };
    const way = await at.records.ways.create(values);
    expect(await at.records.ways.list(yard.id)).toEqual([
      { ...values, id: way.id, goneMs: null, goneDetail: null },
    ]);
    await expect(at.records.ways.create(values)).rejects.toMatchObject({ field: 'address' });
    expect(await at.records.ways.markGone('web-push', values.address, startMs + 1, 'ended')).toBe(0);
    expect(await at.records.ways.markGone('email', values.address, startMs + 1, 'ended')).toBe(1);
    expect(await at.records.ways.markGone('email', values.address, startMs + 2, 'again')).toBe(0);
    expect(await at.records.ways.list(yard.id)).toMatchObject([{ goneMs: startMs + 1, goneDetail: 'ended' }]);
    await at.records.ways.remove(way.id);
    expect(await at.records.ways.list(yard.id)).toEqual([]);
    await expect(at.records.ways.remove(way.id)).rejects.toMatchObject({ field: 'contactWayId' });
  });

  test('a text that comes again is known, with the time it first came and whether it was acted upon', async () => {
    const { person } = await sampleYard(at.records);
    const text = {
      key: 'k',
      personId: person.id,
      address: '+441632960123',
      text: 'seen K7',
      receivedMs: startMs,
    };
    expect(await at.records.inbound.take(text)).toEqual({ receivedMs: startMs, done: false });
    const again = { ...text, receivedMs: startMs + 9 };
    expect(await at.records.inbound.take(again)).toEqual({ receivedMs: startMs, done: false });
    await at.records.inbound.finish('k', startMs + 10, 'seen');
    expect(await at.records.inbound.take(again)).toEqual({ receivedMs: startMs, done: true });
    await expect(at.records.inbound.finish('none', startMs, '')).rejects.toMatchObject({ field: 'key' });
    await expect(at.records.inbound.take({ ...text, key: 'x', personId: 'none' })).rejects.toMatchObject({
      field: 'personId',
    });
  });
}
