/**
 * The main job on the real program: a probe publishes with the stock MQTT client, a text comes out at a gateway, a
 * person answers by its link, and the alarm goes its way. Once with the built-in broker, once with a real Mosquitto.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connectAsync, type MqttClient } from 'mqtt';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type StandInPhone, startStandInPhone } from '../../services/simulator/standInPhone.ts';
import type { AlarmList, PilePage, PileView, ProbeCredential } from '../../shared/api/types.ts';
import { type ApiClient, createApiClient } from '../helpers/apiClient.ts';
import { eventually } from '../helpers/eventually.ts';
import {
  coolingDown,
  packOfCores,
  phoneNumber,
  setUpHotPile,
  throughTheCeiling,
} from '../helpers/hotPile.ts';
import { mosquittoProgram, startMosquitto } from '../helpers/mosquitto.ts';
import { describeIf } from '../helpers/requirement.ts';
import { startYardProcess, type YardProcess } from '../helpers/yardProcess.ts';

const minuteMs = 60_000;
let folder: string;
let phone: StandInPhone;
let yard: YardProcess;
let client: ApiClient;
let probe: ProbeCredential;
let pile: PileView;
let sender: MqttClient;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'tilth-spine-'));
  phone = await startStandInPhone();
});

afterEach(async () => {
  await sender?.endAsync(true);
  await yard?.stop();
  await phone.stop();
  await rm(folder, { recursive: true, force: true });
});

async function setUpYard(flags: readonly string[]): Promise<void> {
  yard = await startYardProcess(join(folder, 'data'), [
    '--sms',
    JSON.stringify({ url: phone.gatewayUrl }),
    ...flags,
  ]);
  client = createApiClient(yard.url);
  ({ pile, probe } = await setUpHotPile(client, yard.setUpToken));
}

/** Publishes core temperatures that ended `agoMinutes` ago, five minutes apart, as one buffered pack. */
async function sendCores(celsius: readonly number[], endMs: number): Promise<void> {
  await sender.publishAsync(probe.mqtt.topic, packOfCores(probe, celsius, endMs), { qos: 1 });
}

const ceiling = async () =>
  (await client.get<AlarmList>('/api/alarms?standing=false')).alarms.find(
    ({ condition }) => condition === 'too-hot-ceiling',
  );
const ceilingTexts = () => phone.texts.filter(({ text }) => text.includes('core too hot'));

async function hotCoreTextAnswerAndReturn(): Promise<void> {
  const startMs = Date.now() - 240 * minuteMs;
  await sendCores(throughTheCeiling, startMs);
  await eventually('the text about the hot core', () => ceilingTexts().length > 0, 30_000);
  const text = ceilingTexts()[0]!;
  expect(text.to).toBe(phoneNumber);
  expect(text.text).toContain('Cage 2');
  expect(text.text).toMatch(/7[23](\.\d)? C/);
  expect(text.text.length).toBeLessThanOrEqual(160);
  expect(text.text).not.toContain('\u00b0');
  expect((await ceiling())?.state).toBe('unacknowledged');

  const link = /https?:\/\/\S+\/a\/\S+/.exec(text.text)![0];
  const look = await fetch(link);
  expect(await look.text()).toContain('Cage 2');
  expect((await ceiling())?.state).toBe('unacknowledged');
  const answer = await fetch(link, { method: 'POST', headers: { origin: yard.url } });
  expect(answer.ok).toBe(true);
  expect((await ceiling())?.state).toBe('acknowledged');
  expect((await ceiling())?.acknowledgedBy).toBe('Ash');

  // Chatter across the limit, then well back under limit minus deadband.
  await sendCores([70.5, 71.5, 70.4, 71.6, 70.2, 71.4, 70.6, 71.5], startMs + 45 * minuteMs);
  await sendCores(coolingDown, startMs + 120 * minuteMs);
  await eventually('the alarm returns to normal', async () => (await ceiling())?.state === 'normal', 30_000);
  expect(ceilingTexts()).toHaveLength(1);
  const page = await client.get<PilePage>(`/api/piles/${pile.id}/page`);
  expect(
    page.messages.filter(({ text: sent }) => sent.includes('core too hot')).map(({ state }) => state),
  ).toEqual(['sent']);
  // By the clock the person answered after the pile had cooled: the readings tell of hours ago.
  const steps = page.history.filter(({ condition }) => condition === 'too-hot-ceiling').map(({ to }) => to);
  expect(steps.sort()).toEqual(['acknowledged', 'normal', 'unacknowledged']);
}

describe('from a probe to a text and back, with the built-in broker', () => {
  test('a hot core is one text; its link acknowledges; cooling ends it; chatter sends no second one', async () => {
    await setUpYard([]);
    const { probe: made, secret, mqtt } = probe;
    sender = await connectAsync(`mqtt://127.0.0.1:${yard.brokerPort}`, {
      username: made.id,
      password: secret,
      clientId: 'a-probe',
    });
    expect(mqtt.port).toBe(yard.brokerPort);
    await hotCoreTextAnswerAndReturn();
  }, 90_000);

  test('what was acknowledged survives a killed process, and the next start goes on', async () => {
    await setUpYard([]);
    const port = yard.brokerPort;
    sender = await connectAsync(`mqtt://127.0.0.1:${port}`, {
      username: probe.probe.id,
      password: probe.secret,
      reconnectPeriod: 0,
    });
    await sendCores([64, 66, 68, 70, 72, 73, 73, 73, 73, 73, 73, 73, 73], Date.now() - 30 * minuteMs);
    await yard.stop('SIGKILL');
    yard = await startYardProcess(join(folder, 'data'), ['--sms', JSON.stringify({ url: phone.gatewayUrl })]);
    expect(yard.setUpToken).toBeNull();
    await eventually('the text after the restart', () => ceilingTexts().length > 0, 30_000);
    expect(ceilingTexts()).toHaveLength(1);
  }, 90_000);
});

describeIf(mosquittoProgram !== null, 'Mosquitto is not installed (Debian package mosquitto)')(
  'from a probe to a text and back, with Mosquitto',
  () => {
    test.each(['3.1.1', '5'])(
      'the same over MQTT %s',
      async (protocol) => {
        const broker = await startMosquitto(folder);
        try {
          await setUpYard(['--broker.externalUrl', broker.url, '--broker.externalProtocol', protocol]);
          expect(yard.brokerPort).toBeNull();
          sender = await connectAsync(broker.url);
          await hotCoreTextAnswerAndReturn();
        } finally {
          await yard?.stop();
          await broker.stop();
        }
      },
      90_000,
    );
  },
);
