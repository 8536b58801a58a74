import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connectAsync } from 'mqtt';
import { type StandInPhone, startStandInPhone } from '../../../services/simulator/standInPhone.ts';
import type { AlarmList } from '../../../shared/api/types.ts';
import { type ApiClient, createApiClient } from '../../helpers/apiClient.ts';
import { eventually } from '../../helpers/eventually.ts';
import { type HotPile, packOfCores, setUpHotPile } from '../../helpers/hotPile.ts';
import { freePort } from '../../helpers/mosquitto.ts';
import { openProject, type Project, type ProjectOptions } from './compose.ts';

/** The machine that tests as containers know it: see compose.test.yaml. */
const machine = 'text-gateway.test';

export interface YardInContainers {
  readonly project: Project;
  readonly url: string;
  readonly brokerUrl: string;
  /** Plays the text gateway, on this machine, and the phone behind it. */
  readonly phone: StandInPhone;
  /** Folder of the passwords, for the full profile to make. */
  readonly secrets: string;
  remove(): Promise<void>;
}

/** Prepares a yard under compose on free ports, with its configuration in a file; nothing is started yet. */
export async function prepareYard(options: Omit<ProjectOptions, 'variables'>): Promise<YardInContainers> {
  const folder = await mkdtemp(join(tmpdir(), 'tilth-boxes-'));
  const phone = await startStandInPhone({ host: '0.0.0.0' });
  const configuration = join(folder, 'yard.yaml');
  const gateway = new URL(phone.gatewayUrl);
  gateway.hostname = machine;
  await writeFile(configuration, `sms: { url: "${gateway}" }\nlog: { level: warn }\n`, { mode: 0o644 });
  const [httpPort, mqttPort] = [await freePort(), await freePort()];
  const secrets = join(folder, 'secrets');
  const url = `http://127.0.0.1:${httpPort}`;
  const project = await openProject({
    ...options,
    variables: {
      YARD_CONFIG_FILE: configuration,
      YARD_SECRETS: secrets,
      YARD_HTTP_PORT: String(httpPort),
      YARD_MQTT_PORT: String(mqttPort),
      YARD_PUBLIC_URL: url,
    },
  });
  return {
    ...{ project, url, phone, secrets },
    brokerUrl: `mqtt://127.0.0.1:${mqttPort}`,
    async remove() {
      await project.down({ volumes: true });
      await phone.stop();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

/** Sets the yard up by the link that the log of `service` shows. */
export async function setUpByLog(
  yard: YardInContainers,
  service: string,
): Promise<HotPile & { readonly client: ApiClient }> {
  let token: string | undefined;
  await eventually(
    'the log shows the one-time link',
    async () => {
      token = /#\/set-up\/(\S+)/.exec(await yard.project.logs(service))?.[1];
      return token !== undefined;
    },
    60_000,
    500,
  );
  const client = createApiClient(yard.url);
  return { client, ...(await setUpHotPile(client, token!)) };
}

export interface Sending {
  readonly username: string;
  readonly password: string;
}

/** A probe sends core temperatures as one pack through the published port; resolves when the broker has acknowledged it. */
export async function publishCores(
  yard: YardInContainers,
  { probe }: HotPile,
  sending: Sending,
  celsius: readonly number[],
  endMs: number,
): Promise<void> {
  const sender = await connectAsync(yard.brokerUrl, { ...sending, clientId: 'a-probe', reconnectPeriod: 0 });
  const pack = packOfCores(probe, celsius, endMs);
  await sender.publishAsync(probe.mqtt.topic, pack, { qos: 1 });
  await sender.endAsync();
}

/** Texts about the hot core that reached the gateway. */
export const ceilingTexts = ({ phone }: YardInContainers) =>
  phone.texts.filter(({ text }) => text.includes('core too hot'));

/** The alarm of the hot core; undefined before there is one. */
export async function ceilingAlarm(client: ApiClient) {
  const { alarms } = await client.get<AlarmList>('/api/alarms?standing=false');
  return alarms.find(({ condition }) => condition === 'too-hot-ceiling');
}
