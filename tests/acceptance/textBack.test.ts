/**
 * Answering by text on the real program: a hot core is texted, the person texts back through the gateway's callback, the
 * alarm is acknowledged, the deed stands in the journal, and a confirmation comes.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connectAsync } from 'mqtt';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type StandInPhone, startStandInPhone } from '../../services/simulator/standInPhone.ts';
import type { AlarmList, PilePage, PileView, ProbeCredential } from '../../shared/api/types.ts';
import { type ApiClient, createApiClient } from '../helpers/apiClient.ts';
import { eventually } from '../helpers/eventually.ts';
import { startYardProcess, type YardProcess } from '../helpers/yardProcess.ts';

const phoneNumber = '+441632960123';
const secret = 'between gateway and yard';
let folder: string;
let phone: StandInPhone;
let yard: YardProcess;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'tilth-text-back-'));
  phone = await startStandInPhone();
  const sms = {
    url: phone.gatewayUrl,
    callbacks: {
      check: { kind: 'token', name: 'x-gateway', secret },
      inbound: { sender: '/from', text: '/text', reference: '/id' },
    },
  };
  yard = await startYardProcess(join(folder, 'data'), ['--sms', JSON.stringify(sms)]);
});
afterEach(async () => {
  await yard.stop();
  await phone.stop();
  await rm(folder, { recursive: true, force: true });
});

async function hotPile(client: ApiClient): Promise<PileView> {
  await client.post('/api/links/first-set-up', {
    token: yard.setUpToken,
    yard: { name: 'Gannet Row', timeZone: 'Europe/London', temperatureUnit: 'C', altitudeMetres: 3 },
    person: { name: 'Wren', login: 'wren', password: 'leaf mould and seaweed' },
  });
  const ash = { login: 'ash', name: 'Ash', role: 'keeper', phone: phoneNumber, receivesTexts: true };
  await client.post('/api/people', ash);
  const startedMs = Date.now() - 3 * 86_400_000;
  const pile = await client.post<PileView>('/api/piles', {
    ...{ name: 'Cage 2', place: 'bay 3', method: 'static-cage', startedMs },
  });
  const id = 'urn:dev:ow:28139bbb0b00001f';
  const probe = await client.post<ProbeCredential>('/api/probes', { id, label: 'probe 1' });
  const where = { quantity: 'temperature', position: 'core', depthMetres: 0.6, fromMs: startedMs };
  await client.post('/api/placements', { pileId: pile.id, channel: `${id}_core`, ...where });
  const sender = await connectAsync(`mqtt://127.0.0.1:${yard.brokerPort}`, {
    username: id,
    password: probe.secret,
  });
  const cores = [64, 66, 68, 69.5, 70.5, 72, 72.5, 73, 73, 73, 73, 73, 73, 73, 73, 73];
  const firstMs = Date.now() - (cores.length - 1) * 300_000 - 60_000;
  const pack = cores.map((v, index) => ({ n: 'core', u: 'Cel', v, t: index * 300 }));
  const records = [{ bn: `${id}_`, bt: Math.round(firstMs / 1000) }, ...pack];
  await sender.publishAsync(probe.mqtt.topic, JSON.stringify(records), { qos: 1 });
  await sender.endAsync();
  return pile;
}

const textBack = (text: string, id: string, proof = secret) =>
  fetch(`${yard.url}/gateway/inbound`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', 'x-gateway': proof },
    body: JSON.stringify({ from: phoneNumber, text, id }),
  });

const arrived = (part: string) => phone.texts.filter(({ text }) => text.includes(part));

test('a text back acknowledges, writes the deed down and is confirmed, once', async () => {
  const client = createApiClient(yard.url);
  const pile = await hotPile(client);
  await eventually('the text about the hot core', () => arrived('core too hot').length > 0, 40_000);
  const ceiling = async () =>
    (await client.get<AlarmList>('/api/alarms')).alarms.find(
      ({ condition }) => condition === 'too-hot-ceiling',
    )!;
  const { code } = await ceiling();
  expect((await textBack(`seen ${code}`, 't0', 'not the secret at all')).status).toBe(401);
  expect((await ceiling()).state).toBe('unacknowledged');

  const answer = `Done ${code.toLowerCase()}: watered!`;
  for (const _again of [1, 2]) expect((await textBack(answer, 't1')).status).toBe(200);
  expect(await ceiling()).toMatchObject({ state: 'acknowledged', acknowledgedBy: 'Ash' });
  await eventually('the confirmation', () => arrived('watered written down').length > 0);
  expect(arrived('watered written down')).toHaveLength(1);
  const page = await client.get<PilePage>(`/api/piles/${pile.id}/page`);
  expect(page.journal.filter(({ kind }) => kind === 'watered')).toMatchObject([
    { by: 'Ash', note: 'told by text' },
  ]);

  await textBack('status', 't2');
  await eventually('the status', () => arrived('with an alarm. Cage 2 73 C').length > 0);
}, 90_000);
