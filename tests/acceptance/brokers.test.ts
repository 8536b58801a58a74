/** A real Mosquitto of the yard's own in the ways an operator may run it: TLS, WebSocket, sign-in, certificates. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { connectAsync, type IClientOptions } from 'mqtt';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { systemClock } from '../../services/clock.ts';
import { type MqttSourceOptions, startMqttSource } from '../../services/ingest/mqttSource.ts';
import { hasOpenssl, makeAuthority } from '../helpers/certificate.ts';
import { eventually } from '../helpers/eventually.ts';
import { freePort, mosquittoProgram, startMosquitto } from '../helpers/mosquitto.ts';
import { describeIf, firstExisting } from '../helpers/requirement.ts';
import { firstProbe, readingsTopic, startIngest, temporaryFolder } from '../helpers/writePath.ts';

const passwordProgram = firstExisting(['/usr/bin/mosquitto_passwd', '/usr/local/bin/mosquitto_passwd']);
const channel = `${firstProbe}_core`;
const startMs = Math.floor(Date.now() / 1000) * 1000 - 4 * 3_600_000;
const packOf = (number: number) =>
  JSON.stringify([{ n: channel, u: 'Cel', v: 60 + (number % 10) / 16, t: startMs / 1000 + number }]);

/** How the broker runs, how we and a probe go in, and what must keep a stranger out. */
interface Way {
  readonly lines: readonly string[];
  readonly scheme: 'mqtt' | 'mqtts' | 'ws' | 'wss';
  /** Port of the listener meant, where it is not the first one. */
  readonly port?: number;
  readonly config: Partial<MqttSourceOptions['config']>;
  readonly probe: IClientOptions;
  /** The same with one thing wrong. */
  readonly stranger: Partial<MqttSourceOptions['config']>;
}

async function overTls(folder: string): Promise<Way> {
  const authority = await makeAuthority(folder, 'yard');
  const other = await makeAuthority(folder, 'other');
  const server = await authority.issue('localhost', 'server');
  return {
    lines: [`certfile ${server.certificateFile}`, `keyfile ${server.keyFile}`],
    scheme: 'mqtts',
    config: { caFile: authority.caFile },
    probe: { ca: readFileSync(authority.caFile) },
    stranger: { caFile: other.caFile },
  };
}

async function withClientCertificates(folder: string): Promise<Way> {
  const way = await overTls(folder);
  const authority = await makeAuthority(folder, 'clients');
  const own = await authority.issue('tilthwatch', 'client');
  const probe = await authority.issue('probe', 'client');
  const stranger = await (await makeAuthority(folder, 'strangers')).issue('tilthwatch', 'client');
  return {
    ...way,
    lines: [
      ...way.lines,
      `cafile ${authority.caFile}`,
      'require_certificate true',
      'use_identity_as_username true',
    ],
    config: { ...way.config, ...own },
    probe: { ...way.probe, cert: readFileSync(probe.certificateFile), key: readFileSync(probe.keyFile) },
    stranger: { ...way.config, ...stranger },
  };
}

async function withPasswords(folder: string): Promise<Way> {
  const file = join(folder, 'passwords');
  execFileSync(passwordProgram!, ['-c', '-b', file, 'tilthwatch', 'a long secret']);
  execFileSync(passwordProgram!, ['-b', file, 'probe', 'another secret']);
  return {
    lines: [`password_file ${file}`],
    scheme: 'mqtt',
    config: { user: 'tilthwatch', password: 'a long secret' },
    probe: { username: 'probe', password: 'another secret' },
    stranger: { user: 'tilthwatch', password: 'guessed' },
  };
}

async function overWebSocket(folder: string): Promise<Way> {
  const way = await withPasswords(folder);
  const port = await freePort();
  return {
    ...way,
    scheme: 'ws',
    port,
    lines: [...way.lines, `listener ${port} 127.0.0.1`, 'protocol websockets'],
  };
}

async function overSecureWebSocket(folder: string): Promise<Way> {
  const { lines, ...way } = await overTls(folder);
  const port = await freePort();
  return {
    ...way,
    scheme: 'wss',
    port,
    lines: [`listener ${port} 127.0.0.1`, 'protocol websockets', ...lines],
  };
}

const ways: readonly [string, (folder: string) => Promise<Way>][] = [
  ['over TLS with a private authority', overTls],
  ['over TLS with client certificates', withClientCertificates],
  ['with user name and password', withPasswords],
  ['over WebSocket', overWebSocket],
  ['over WebSocket with TLS', overSecureWebSocket],
];

const available = mosquittoProgram !== null && hasOpenssl && passwordProgram !== null;
describeIf(available, 'mosquitto, mosquitto_passwd or openssl is not installed')('Mosquitto', () => {
  const cleanUp: (() => Promise<unknown>)[] = [];
  let folder: string;
  let path: Awaited<ReturnType<typeof startIngest>>;
  const warnings: string[] = [];
  const logger = {
    info: () => {},
    warn: (fields: object, text?: string) =>
      void warnings.push(`${text} ${String((fields as { err?: Error }).err)}`),
    error: () => {},
  };

  beforeEach(async () => {
    warnings.length = 0;
    const made = await temporaryFolder();
    cleanUp.push(made.remove);
    folder = made.path;
    path = await startIngest();
    cleanUp.push(path.stop);
  });
  afterEach(async () => {
    for (const undo of cleanUp.splice(0).reverse()) await undo();
  });

  async function startSource(url: string, change: Partial<MqttSourceOptions['config']>) {
    const base = { url, user: null, password: null, protocol: '5', clientId: 'tilthwatch-test' } as const;
    const source = startMqttSource({
      config: { ...base, reconnectMilliseconds: 100, ...change },
      ...{ mappedFilters: [], ingest: path.ingest, clock: systemClock, logger },
    });
    let isStopped = false;
    const stop = async () => {
      if (!isStopped) await source.stop();
      isStopped = true;
    };
    cleanUp.push(stop);
    return { ...source, stop };
  }
  const storedCount = async () =>
    (await path.series.range({ channel, fromMs: 0, toMs: 2 * startMs, quality: 'all' })).length;

  it.each(ways)(
    '%s: every reading arrives once, also those sent while we are away; a stranger stays out',
    async (_name, makeWay) => {
      const way = await makeWay(folder);
      const broker = await startMosquitto(folder, { lines: way.lines });
      cleanUp.push(() => broker.stop());
      const url = `${way.scheme}://localhost:${way.port ?? broker.port}`;
      const source = await startSource(url, way.config);
      await eventually('we are connected', () => source.isConnected());
      const probe = await connectAsync(url, { ...way.probe, reconnectPeriod: 0 }, false);
      cleanUp.push(() => probe.endAsync(true));
      const publish = (first: number, count: number) =>
        Promise.all(
          Array.from({ length: count }, (_, index) =>
            probe.publishAsync(readingsTopic(firstProbe), packOf(first + index), { qos: 1 }),
          ),
        );
      await publish(0, 500);
      await eventually('all are stored', async () => (await storedCount()) === 500);
      await source.stop();
      await publish(500, 500);
      expect(await storedCount()).toBe(500);
      const again = await startSource(url, way.config);
      await eventually('those too', async () => (await storedCount()) === 1000);
      expect(path.ingest.statistics()).toMatchObject({ messages: 1000, duplicates: 0 });
      await again.stop();
      const stranger = await startSource(url, { ...way.stranger, clientId: 'stranger' });
      await eventually('the stranger was refused', () =>
        warnings.some((line) => /MQTT broker .*Error/.test(line)),
      );
      expect(stranger.isConnected()).toBe(false);
    },
    60_000,
  );
});
