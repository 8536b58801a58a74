/**
 * How long it takes from a reading to the text at the gateway: `npm run bench texting [piles]`. A probe publishes by
 * MQTT to the whole program in this process, a fire danger without on-delay follows from it, and the gateway notes when
 * its text comes. One pile after another, each after a round of the bare way (`bareRoad.ts`), so that both meet the same
 * machine; then all that are left at one time. Aim: 99 % within 250 ms.
 */
import { randomBytes } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connectAsync } from 'mqtt';
import { pino } from 'pino';
import { hashProbeSecret } from '../../services/broker/probeCredentials.ts';
import { systemClock } from '../../services/clock.ts';
import { loadConfiguration } from '../../services/configuration/load.ts';
import { type RunningYard, startYard } from '../../services/startYard.ts';
import { eventually } from '../helpers/eventually.ts';
import { openBareRoad } from './bareRoad.ts';

const piles = Number(process.argv[2] ?? 400);
const oneByOne = Math.floor(piles * 0.75);
const warmUp = 20;
const probeId = 'urn:dev:ow:28139bbb0b00001f';
const nameOf = (number: number) => `Cage ${number}`;

/** When the text about each pile came. */
const arrivedMs = new Map<string, number>();
const gateway = createServer(async (request, response) => {
  let body = '';
  for await (const piece of request) body += piece;
  const pile = /Cage \d+/.exec(body)?.[0];
  if (pile !== undefined && body.includes('FIRE') && !arrivedMs.has(pile))
    arrivedMs.set(pile, performance.now());
  response.end('{}');
});
await new Promise<void>((resolve) => gateway.listen(0, '127.0.0.1', resolve));

async function furnish({ records }: RunningYard, secret: string): Promise<void> {
  const place = { timeZone: 'Europe/London', temperatureUnit: 'C', altitudeMetres: 3 } as const;
  const { id: yardId } = await records.yards.create({ name: 'Gannet Row', ...place });
  const person = { login: 'wren', name: 'Wren', role: 'keeper', phone: '+441632960123' } as const;
  const wishes = { receivesTexts: true, textsFrom: 'low', disabled: false } as const;
  await records.people.create({ yardId, ...person, ...wishes }, null);
  const probe = { id: probeId, yardId, label: 'probe', createdMs: Date.now(), expectedIntervalSeconds: 300 };
  await records.probes.create(probe, hashProbeSecret(secret));
  const startedMs = Date.now() - 3 * 86_400_000;
  for (let number = 0; number < piles; number += 1) {
    const kind = { place: 'bay 3', method: 'static-cage', startedMs } as const;
    const { id: pileId } = await records.piles.create({ yardId, name: nameOf(number), ...kind });
    const where = { quantity: 'temperature', position: 'core', depthMetres: 0.6 } as const;
    const channel = `${probeId}_core${number}`;
    await records.placements.create({ yardId, pileId, channel, ...where, fromMs: startedMs, toMs: null });
    const overrides = { 'too-hot-fire-danger': { onDelayMinutes: 0 } };
    const change = { pileId, overrides, reason: 'measured without delay', by: null, savedMs: startedMs };
    await records.limits.save({ ...change, expectedVersion: 0 });
  }
}

const shares = { median: 0.5, '99 % within': 0.99, worst: 1 } as const;

function at(share: number, milliseconds: readonly number[]): number {
  const sorted = milliseconds.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
}

/** Adds the processor time a round took to what its kind has taken: that a busy machine does not change much. */
async function usedBy<Kind extends string>(
  used: Record<Kind, number>,
  kind: Kind,
  round: () => Promise<number>,
): Promise<number> {
  const before = process.cpuUsage();
  const took = await round();
  const { user, system } = process.cpuUsage(before);
  used[kind] += (user + system) / 1000;
  return took;
}

function table(name: string, milliseconds: readonly number[]): void {
  const figures = Object.entries(shares).map(
    ([figure, share]) => `${figure} ${at(share, milliseconds).toFixed(0).padStart(6)} ms`,
  );
  console.log(`${name.padEnd(34)} ${figures.join('   ')}   (${milliseconds.length} rounds)`);
}

const folder = mkdtempSync(join(tmpdir(), 'tilth-texting-'));
const url = `http://127.0.0.1:${(gateway.address() as AddressInfo).port}/`;
const flags = [
  ['dataFolder', folder],
  ['http.port', '0'],
  ['broker.port', '0'],
  ['sms', JSON.stringify({ url })],
] as const;
const configuration = loadConfiguration({ file: null, environment: {}, flags });
const logger = pino({ level: 'error' });
const secret = randomBytes(16).toString('base64url');
let yard = await startYard({ configuration, clock: systemClock, logger });
const bareRoad = await openBareRoad(folder);
try {
  await furnish(yard, secret);
  // Started again, the rules know every pile; what people change in a running yard is known within seconds.
  await yard.stop();
  yard = await startYard({ configuration, clock: systemClock, logger });
  const yardId = (await yard.records.yards.list())[0]!.id;
  const options = { username: probeId, password: secret };
  const sender = await connectAsync(`mqtt://127.0.0.1:${yard.broker!.port}`, options);
  const send = (number: number) => {
    const record = { n: `${probeId}_core${number}`, u: 'Cel', v: 82.5, t: Date.now() / 1000 };
    return sender.publishAsync(`tilth/${yardId}/${probeId}/readings`, JSON.stringify([record]), { qos: 1 });
  };
  const waited = async (number: number, sentMs: number) => {
    await eventually(`the text about ${nameOf(number)}`, () => arrivedMs.has(nameOf(number)), 60_000);
    return arrivedMs.get(nameOf(number))! - sentMs;
  };

  const single: number[] = [];
  const bare: number[] = [];
  const processor = { bare: 0, ours: 0 };
  for (let number = 0; number < oneByOne; number += 1) {
    const bareMs = await usedBy(processor, 'bare', bareRoad.measure);
    const took = await usedBy(processor, 'ours', async () => {
      const sentMs = performance.now();
      await send(number);
      return waited(number, sentMs);
    });
    if (number < warmUp) continue;
    bare.push(bareMs);
    single.push(took);
  }
  table('the bare way', bare);
  table('reading to gateway, one by one', single);
  const times = Object.entries(shares).map(
    ([figure, share]) => `${figure} ${(at(share, single) / at(share, bare)).toFixed(1)} x`,
  );
  console.log(`${'against the bare way'.padEnd(34)} ${times.join('   ')}`);
  const [own, other] = [processor.ours / oneByOne, processor.bare / oneByOne].map((ms) => ms.toFixed(1));
  console.log(`${'processor time of a round'.padEnd(34)} ${own} ms, the bare way ${other} ms`);

  const sentMs = performance.now();
  const rest = Array.from({ length: piles - oneByOne }, (_, index) => oneByOne + index);
  await Promise.all(rest.map(send));
  const together: number[] = [];
  for (const number of rest) together.push(await waited(number, sentMs));
  table(`${rest.length} fires at one time, one person`, together);
  await sender.endAsync();
} finally {
  await bareRoad.close();
  await yard.stop();
  gateway.close();
  rmSync(folder, { recursive: true, force: true });
}
