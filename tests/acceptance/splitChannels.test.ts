/** Screens and sending in processes of their own: browsers subscribe, channels are looked at and tested, each once. */
import { createECDH, randomBytes } from 'node:crypto';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openRecords } from '../../services/records/openRecords.ts';
import type { Records } from '../../services/records/port.ts';
import { createSignInLink } from '../../services/web/startWeb.ts';
import type { ChannelList, ChannelTest, ChannelView, PushList } from '../../shared/api/types.ts';
import { type ApiClient, createApiClient } from '../helpers/apiClient.ts';
import { eventually } from '../helpers/eventually.ts';
import { findPostgres, postgresMissing, startPostgres } from '../helpers/postgres.ts';
import { describeIf } from '../helpers/requirement.ts';
import { type ServiceProcess, startServices } from '../helpers/serviceProcess.ts';
import { furnishYards } from '../helpers/splitYards.ts';
import { openStandInHttp } from '../helpers/standInHttp.ts';
import { decryptWebPush } from '../helpers/webPushDecrypt.ts';

let records: Records;
let gateway: Awaited<ReturnType<typeof openStandInHttp>>;
let flags: string[] = [];
let senders: ServiceProcess[] = [];
let api: ApiClient;
const cleanUp: (() => unknown)[] = [];

describeIf(findPostgres() !== null, postgresMissing)('screens in one process, sending in two others', () => {
  beforeAll(async () => {
    const postgres = await startPostgres();
    cleanUp.push(() => postgres.stop());
    const address = await postgres.createDatabase();
    const moods = { well: 200, busy: 503, 'refuses-recipient': 410, 'refuses-account': 401 };
    gateway = await openStandInHttp(moods);
    cleanUp.push(() => gateway.goAway());
    records = await openRecords({ kind: 'postgres', connectionString: address });
    cleanUp.push(() => records.close());
    const [yard] = await furnishYards(records, 1, 1);
    const webPush = { contact: 'mailto:keeper@example.org', allowPrivateAddresses: true };
    flags = [
      ...['--records.postgresUrl', address, '--series.postgresUrl', address],
      ...['--sms', JSON.stringify({ url: `http://127.0.0.1:${gateway.port}`, timeoutSeconds: 5 })],
      ...['--webPush', JSON.stringify(webPush), '--watch.outageMinutes', 'null'],
    ];
    const web = await startServices('web', flags);
    cleanUp.push(() => web.stop('SIGKILL'));
    const link = await createSignInLink(records, yard!.ownerId, { nowMs: Date.now }, web.url);
    api = createApiClient(web.url);
    await api.post('/api/links/sign-in', { token: link.split('/').at(-1) });
  }, 120_000);
  afterAll(async () => {
    await Promise.all(senders.map((sender) => sender.stop('SIGKILL')));
    for (const undo of cleanUp.reverse()) await undo();
  }, 60_000);

  it('says so while nobody sends, and reaches the channels once somebody does', {
    timeout: 180_000,
  }, async () => {
    expect(await api.get<ChannelList>('/api/channels')).toMatchObject({ channels: [], isKnown: false });
    await expect(api.post('/api/channels/sms-http/test', { address: '+441632960999' })).rejects.toThrow(
      /503.*--only notify/,
    );
    senders = await Promise.all([startServices('notify', flags), startServices('notify', flags)]);
    await eventually(
      'the senders are heard of',
      async () => (await api.get<ChannelList>('/api/channels')).isKnown,
      30_000,
    );
    const { channels } = await api.get<ChannelList>('/api/channels');
    expect(channels.map(({ channel }) => channel)).toEqual(['sms-http', 'web-push']);

    const looked = await api.post<ChannelView>('/api/channels/sms-http/check');
    expect(looked.standing).toMatchObject({ ready: true });
    expect(gateway.taken).toEqual([]);
    const test = () => api.post<ChannelTest>('/api/channels/sms-http/test', { address: '+441632960999' });
    expect(await test()).toMatchObject({ outcome: 'sent' });
    expect(gateway.taken).toHaveLength(1);
    gateway.setMood('refuses-account');
    expect(await test()).toMatchObject({ outcome: 'retry', tellOwner: true });
    gateway.setMood('well');
  });

  it('has browsers subscribe with one key, whichever process sends to them', {
    timeout: 60_000,
  }, async () => {
    const { publicKey } = await api.get<PushList>('/api/push');
    expect(publicKey).toMatch(/^[\w-]{87}$/);
    const pair = createECDH('prime256v1');
    const [p256dh, authSecret] = [pair.generateKeys('base64url'), randomBytes(16)];
    const endpoint = `http://127.0.0.1:${gateway.port}/push/1`;
    const subscription = { endpoint, keys: { p256dh, auth: authSecret.toString('base64url') } };
    const { subscriptions } = await api.post<PushList>('/api/push', { subscription });
    const keysUsed = new Set<string>();
    for (const alone of [0, 1]) {
      // Each of the two alone: what it signs with is the key the browser subscribed with.
      senders[1 - alone]!.signal('SIGSTOP');
      const taken = gateway.taken.length;
      const outcome = await api.post<ChannelTest>(`/api/push/${subscriptions[0]!.id}/test`);
      expect(outcome).toMatchObject({ outcome: 'sent' });
      const { headers, body } = gateway.taken[taken]!;
      keysUsed.add(/k=([\w-]+)/.exec(String(headers.authorization))![1]!);
      const receiver = { privateKey: pair.getPrivateKey(), authSecret };
      expect(decryptWebPush(body, receiver).toString()).toContain('this is a test');
      senders[1 - alone]!.signal('SIGCONT');
    }
    expect([...keysUsed]).toEqual([publicKey]);
  });

  it('when all who send are gone nothing is sent later behind the asker’s back', {
    timeout: 120_000,
  }, async () => {
    for (const sender of senders) sender.signal('SIGSTOP');
    const before = gateway.taken.length;
    await expect(api.post('/api/channels/sms-http/test', { address: '+441632960999' })).rejects.toThrow(
      /503/,
    );
    for (const sender of senders) sender.signal('SIGCONT');
    await new Promise((resolve) => setTimeout(resolve, 5_000));
    expect(gateway.taken).toHaveLength(before);
  });
});
