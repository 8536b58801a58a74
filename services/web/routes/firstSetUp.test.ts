import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openRecords } from '../../records/openRecords.ts';
import type { Records } from '../../records/port.ts';
import { createSignInLink, ensureFirstSetup, prepareWeb } from '../startWeb.ts';
import { openTestWeb, type TestWeb } from '../testing/openTestWeb.ts';

let records: Records;
let folder: string;
let other: TestWeb;
let app: Awaited<ReturnType<typeof prepareWeb>>['app'];

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'web-setup-'));
  records = await openRecords({ kind: 'sqlite', file: join(folder, 'records.db') });
  other = await openTestWeb();
  ({ app } = await prepareWeb({ ...other.options, records }));
});
afterEach(async () => {
  await app.close();
  await records.close();
  await other.close();
  await rm(folder, { recursive: true, force: true });
});

const post = (url: string, payload: object) =>
  app.inject({ method: 'POST', url, payload, headers: { 'x-tilth-request': '1' } });

const setUp = (token: string) => ({
  token,
  yard: { name: 'Saltmarsh', timeZone: 'Europe/Oslo', temperatureUnit: 'C', altitudeMetres: 3 },
  person: { login: 'ann', name: 'Ann', password: 'ten tall heaps steam' },
});

const tokenNow = async () =>
  (await ensureFirstSetup(records, other.clock, 'http://yard.example'))!.split('/').pop()!;

describe('a first start', () => {
  it('has no account at all until the printed link is used, then one owner and the yard', async () => {
    expect((await app.inject('/api/session')).json()).toMatchObject({ kind: 'none', firstSetUpNeeded: true });
    const response = await post('/api/links/first-set-up', setUp(await tokenNow()));
    expect(response.json()).toMatchObject({
      kind: 'person',
      person: { role: 'owner', login: 'ann' },
      yard: { name: 'Saltmarsh', timeZone: 'Europe/Oslo' },
      firstSetUpNeeded: false,
    });
    expect(await ensureFirstSetup(records, other.clock, 'http://yard.example')).toBeNull();
  });

  it('prints a link of 256 bits whose secret is not in what is sent to a server', async () => {
    const url = (await ensureFirstSetup(records, other.clock, 'http://yard.example'))!;
    const { hash, pathname, search } = new URL(url);
    expect(Buffer.from(hash.split('/').pop()!, 'base64url')).toHaveLength(32);
    expect(pathname + search).toBe('/');
  });

  it('makes the link printed before useless', async () => {
    const old = await tokenNow();
    await tokenNow();
    expect((await post('/api/links/first-set-up', setUp(old))).statusCode).toBe(410);
  });

  it('lets one of two through who use the link at the same moment', async () => {
    const token = await tokenNow();
    const second = { ...setUp(token), person: { ...setUp(token).person, login: 'bea' } };
    const both = await Promise.all([
      post('/api/links/first-set-up', setUp(token)),
      post('/api/links/first-set-up', second),
    ]);
    expect(both.map(({ statusCode }) => statusCode).sort()).toEqual([200, 410]);
    expect(await records.people.count()).toBe(1);
  });

  it('refuses the link after a day', async () => {
    const token = await tokenNow();
    other.clock.ms += 24 * 3_600_000;
    expect((await post('/api/links/first-set-up', setUp(token))).statusCode).toBe(410);
  });

  it('refuses a time zone that does not exist, and keeps the link good', async () => {
    const token = await tokenNow();
    const wrong = { ...setUp(token), yard: { ...setUp(token).yard, timeZone: 'Atlantis/Reef' } };
    const response = await post('/api/links/first-set-up', wrong);
    expect(response.json().errors[0]).toMatchObject({ pointer: '#/yard/timeZone' });
    expect((await post('/api/links/first-set-up', setUp(token))).statusCode).toBe(200);
  });

  it('takes a yard that is there already instead of making a second one', async () => {
    await records.yards.create({ name: 'Old', timeZone: 'UTC', temperatureUnit: 'F', altitudeMetres: 0 });
    await post('/api/links/first-set-up', setUp(await tokenNow()));
    expect((await records.yards.list()).map(({ name }) => name)).toEqual(['Saltmarsh']);
  });
});

describe('the demo’s sign-in link', () => {
  it('signs its person in once', async () => {
    await post('/api/links/first-set-up', setUp(await tokenNow()));
    const ann = (await records.people.byLogin('ann'))!;
    const url = await createSignInLink(records, ann.id, other.clock, 'http://yard.example');
    const token = url.split('/').pop()!;
    expect((await post('/api/links/sign-in', { token })).json()).toMatchObject({ person: { login: 'ann' } });
    expect((await post('/api/links/sign-in', { token })).statusCode).toBe(410);
  });
});
