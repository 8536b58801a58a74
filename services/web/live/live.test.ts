import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { startWeb, type Web } from '../startWeb.ts';
import { type EventClient, openEvents } from '../testing/eventClient.ts';
import { openTestWeb, type TestWeb, testNowMs } from '../testing/openTestWeb.ts';
import { addPlacement, reading } from '../testing/testData.ts';

let base: TestWeb;
let web: Web;
const open: EventClient[] = [];
beforeEach(async () => {
  base = await openTestWeb();
  web = await startWeb({ ...base.options, config: { ...base.options.config, publicUrl: null } });
});
afterEach(async () => {
  for (const client of open.splice(0)) client.close();
  await web.stop();
  await base.close();
});

type Who = keyof TestWeb['cookies'];

async function listen(who: Who, lastEventId = ''): Promise<EventClient> {
  const cookie = Object.entries(base.cookies[who])
    .map(([name, value]) => `${name}=${value}`)
    .join('; ');
  const resume = lastEventId === '' ? {} : { 'last-event-id': lastEventId };
  const client = await openEvents(`${web.url}/api/live`, { cookie, ...resume });
  open.push(client);
  return client;
}

const changesOf = (client: EventClient) =>
  client.events
    .filter(({ name }) => name === 'change')
    .map(({ data }) => data as { kind: string; id: string | null });

async function post(who: Who, path: string, body?: object): Promise<Response> {
  const cookie = Object.entries(base.cookies[who])
    .map(([name, value]) => `${name}=${value}`)
    .join('; ');
  const headers = { cookie, 'x-tilth-request': '1', 'content-type': 'application/json' };
  return fetch(web.url + path, { method: 'POST', headers, body: JSON.stringify(body ?? {}) });
}

const pile = (pileId: string) => ({ kind: 'pile', pileId, yardId: base.yard.id }) as const;

describe('live events', () => {
  it('need a session or a wall link', async () => {
    expect((await openEvents(`${web.url}/api/live`, {})).status).toBe(401);
    expect((await listen('wall')).status).toBe(200);
  });

  it('begin with the server’s time and the time of the newest good reading', async () => {
    const { channel } = await addPlacement(base);
    await base.series.append([reading(channel, testNowMs - 90_000, 61)]);
    const client = await listen('viewer');
    await client.until(() => client.events.some(({ name }) => name === 'tick'));
    expect(client.events[0]).toMatchObject({
      name: 'tick',
      data: { nowMs: testNowMs, dataMs: testNowMs - 90_000 },
    });
  });

  it('tell of a change once, however often it is announced in one moment', async () => {
    const client = await listen('viewer');
    web.announce([pile('a'), pile('b'), pile('a')]);
    web.announce([pile('a')]);
    await client.until(() => changesOf(client).length >= 2);
    expect(changesOf(client)).toEqual([
      { kind: 'pile', id: 'a' },
      { kind: 'pile', id: 'b' },
    ]);
  });

  it('reach each role only as far as it may fetch', async () => {
    const clients = await Promise.all(
      (['wall', 'viewer', 'keeper', 'owner'] as const).map((who) => listen(who)),
    );
    const yardId = base.yard.id;
    web.announce([
      { kind: 'people', yardId },
      { kind: 'messages', yardId },
    ]);
    web.announce([{ kind: 'probe', probeId: 'p', yardId }, pile('last')]);
    for (const client of clients) await client.until(() => changesOf(client).some(({ id }) => id === 'last'));
    const kinds = clients.map((client) =>
      changesOf(client)
        .map(({ kind }) => kind)
        .join(' '),
    );
    expect(kinds).toEqual(['pile', 'pile', 'messages probe pile', 'people messages probe pile']);
  });

  it('resume exactly where a lost link stopped', async () => {
    const first = await listen('viewer');
    web.announce([pile('a')]);
    await first.until(() => changesOf(first).length === 1);
    first.close();
    web.announce([pile('b'), { kind: 'people', yardId: base.yard.id }, pile('c')]);
    const second = await listen('viewer', first.lastEventId);
    await second.until(() => changesOf(second).length === 2);
    expect(changesOf(second).map(({ id }) => id)).toEqual(['b', 'c']);
    expect(second.events.some(({ name }) => name === 'reset')).toBe(false);
  });

  it('tell a screen that missed too much, or comes from before a restart, to fetch everything', async () => {
    const first = await listen('viewer');
    await first.until(() => first.lastEventId !== '');
    for (let i = 0; i < 2100; i += 1) web.announce([pile(`p${i}`)]);
    const late = await listen('viewer', first.lastEventId);
    await late.until(() => late.events.some(({ name }) => name === 'reset'));
    expect(changesOf(late)).toEqual([]);
    const foreign = await listen('viewer', '0123456789ab-5');
    await foreign.until(() => foreign.events.some(({ name }) => name === 'reset'));
    const back = await listen('viewer', late.lastEventId);
    web.announce([pile('next')]);
    await back.until(() => changesOf(back).length === 1);
    expect(back.events.some(({ name }) => name === 'reset')).toBe(false);
  });

  it('end at once when the wall link is revoked, and the wall stays out', async () => {
    const client = await listen('wall');
    const other = await listen('viewer');
    const [link] = await base.records.wallLinks.list(base.yard.id);
    expect((await post('owner', `/api/wall-links/${link!.id}/revoke`)).status).toBe(200);
    await client.until(() => client.ended);
    expect(client.events.at(-1)?.name).toBe('end');
    expect((await listen('wall')).status).toBe(401);
    expect(other.ended).toBe(false);
  });

  it('end when the session ends or the person is disabled', async () => {
    const [keeper, viewer] = [await listen('keeper'), await listen('viewer')];
    await post('owner', `/api/people/${base.people.keeper.id}/sign-out`);
    await keeper.until(() => keeper.ended);
    expect(viewer.ended).toBe(false);
    const headers = {
      cookie: `tilth-session=${base.cookies.owner['tilth-session']}`,
      'x-tilth-request': '1',
    };
    await fetch(`${web.url}/api/people/${base.people.viewer.id}`, {
      method: 'PATCH',
      headers: { ...headers, 'content-type': 'application/json' },
      body: '{"disabled":true}',
    });
    await viewer.until(() => viewer.ended);
  });

  it('end with the service, which does not wait for screens to go away', async () => {
    const client = await listen('viewer');
    await web.stop();
    await client.until(() => client.ended);
  });
});
