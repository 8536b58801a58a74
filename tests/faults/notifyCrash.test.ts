/**
 * The notifier is killed at every step of sending, each time in the middle of several messages. No message is lost; a
 * gateway that honours the key shows each once; what another one shows twice is counted and named.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { DeliveryPoint } from '../../services/notify/deliver.ts';
import { eventually } from '../helpers/eventually.ts';
import { noteFault } from '../helpers/faultTable.ts';
import type { NotifyProcessPlan } from '../helpers/notifyProcess.ts';
import { type OutboxRig, openOutboxRig } from '../helpers/outboxRig.ts';

const program = fileURLToPath(new URL('../helpers/notifyProcess.ts', import.meta.url));
const people = 4;
const textsEach = 3;
/** Longer than a busy machine holds up a living notifier: what it holds must not lapse. */
const leaseMs = 5_000;
let rig: OutboxRig;
let gateway: Awaited<ReturnType<typeof openGateway>>;
let child: ChildProcess | null = null;

beforeEach(async () => {
  rig = await openOutboxRig();
  rig.clock.ms = Date.now();
  gateway = await openGateway();
});
afterEach(async () => {
  child?.kill('SIGKILL');
  await gateway.close();
  await rig.close();
});

/** Takes every text and remembers under which key it came; may kill the notifier before it answers. */
async function openGateway() {
  const taken: string[] = [];
  const plan = { killAtText: 0 };
  const server = createServer(async (request, response) => {
    if (request.method !== 'POST') return void response.end();
    let body = '';
    for await (const piece of request) body += piece;
    taken.push((JSON.parse(body) as { id: string }).id);
    if (taken.length === plan.killAtText) child?.kill('SIGKILL');
    else response.end('{}');
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/send`;
  return {
    ...{ taken, plan, url },
    close: () => {
      server.closeAllConnections();
      return new Promise((resolve) => server.close(resolve));
    },
  };
}

/** Runs the notifier until it has killed itself, been killed, or, unharmed, emptied the outbox. */
async function run(killAt: DeliveryPoint | null, nth: number): Promise<NodeJS.Signals | null> {
  const plan: NotifyProcessPlan = {
    records: rig.options,
    gatewayUrl: gateway.url,
    leaseMs,
    killAt,
    nth,
  };
  child = spawn(process.execPath, [program, JSON.stringify(plan)], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  const gone = once(child, 'exit');
  if (killAt === null && gateway.plan.killAtText === 0) {
    await eventually('the outbox is empty', isEmpty, 60_000);
    child.kill('SIGTERM');
  }
  const [, signal] = await gone;
  return signal;
}

async function isEmpty(): Promise<boolean> {
  const { counts } = await rig.records.messages.standing();
  return counts.waiting + counts.sending === 0;
}

async function queueTexts(): Promise<Set<string>> {
  for (let number = 0; number < people; number += 1) {
    const person = await rig.person(`person${number}`);
    for (let text = 0; text < textsEach; text += 1) await rig.text(person, await rig.alarm());
  }
  const written = await rig.records.messages.list(rig.yard.id, 100);
  return new Set(written.map(({ idempotencyKey }) => idempotencyKey));
}

/** Keys the gateway got more than once, and messages of which the records say so. */
async function doubles() {
  const times = Map.groupBy(gateway.taken, (key) => key);
  const real = [...times].filter(([, got]) => got.length > 1).map(([key]) => key);
  const all = await rig.records.messages.list(rig.yard.id, 100);
  const inDoubt = all.filter(({ maybeSent }) => maybeSent > 0).map(({ idempotencyKey }) => idempotencyKey);
  return { real, inDoubt };
}

const cases: readonly (readonly [string, DeliveryPoint | 'gateway', number])[] = [
  ['after the claim', 'claimed', 0],
  ['before it leaves', 'begun', 0],
  ['when the gateway has taken it and not yet answered', 'gateway', 1],
  ['after the answer, before it is written down', 'answered', 1],
  ['after it is written down', 'recorded', 0],
];

describe('the notifier killed', () => {
  test.each(cases)(
    '%s: none is lost, a doubled one is known',
    async (when, point, doubled) => {
      const keys = await queueTexts();
      if (point === 'gateway') gateway.plan.killAtText = 3;
      expect(await run(point === 'gateway' ? null : point, 3)).toBe('SIGKILL');
      gateway.plan.killAtText = 0;
      expect(await isEmpty()).toBe(false);
      await run(null, 0);

      // A gateway that honours the key shows each once: every key, and no key that is not one of ours.
      expect(new Set(gateway.taken)).toEqual(keys);
      const { real, inDoubt } = await doubles();
      expect(real.length).toBeGreaterThanOrEqual(doubled);
      expect(inDoubt).toEqual(expect.arrayContaining(real));
      expect((await rig.records.messages.standing()).maybeTwice).toBe(inDoubt.length);
      // At most what was under way at that moment: one to each person.
      expect(inDoubt.length).toBeLessThanOrEqual(people);
      const { counts } = await rig.records.messages.standing();
      expect(counts.sent).toBe(keys.size);
      noteFault({
        fault: `the notifier killed ${when}`,
        expected: 'no text lost; one the gateway may have got twice is named as such',
        seen: `${keys.size} of ${keys.size} texts sent, ${real.length} doubled at the gateway, ${inDoubt.length} named as in doubt`,
      });
    },
    120_000,
  );
});
