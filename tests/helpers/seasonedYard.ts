import { join } from 'node:path';
import { connectAsync } from 'mqtt';
import type { Browser } from 'playwright-core';
import type { NewJournalEntry, PileView, PlacementView, ProbeCredential } from '../../shared/api/types.ts';
import type { TemperatureUnit } from '../../shared/yard/yard.ts';
import { type ApiClient, createApiClient } from './apiClient.ts';
import { startYardProcess, type YardProcess } from './yardProcess.ts';

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;
const stepMs = 10 * 60_000;
const ageDays = 50;

const password = 'leaf mould and seaweed';

/** The real program over a yard whose cage has seven weeks behind it. */
export interface SeasonedYard {
  readonly yard: YardProcess;
  /** Signed in as the owner, Wren. */
  readonly client: ApiClient;
  /** Hot for nine days, its core touching 71 C again and again and once climbing to 75 C. */
  readonly cage: PileView;
  /** Of the same method, with limits of its own and no readings. */
  readonly sister: PileView;
  readonly startedMs: number;
}

/**
 * Core by hours after building: up in three days, hot with a touch of 71.2 C every eighteen hours, one climb to 75 C,
 * then down. Smooth, as a pile is: what jumps is not believed.
 */
export function coreAt(hours: number): number {
  if (hours < 72) return 15 + 53.5 * Math.sin((Math.PI / 2) * (hours / 72));
  if (hours >= 288) return 18 + 50.5 * Math.exp(-(hours - 288) / 240);
  const touch = 2.7 * Math.max(0, Math.cos((2 * Math.PI * ((hours % 18) - 9)) / 18)) ** 6;
  const climb = hours >= 196 && hours < 208 ? 6 * Math.sin((Math.PI * (hours - 196)) / 12) : 0;
  return 68.5 + Math.max(touch, climb) + 0.25 * Math.sin(hours * 7.3);
}

/** The edge is colder and comes to heat for five days. */
export const edgeAt = (hours: number): number =>
  hours >= 90 && hours < 260
    ? coreAt(hours) * 0.7 + 10 * Math.sin((Math.PI * (hours - 90)) / 170)
    : coreAt(hours) * 0.7;

/** Nobody heard the edge for these hours. */
export const silentHours = { from: 150, to: 156 } as const;

export async function startSeasonedYard(folder: string, unit: TemperatureUnit = 'C'): Promise<SeasonedYard> {
  const yard = await startYardProcess(join(folder, 'data'));
  const client = createApiClient(yard.url);
  await client.post('/api/links/first-set-up', {
    token: yard.setUpToken,
    yard: { name: 'Gannet Row', timeZone: 'Europe/London', temperatureUnit: unit, altitudeMetres: 3 },
    person: { name: 'Wren', login: 'wren', password },
  });
  const startedMs = Math.floor((Date.now() - ageDays * dayMs) / hourMs) * hourMs;
  const { cage, sister, credential } = await furnish(client, startedMs);
  await sendPast(yard.brokerPort!, credential, startedMs);
  return { yard, client, cage, sister, startedMs };
}

async function furnish(client: ApiClient, startedMs: number) {
  const method = 'static-cage';
  const cage = await client.post<PileView>('/api/piles', {
    name: 'Cage 2',
    place: 'north wall',
    method,
    startedMs,
  });
  const sister = await client.post<PileView>('/api/piles', {
    name: 'Cage 5',
    place: 'gate',
    method,
    startedMs,
  });
  const credential = await client.post<ProbeCredential>('/api/probes', {
    label: 'Stick 2',
    expectedIntervalSeconds: stepMs / 1000,
  });
  const { probe } = credential;
  for (const [name, position, depthMetres] of [
    ['core', 'core', 0.6],
    ['edge', 'edge', 0.15],
  ] as const)
    await client.post<PlacementView>('/api/placements', {
      ...{ pileId: cage.id, channel: `${probe.id}_${name}`, quantity: 'temperature' },
      ...{ position, depthMetres, fromMs: startedMs },
    });
  const wrote = (kind: NewJournalEntry['kind'], hours: number, note: string) =>
    client.post(`/api/piles/${cage.id}/journal`, {
      kind,
      timeMs: startedMs + hours * hourMs,
      value: null,
      note,
    });
  await wrote('watered', 130, 'dry on top');
  await wrote('channels-pulled', 300, '');
  await client.put(`/api/piles/${cage.id}/limits`, {
    expectedVersion: 0,
    overrides: { 'too-hot-ceiling': { onDelayMinutes: 0, offDelayMinutes: 0, deadbandCelsius: 0.5 } },
    reason: 'want to know at once',
  });
  await client.put('/api/calibrations', {
    ...{ channel: `${probe.id}_core`, gain: 1, offset: -0.3 },
    ...{ calibratedMs: startedMs - 5 * dayMs, dueMs: startedMs + 360 * dayMs },
  });
  return { cage, sister, credential };
}

/** Sends the past as a probe does that kept it while it had no link. */
async function sendPast(brokerPort: number, { probe, secret }: ProbeCredential, startedMs: number) {
  const url = `mqtt://127.0.0.1:${brokerPort}`;
  const sender = await connectAsync(url, { username: probe.id, password: secret });
  let records: object[] = [];
  const send = async () => {
    const pack = [{ bn: `${probe.id}_`, bu: 'Cel' }, ...records];
    records = [];
    await sender.publishAsync(probe.topic, JSON.stringify(pack), { qos: 1 });
  };
  for (let timeMs = startedMs + stepMs; timeMs < Date.now(); timeMs += stepMs) {
    const hours = (timeMs - startedMs) / hourMs;
    records.push({ n: 'core', t: timeMs / 1000, v: coreAt(hours) });
    if (hours < silentHours.from || hours >= silentHours.to)
      records.push({ n: 'edge', t: timeMs / 1000, v: edgeAt(hours) });
    if (records.length >= 400) await send();
  }
  await send();
  await sender.endAsync();
}

/** Signs Wren in and gives the cookies, so that pages start signed in. */
export async function signInSeasoned(browser: Browser, { yard }: SeasonedYard) {
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(yard.url);
  await page.getByLabel('Sign-in name').fill('wren');
  await page.getByLabel('Password').fill(password);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.getByRole('navigation', { name: 'Places' }).waitFor();
  const state = await context.storageState();
  await context.close();
  return state;
}
