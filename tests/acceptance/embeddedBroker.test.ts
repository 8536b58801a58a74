import { readFileSync } from 'node:fs';
import { connectAsync, type IClientOptions } from 'mqtt';
import { afterEach, describe, expect, it } from 'vitest';
import { hasOpenssl, makeAuthority } from '../helpers/certificate.ts';
import { eventually } from '../helpers/eventually.ts';
import { describeIf } from '../helpers/requirement.ts';
import {
  firstProbe,
  readingsTopic,
  secondProbe,
  secretOf,
  startWritePath,
  temporaryFolder,
  type WritePath,
} from '../helpers/writePath.ts';

const startSeconds = Math.floor(Date.now() / 1000) - 3600;
const packOf = (number: number) =>
  JSON.stringify([
    { n: `${firstProbe}_core`, u: 'Cel', v: 60 + (number % 10) / 16, t: startSeconds + number },
  ]);

const cleanUp: (() => Promise<unknown>)[] = [];
let path: WritePath;
afterEach(async () => {
  for (const undo of cleanUp.splice(0).reverse()) await undo();
});

async function listen(config: Parameters<typeof startWritePath>[0] = {}): Promise<void> {
  path = await startWritePath(config);
  cleanUp.push(path.stop);
}

async function signIn(url: string, more: IClientOptions = {}) {
  const own = { username: firstProbe, password: secretOf(firstProbe), reconnectPeriod: 0 };
  const client = await connectAsync(url, { ...own, ...more }, false);
  cleanUp.push(() => client.endAsync(true));
  return client;
}

/** Publishes some readings and resolves when each is acknowledged, so each must be in the store. */
async function publishAndCount(url: string, more: IClientOptions = {}): Promise<number> {
  const client = await signIn(url, more);
  const sent = Array.from({ length: 200 }, (_, number) =>
    client.publishAsync(readingsTopic(firstProbe), packOf(number), { qos: 1 }),
  );
  await Promise.all(sent);
  const channel = `${firstProbe}_core`;
  return (await path.series.range({ channel, fromMs: 0, toMs: Date.now(), quality: 'all' })).length;
}

describeIf(hasOpenssl, 'openssl is not installed')(
  'the built-in broker over TLS with a private authority',
  () => {
    async function secured() {
      const folder = await temporaryFolder();
      cleanUp.push(folder.remove);
      const authority = await makeAuthority(folder.path, 'yard');
      const stranger = await makeAuthority(folder.path, 'stranger');
      await listen({ listen: { tls: await authority.issue('localhost', 'server'), webSocketPort: 0 } });
      return { ca: readFileSync(authority.caFile), otherCa: readFileSync(stranger.caFile) };
    }

    it('stores before it acknowledges, over TLS and over WebSocket with TLS', async () => {
      const { ca } = await secured();
      expect(await publishAndCount(`mqtts://localhost:${path.broker.port}`, { ca })).toBe(200);
      expect(await publishAndCount(`wss://localhost:${path.broker.webSocketPort}`, { ca })).toBe(200);
    });

    it('is not believed by a probe that trusts another authority', async () => {
      const { otherCa } = await secured();
      for (const url of [
        `mqtts://localhost:${path.broker.port}`,
        `wss://localhost:${path.broker.webSocketPort}`,
      ])
        await expect(signIn(url, { ca: otherCa })).rejects.toThrow(/certificate/);
    });

    it('speaks neither plain MQTT nor TLS 1.1 on that port', async () => {
      const { ca } = await secured();
      const plain = signIn(`mqtt://localhost:${path.broker.port}`, { connectTimeout: 2000 });
      await expect(plain).rejects.toThrow();
      const old = { ca, minVersion: 'TLSv1', maxVersion: 'TLSv1.1', ciphers: 'DEFAULT@SECLEVEL=0' } as const;
      await expect(signIn(`mqtts://localhost:${path.broker.port}`, old)).rejects.toThrow(/version|alert/i);
    });
  },
);

describe('the built-in broker over WebSocket', () => {
  const url = () => `ws://127.0.0.1:${path.broker.webSocketPort}`;

  it('is off unless it is asked for', async () => {
    await listen();
    expect(path.broker.webSocketPort).toBeNull();
  });

  it('stores before it acknowledges', async () => {
    await listen({ listen: { webSocketPort: 0 } });
    expect(await publishAndCount(url())).toBe(200);
    expect(path.broker.statistics()).toMatchObject({ connectedProbes: [firstProbe], messages: 200 });
  });

  it('lets nobody in without the right secret, and slows down who keeps guessing', async () => {
    await listen({ listen: { webSocketPort: 0 } });
    for (let tries = 0; tries < 4; tries++)
      await expect(signIn(url(), { password: 'wrong' })).rejects.toMatchObject({ code: 4 });
    await expect(signIn(url())).rejects.toMatchObject({ code: 3 });
    // A neighbour behind the same address is not held up.
    await signIn(url(), { username: secondProbe, password: secretOf(secondProbe) });
  });

  it('gathers no packet larger than allowed', async () => {
    await listen({ listen: { webSocketPort: 0 } });
    const client = await signIn(url());
    client.on('error', () => undefined);
    client.publish(readingsTopic(firstProbe), Buffer.alloc(300_000), { qos: 1 });
    await eventually('the connection is ended', () => !client.connected);
    await eventually('the broker knows', () => path.broker.statistics().connections === 0);
    expect(path.ingest.statistics().messages).toBe(0);
  });

  it('refuses a WebSocket that does not speak MQTT', async () => {
    await listen({ listen: { webSocketPort: 0 } });
    const socket = new WebSocket(url(), ['chat']);
    const opened = await new Promise((resolve) => {
      socket.onopen = () => resolve(true);
      socket.onerror = () => resolve(false);
    });
    expect(opened).toBe(false);
  });

  it('tells a browser that is sent there what this is', async () => {
    await listen({ listen: { webSocketPort: 0 } });
    const answer = await fetch(url().replace('ws:', 'http:'));
    expect([answer.status, await answer.text()]).toEqual([426, 'MQTT over WebSocket only\n']);
  });

  it('stops while a probe is connected and a stranger holds the port open', async () => {
    await listen({ listen: { webSocketPort: 0 } });
    const client = await signIn(url());
    const stranger = new WebSocket(url(), ['mqtt']);
    await new Promise((resolve) => {
      stranger.onopen = resolve;
    });
    await path.broker.stop();
    await eventually('both are gone', () => !client.connected && stranger.readyState === WebSocket.CLOSED);
    await expect(signIn(url())).rejects.toThrow(/ECONNREFUSED/);
  });

  it('listens nowhere when one of the two ports is taken', async () => {
    await listen({ listen: { webSocketPort: 0 } });
    const taken = path.broker.webSocketPort!;
    const second = startWritePath({ listen: { webSocketPort: taken } });
    await expect(second).rejects.toMatchObject({ code: 'EADDRINUSE', port: taken });
    await signIn(url());
  });
});
