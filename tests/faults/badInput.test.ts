import { connect as connectSocket } from 'node:net';
import { connectAsync, type MqttClient } from 'mqtt';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { eventually } from '../helpers/eventually.ts';
import { noteFault } from '../helpers/faultTable.ts';
import {
  firstProbe,
  readingsTopic,
  secondProbe,
  secretOf,
  startWritePath,
  type WritePath,
} from '../helpers/writePath.ts';

const own = readingsTopic(firstProbe);
let secondsAgo = 100_000;
/** A pack of the given probe with a time of its own. */
function packOf(probe: string): string {
  secondsAgo -= 60;
  const bt = Math.floor(Date.now() / 1000) - secondsAgo;
  return JSON.stringify([{ bn: `${probe}_`, bt, n: 'core', u: 'Cel', v: 60 }]);
}

describe('bad input at the embedded broker', () => {
  let path: WritePath;
  let neighbour: MqttClient;
  const clients: MqttClient[] = [];

  const signIn = async (probe: string, options: Parameters<typeof connectAsync>[1] = {}) => {
    const client = await connectAsync(
      path.url,
      { username: probe, password: secretOf(probe), reconnectPeriod: 0, ...options },
      false,
    );
    client.on('error', () => undefined);
    clients.push(client);
    return client;
  };
  const closed = (client: MqttClient) => eventually('the connection is closed', () => !client.connected);
  /** That the neighbour is served as before is checked after each test. */
  const seenBad = (fault: string, expected: string) =>
    noteFault({
      fault,
      expected: `${expected}; other probes undisturbed`,
      seen: 'as expected; the neighbour’s next reading stored and acknowledged',
    });
  const reasons = () => path.records.items.map(({ reason }) => reason);

  beforeAll(async () => {
    path = await startWritePath();
    neighbour = await signIn(secondProbe);
    clients.pop();
  });
  // Whatever one probe did, its neighbour stayed connected and its next reading is stored and acknowledged.
  afterEach(async () => {
    const { readingsStored } = path.ingest.statistics();
    await neighbour.publishAsync(readingsTopic(secondProbe), packOf(secondProbe), { qos: 1 });
    expect(path.ingest.statistics().readingsStored).toBe(readingsStored + 1);
    for (const client of clients.splice(0)) await client.endAsync(true);
    path.records.items.length = 0;
  });
  afterAll(async () => {
    await neighbour.endAsync(true);
    await path.stop();
  });

  it('refuses a payload of 4 MB by its announced length, without gathering it', async () => {
    const client = await signIn(firstProbe);
    client.publish(own, Buffer.alloc(4 * 1024 * 1024, 'x'), { qos: 1 });
    await closed(client);
    await eventually('it is in quarantine', () => path.records.items.length === 1);
    expect(path.records.items[0]).toMatchObject({ probe: firstProbe, payloadBytes: expect.any(Number) });
    expect(reasons()[0]).toMatch(/packet of 41943\d\d bytes; allowed: at most 26\d{4} bytes/);
    seenBad('a payload of 4 MB', 'refused by its announced length, kept for a person to look at');
  });

  it('refuses a stranger who announces a huge packet', async () => {
    const socket = connectSocket(path.broker.port, '127.0.0.1');
    socket.on('error', () => undefined);
    // CONNECT with a remaining length of 268,435,455 and nothing behind it.
    socket.write(Buffer.from('10ffffff7f', 'hex'));
    await eventually('the socket is closed', () => socket.closed);
    seenBad('a stranger who announces a packet of 268 MB', 'cut off before it is gathered');
  });

  it.each([
    ['truncated CBOR', Buffer.from('81a3006161', 'hex'), /CBOR/],
    ['NaN in CBOR', Buffer.from('81a300653a78785f61016343656c02f97e00', 'hex'), /finite/],
    ['NaN in JSON', Buffer.from('[{"n":"a","u":"Cel","v":NaN}]'), /JSON/],
    ['an empty payload', Buffer.alloc(0), /empty payload/],
    [
      'a year-9999 time',
      Buffer.from(JSON.stringify([{ n: `${firstProbe}_core`, u: 'Cel', v: 1, t: 253370764800 }])),
      /9999/,
    ],
    ['the name of another probe', Buffer.from(packOf(secondProbe)), /does not belong to probe/],
  ])('acknowledges %s, keeps it in quarantine and stores nothing of it', async (name, payload, reason) => {
    const client = await signIn(firstProbe);
    const before = path.ingest.statistics().readingsStored;
    await client.publishAsync(own, payload, { qos: 1 });
    expect(reasons()).toEqual([expect.stringMatching(reason)]);
    expect(path.records.items[0]).toMatchObject({ topic: own, probe: firstProbe });
    expect(path.ingest.statistics().readingsStored).toBe(before);
    expect(client.connected).toBe(true);
    seenBad(name, 'acknowledged, kept for a person to look at, nothing of it stored');
  });

  it('closes the connection of a probe that publishes under the topic of another', async () => {
    const client = await signIn(firstProbe);
    client.publish(readingsTopic(secondProbe), packOf(secondProbe), { qos: 1 });
    await closed(client);
    expect(reasons()[0]).toMatch(/may not publish to.*allowed: tilth\/gannet-row\//);
    seenBad('a probe that publishes under the topic of another', 'disconnected, the message kept to look at');
  });

  it('refuses a wrong secret, an unknown probe and nobody at all alike', async () => {
    const refused = /bad username or password/i;
    await expect(signIn(firstProbe, { password: 'wrong' })).rejects.toThrow(refused);
    await expect(signIn('urn:dev:example:stranger')).rejects.toThrow(refused);
    await expect(connectAsync(path.url, { reconnectPeriod: 0 }, false)).rejects.toThrow(refused);
  });

  it('makes one who keeps guessing wait, and only that one', async () => {
    const probe = 'urn:dev:example:guessed';
    path.records.addProbe(probe, secretOf(probe));
    const guess = () => signIn(probe, { password: 'wrong' });
    for (let count = 0; count < 4; count++) await expect(guess()).rejects.toThrow(/bad username/i);
    await expect(guess()).rejects.toThrow(/unavailable/i);
    seenBad('somebody who guesses secrets', 'has to wait after four tries; others do not');
  });

  it('gives no subscription to anybody', async () => {
    const granted = await neighbour
      .subscribeAsync('tilth/#', { qos: 1 })
      .catch((error: Error) => error.message);
    expect(JSON.stringify(granted)).toMatch(/128|Unspecified error/);
  });

  it('ends the connection of a probe whose credential is revoked, and does not let it back in', async () => {
    const probe = 'urn:dev:example:leaver';
    path.records.addProbe(probe, secretOf(probe));
    const client = await signIn(probe);
    expect(path.broker.statistics().connectedProbes).toEqual([secondProbe, probe].sort());
    path.records.revoke(probe);
    path.broker.disconnectProbe(probe);
    await closed(client);
    await expect(signIn(probe)).rejects.toThrow(/bad username/i);
  });

  it('does not let a probe throw another out by using its client id', async () => {
    path.records.addProbe('urn:dev:example:other', 'x');
    const one = await signIn('urn:dev:example:other', { password: 'x', clientId: 'same' });
    const probe = 'urn:dev:example:third';
    path.records.addProbe(probe, secretOf(probe));
    await signIn(probe, { clientId: 'same' });
    await one.publishAsync(readingsTopic('urn:dev:example:other'), packOf('urn:dev:example:other'), {
      qos: 1,
    });
    expect(one.connected).toBe(true);
  });
});
