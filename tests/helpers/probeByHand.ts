import { connectAsync, type MqttClient } from 'mqtt';
import type { Page } from 'playwright-core';

/** What the page of a new probe says to put into it. */
export interface ShownCredential {
  readonly port: number;
  readonly user: string;
  readonly password: string;
  readonly topic: string;
}

/** Reads a credential off the page, as a person would to type it into a probe. */
export async function readCredential(page: Page): Promise<ShownCredential> {
  const detail = async (term: string) =>
    (await page.locator(`.credential dt:text-is("${term}") + dd`).textContent())!.trim();
  return {
    port: Number(/port (\d+)/.exec(await detail('Broker'))![1]),
    user: await detail('User'),
    password: await detail('Password'),
    topic: await detail('Topic'),
  };
}

/** A probe that sends what it is told to, over real MQTT with QoS 1. */
export interface ProbeByHand {
  /** Sends one pack; resolves when the broker has acknowledged it. */
  send(values: Readonly<Record<string, number>>): Promise<void>;
  /** Sends these very bytes. */
  sendRaw(payload: string): Promise<void>;
  stop(): Promise<void>;
}

/** Signs in as the probe; rejects when it is refused. */
export async function startProbe({ port, user, password, topic }: ShownCredential): Promise<ProbeByHand> {
  const client: MqttClient = await connectAsync(`mqtt://127.0.0.1:${port}`, {
    ...{ username: user, password, reconnectPeriod: 0, connectTimeout: 5000 },
  });
  client.on('error', () => {});
  const sendRaw = async (payload: string) => {
    await client.publishAsync(topic, payload, { qos: 1 });
  };
  return {
    sendRaw,
    send: (values) => sendRaw(JSON.stringify(packOf(user, values))),
    stop: () => client.endAsync(true),
  };
}

/** Units by what a channel is called; a channel with no such name is a temperature. */
const units: Readonly<Record<string, string>> = { moisture: '/', battery: '%EL', signal: 'dBW' };

function packOf(user: string, values: Readonly<Record<string, number>>): object[] {
  return Object.entries(values).map(([n, v], index) => ({
    ...(index === 0 ? { bn: `${user}_` } : {}),
    ...{ n, u: units[n] ?? 'Cel', v },
  }));
}
