import { createECDH, randomBytes } from 'node:crypto';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterEach, describe, expect, it } from 'vitest';
import { openStandInHttp } from '../../../tests/helpers/standInHttp.ts';
import { decryptWebPush } from '../../../tests/helpers/webPushDecrypt.ts';
import { openChannelDesk } from '../../notify/channelDesk.ts';
import { openChannels } from '../../notify/openChannels.ts';
import { smsGatewaySchema } from '../../notify/port.ts';
import { webPushSchema } from '../../notify/webPush/settings.ts';
import { openTestWeb, type TestWeb, testNowMs } from '../testing/openTestWeb.ts';

let web: TestWeb;
const closing: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  await web.close();
  for (const close of closing.splice(0)) await close();
});

/** A web service whose channels are real ones, over a gateway that stands in. */
async function open() {
  const gateway = await openStandInHttp({
    well: 200,
    busy: 503,
    'refuses-recipient': 410,
    'refuses-account': 401,
  });
  const folder = await mkdtemp(join(tmpdir(), 'tilth-channels-'));
  const url = `http://127.0.0.1:${gateway.port}`;
  const sms = smsGatewaySchema.parse({ url, timeoutSeconds: 2 });
  const webPush = webPushSchema.parse({
    ...{ contact: 'mailto:keeper@example.org', allowPrivateAddresses: true },
  });
  const logger = pino({ level: 'silent' });
  const nowMs = () => testNowMs;
  const sink = { onText: async () => {}, onReport: async () => {} };
  const channels = await openChannels({
    ...{ dataFolder: folder, sink, nowMs, logger },
    configuration: { sms, webPush, modem: null, email: null, webhook: null },
  });
  const desk = openChannelDesk({ channels, clock: { nowMs }, logger });
  closing.push(desk.stop, gateway.goAway, () => rm(folder, { recursive: true }));
  web = await openTestWeb({}, { channels: desk });
  return { gateway, url };
}
const call = (
  who: 'viewer' | 'keeper' | 'owner',
  method: 'GET' | 'POST' | 'DELETE',
  url: string,
  body?: object,
) => web.call(who, method, url, body);

describe('the ways messages leave by', () => {
  it('are listed, looked at without sending, and tried with what the other side says', async () => {
    const { gateway } = await open();
    expect((await call('keeper', 'GET', '/api/channels')).json()).toEqual({
      channels: [
        { channel: 'sms-http', standing: null, lastSent: null, lastFailed: null },
        { channel: 'web-push', standing: null, lastSent: null, lastFailed: null },
      ],
      ...{ textChannel: 'sms-http', isKnown: true },
    });
    const looked = (await call('owner', 'POST', '/api/channels/sms-http/check')).json();
    expect(looked).toMatchObject({ channel: 'sms-http', standing: { ready: true } });
    expect(gateway.taken).toEqual([]);

    const test = (body: object) => call('owner', 'POST', '/api/channels/sms-http/test', body);
    const sent = (await test({ personId: web.people.keeper.id })).json();
    expect(sent).toMatchObject({ outcome: 'sent', tellOwner: false });
    expect(JSON.parse(gateway.taken[0]!.body.toString())).toMatchObject({ to: web.people.keeper.phone });

    gateway.setMood('refuses-account');
    expect((await test({ address: '+441632960999' })).json()).toMatchObject({
      outcome: 'retry',
      tellOwner: true,
    });
    const { channels } = (await call('keeper', 'GET', '/api/channels')).json();
    expect(channels[0].standing).toMatchObject({ ready: false, tellOwner: true });
    const trail = (await call('owner', 'GET', '/api/audit')).json();
    expect(trail[0]).toMatchObject({ action: 'sent a test by sms-http' });
  });

  it('refuse a test to nobody, to both, and by one that is not set up', async () => {
    await open();
    const test = async (channel: string, body: object) =>
      (await call('owner', 'POST', `/api/channels/${channel}/test`, body)).statusCode;
    expect(await test('sms-http', {})).toBe(400);
    expect(await test('sms-http', { personId: web.people.keeper.id, address: '+441632960999' })).toBe(400);
    expect(await test('sms-http', { personId: 'none-such' })).toBe(404);
    expect(await test('web-push', { personId: web.people.keeper.id })).toBe(400);
    expect(await test('email', { address: 'ann@example.org' })).toBe(404);
  });

  it('are not known, and no test is promised, while no process sends', async () => {
    web = await openTestWeb();
    const test = await call('owner', 'POST', '/api/channels/sms-http/test', { address: '+441632960999' });
    expect(test.statusCode).toBe(503);
    expect(test.json().detail).toContain('--only notify');
    expect((await call('owner', 'POST', '/api/channels/sms-http/check')).statusCode).toBe(503);
    const list = (await call('keeper', 'GET', '/api/channels')).json();
    expect(list).toMatchObject({ channels: [], isKnown: false });
  });
});

describe('a browser that wants to be told', () => {
  it('subscribes, is reached, sees only its own, and ends it', async () => {
    const { gateway, url } = await open();
    const pair = createECDH('prime256v1');
    const [p256dh, authSecret] = [pair.generateKeys('base64url'), randomBytes(16)];
    const keys = { p256dh, auth: authSecret.toString('base64url') };
    const subscription = { endpoint: `${url}/push/1`, expirationTime: null, keys };
    expect((await call('viewer', 'GET', '/api/push')).json().publicKey).toMatch(/^[\w-]{87}$/);
    for (const toldFrom of ['high', 'low'])
      expect((await call('viewer', 'POST', '/api/push', { subscription, toldFrom })).statusCode).toBe(200);
    const { subscriptions } = (await call('viewer', 'GET', '/api/push')).json();
    expect(subscriptions).toMatchObject([{ endpoint: subscription.endpoint, toldFrom: 'low', goneMs: null }]);
    expect((await call('keeper', 'GET', '/api/push')).json().subscriptions).toEqual([]);

    const personId = web.people.viewer.id;
    const sent = await call('owner', 'POST', '/api/channels/web-push/test', { personId });
    expect(sent.json()).toMatchObject({ outcome: 'sent' });
    const receiver = { privateKey: pair.getPrivateKey(), authSecret };
    expect(decryptWebPush(gateway.taken[0]!.body, receiver).toString()).toContain('this is a test');

    const own = `/api/push/${subscriptions[0].id}/test`;
    expect((await call('viewer', 'POST', own)).json()).toMatchObject({ outcome: 'sent' });
    expect((await call('keeper', 'POST', own)).statusCode).toBe(404);
    for (let more = 0; more < 5; more += 1) await call('viewer', 'POST', own);
    expect((await call('viewer', 'POST', own)).statusCode).toBe(429);

    const gone = `/api/push/${subscriptions[0].id}`;
    expect((await call('keeper', 'DELETE', gone)).statusCode).toBe(404);
    expect((await call('viewer', 'DELETE', gone)).statusCode).toBe(200);
    expect((await call('viewer', 'GET', '/api/push')).json().subscriptions).toEqual([]);
  });

  it('moved by its push service, is told from the same urgency on at its new address alone', async () => {
    const { url } = await open();
    const keys = {
      p256dh: createECDH('prime256v1').generateKeys('base64url'),
      auth: 'AAAAAAAAAAAAAAAAAAAAAA',
    };
    const [old, moved] = [`${url}/push/old`, `${url}/push/new`];
    const post = (body: object) => call('viewer', 'POST', '/api/push', body);
    await post({ subscription: { endpoint: old, keys }, toldFrom: 'low' });
    const { subscriptions } = (await post({ subscription: { endpoint: moved, keys }, replaces: old })).json();
    expect(subscriptions).toMatchObject([{ endpoint: moved, toldFrom: 'low' }]);
  });

  it('is refused where web push is not set up', async () => {
    web = await openTestWeb();
    const subscription = { endpoint: 'https://push.example/1', keys: { p256dh: 'abc', auth: 'abc' } };
    expect((await call('viewer', 'POST', '/api/push', { subscription })).statusCode).toBe(409);
    expect((await call('viewer', 'GET', '/api/push')).json()).toEqual({ publicKey: null, subscriptions: [] });
  });
});
