import { expect, test } from 'vitest';
import { RecordsError } from '../../../services/records/port.ts';
import { personValues, sampleYard, startMs } from './samples.ts';
import { type FreshDatabase, useRecords } from './useRecords.ts';

export function describePeople(fresh: FreshDatabase): void {
  const at = useRecords(fresh);

  test('a person comes back as written and without the password', async () => {
    const { yard, person } = await sampleYard(at.records);
    expect(person).toEqual({ ...personValues(yard.id, 'marta'), id: person.id });
    expect(await at.records.people.get(person.id)).toEqual(person);
    expect(await at.records.people.list(yard.id)).toEqual([person]);
    expect(await at.records.people.passwordHash(person.id)).toBeNull();
    await at.records.people.setPassword(person.id, 'scrypt$x');
    expect(await at.records.people.passwordHash(person.id)).toBe('scrypt$x');
    await expect(at.records.people.setPassword('none', 'x')).rejects.toThrow(RecordsError);
    await expect(at.records.people.passwordHash('none')).rejects.toMatchObject({ field: 'personId' });
  });

  test('sign-in names are one of a kind, whatever their case', async () => {
    const { yard, person } = await sampleYard(at.records, 'Marta');
    expect(person.login).toBe('marta');
    expect(await at.records.people.byLogin('MARTA')).toEqual(person);
    const twin = at.records.people.create(personValues(yard.id, 'mArta'), null);
    await expect(twin).rejects.toMatchObject({ field: 'login' });
    const other = await at.records.people.create(personValues(yard.id, 'otto'), null);
    const rename = at.records.people.update(other.id, { login: 'MARTA' });
    await expect(rename).rejects.toMatchObject({ field: 'login' });
    expect(await at.records.people.count()).toBe(2);
  });

  test('people are found by their number, in every yard, but not once they are disabled', async () => {
    const { person } = await sampleYard(at.records);
    const other = await sampleYard(at.records, 'otto');
    const found = async () =>
      (await at.records.people.byPhone(person.phone!)).map(({ login }) => login).sort();
    expect(await found()).toEqual(['marta', 'otto']);
    await at.records.people.update(other.person.id, { disabled: true });
    expect(await found()).toEqual(['marta']);
    expect(await at.records.people.byPhone('+1')).toEqual([]);
  });

  test('a change touches only what it names', async () => {
    const { person } = await sampleYard(at.records);
    const changed = await at.records.people.update(person.id, {
      disabled: true,
      receivesTexts: false,
      phone: null,
    });
    expect(changed).toEqual({ ...person, disabled: true, receivesTexts: false, phone: null });
    expect(await at.records.people.update(person.id, {})).toEqual(changed);
    await expect(at.records.people.update('none', { name: 'x' })).rejects.toMatchObject({
      field: 'personId',
    });
  });

  test('sessions are found by token, end alone or all together, and expire', async () => {
    const { person } = await sampleYard(at.records);
    const session = {
      personId: person.id,
      createdMs: startMs,
      lastUsedMs: startMs,
      expiresMs: startMs + 100,
    };
    for (const tokenHash of ['a', 'b', 'c']) await at.records.sessions.create({ ...session, tokenHash });
    await at.records.sessions.touch('a', startMs + 50);
    expect(await at.records.sessions.get('a')).toEqual({
      ...session,
      tokenHash: 'a',
      lastUsedMs: startMs + 50,
      confirmedMs: startMs,
    });
    await at.records.sessions.confirm('b', startMs + 60);
    expect((await at.records.sessions.get('b'))?.confirmedMs).toBe(startMs + 60);
    expect((await at.records.sessions.get('c'))?.confirmedMs).toBe(startMs);
    await at.records.sessions.end('a');
    expect(await at.records.sessions.get('a')).toBeNull();
    expect(await at.records.sessions.removeExpired(startMs + 99)).toBe(0);
    expect(await at.records.sessions.removeExpired(startMs + 100)).toBe(2);
    await at.records.sessions.create({ ...session, tokenHash: 'd' });
    await at.records.sessions.endAllOf(person.id);
    expect(await at.records.sessions.get('d')).toBeNull();
  });

  test('a set-up link works once, in time, and can be withdrawn', async () => {
    const link = { purpose: 'first-setup' as const, personId: null, expiresMs: startMs + 10 };
    for (const tokenHash of ['a', 'b', 'c']) await at.records.setupLinks.create({ ...link, tokenHash });
    expect(await at.records.setupLinks.peek('a', startMs)).toEqual({ ...link, tokenHash: 'a' });
    expect(await at.records.setupLinks.use('a', startMs)).toEqual({ ...link, tokenHash: 'a' });
    expect(await at.records.setupLinks.use('a', startMs)).toBeNull();
    expect(await at.records.setupLinks.use('b', startMs + 10)).toBeNull();
    expect(await at.records.setupLinks.peek('b', startMs + 10)).toBeNull();
    await at.records.setupLinks.removeAll('first-setup');
    expect(await at.records.setupLinks.use('c', startMs)).toBeNull();
  });

  test('a wall link opens nothing once revoked, but stays on the list', async () => {
    const { yard } = await sampleYard(at.records);
    const values = { yardId: yard.id, tokenHash: 'a', label: 'shed', createdMs: startMs, createdBy: 'marta' };
    const link = await at.records.wallLinks.create(values);
    expect(await at.records.wallLinks.byToken('a')).toEqual({ ...values, id: link.id, revokedMs: null });
    await at.records.wallLinks.revoke(link.id, startMs + 1);
    await at.records.wallLinks.revoke(link.id, startMs + 2);
    expect(await at.records.wallLinks.byToken('a')).toBeNull();
    expect(await at.records.wallLinks.list(yard.id)).toEqual([{ ...link, revokedMs: startMs + 1 }]);
    await expect(at.records.wallLinks.revoke('none', startMs)).rejects.toMatchObject({ field: 'wallLinkId' });
  });

  test('the trail is newest first and each yard sees its own', async () => {
    const { yard } = await sampleYard(at.records);
    const entry = {
      yardId: yard.id,
      atMs: startMs,
      by: 'marta',
      role: 'owner' as const,
      target: 'x',
      detail: '',
    };
    for (const action of ['first', 'second', 'third']) await at.records.audit.add({ ...entry, action });
    await at.records.audit.add({ ...entry, yardId: null, by: null, role: 'system', action: 'started' });
    const actions = (await at.records.audit.list(yard.id, 2)).map(({ action }) => action);
    expect(actions).toEqual(['third', 'second']);
    expect((await at.records.audit.list(yard.id, 1))[0]).toEqual({ ...entry, action: 'third' });
  });
}
