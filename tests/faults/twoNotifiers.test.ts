/**
 * Two notifiers race over one outbox in PostgreSQL while one of them is killed: no message is lost, none is sent by both,
 * and only what the killed one had under way at the gateway may have come twice, and is named.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import type { DeliveryPoint } from '../../services/notify/deliver.ts';
import { eventually } from '../helpers/eventually.ts';
import { noteFault } from '../helpers/faultTable.ts';
import { openKeyedGateway } from '../helpers/keyedGateway.ts';
import type { NotifyProcessPlan } from '../helpers/notifyProcess.ts';
import { type OutboxRig, openOutboxRig } from '../helpers/outboxRig.ts';
import { findPostgres, type PostgresServer, postgresMissing, startPostgres } from '../helpers/postgres.ts';
import { describeIf } from '../helpers/requirement.ts';

const program = fileURLToPath(new URL('../helpers/notifyProcess.ts', import.meta.url));
const people = 30;
const textsEach = 3;
/** As many as one notifier has under way at once. */
const mostAtOnce = 20;
/** Longer than a busy machine holds up a living notifier. */
const leaseMs = 8_000;
const canRun = findPostgres() !== null;

let postgres: PostgresServer;
let rig: OutboxRig;
let gateway: Awaited<ReturnType<typeof openKeyedGateway>>;
const running: ChildProcess[] = [];

describeIf(canRun, postgresMissing)('two notifiers over one outbox in PostgreSQL', () => {
  beforeAll(async () => {
    postgres = await startPostgres();
  });
  afterAll(() => postgres?.stop());
  beforeEach(async () => {
    rig = await openOutboxRig({ kind: 'postgres', connectionString: await postgres.createDatabase() });
    rig.clock.ms = Date.now();
    gateway = await openKeyedGateway(50);
  });
  afterEach(async () => {
    for (const child of running.splice(0)) child.kill('SIGKILL');
    await gateway.close();
    await rig.close();
  });

  test('share it, and send each message once', async () => {
    const keys = await queueTexts();
    const both = [start('one'), start('other')];
    await emptied();
    for (const child of both) expect(await ended(child, 'SIGTERM')).toBe('in order');
    expect(new Set(gateway.taken.map(({ id }) => id))).toEqual(keys);
    expect(gateway.taken.length).toBe(keys.size);
    expect((await rig.records.messages.standing()).maybeTwice).toBe(0);
    expect(sentBy('one') * sentBy('other'), 'both took part').toBeGreaterThan(0);
    noteFault({
      fault: 'two notifiers race over one outbox in PostgreSQL',
      expected: 'each message sent by one of them, once',
      seen: `${keys.size} of ${keys.size} sent, none twice; ${sentBy('one')} by one, ${sentBy('other')} by the other`,
    });
  }, 120_000);

  const kills: readonly (readonly [string, DeliveryPoint, number, number])[] = [
    ['with a batch claimed and nothing of it sent', 'claimed', 1, 0],
    ['with answers of the gateway not yet written down', 'answered', 5, mostAtOnce],
  ];
  test.each(kills)(
    'one killed %s: the other sends the rest',
    async (when, killAt, nth, mostTwice) => {
      const keys = await queueTexts();
      const dying = start('one', killAt, nth);
      const other = start('other');
      expect(await ended(dying)).toBe('SIGKILL');
      await emptied();
      expect(await ended(other, 'SIGTERM')).toBe('in order');

      expect(new Set(gateway.taken.map(({ id }) => id))).toEqual(keys);
      expect((await rig.records.messages.standing()).counts.sent).toBe(keys.size);
      const written = await rig.records.messages.list(rig.yard.id, 1000);
      const inDoubt = written.filter(({ maybeSent }) => maybeSent > 0).map((one) => one.idempotencyKey);
      expect(inDoubt).toEqual(expect.arrayContaining(gateway.doubled()));
      expect(inDoubt.length).toBeLessThanOrEqual(mostTwice);
      // None was sent by the living one twice: what came twice is the killed one's.
      for (const key of gateway.doubled())
        expect(
          gateway.taken
            .filter(({ id }) => id === key)
            .map(({ path }) => path)
            .sort(),
        ).toEqual(['/send?by=one', '/send?by=other']);
      noteFault({
        fault: `of two notifiers over one outbox in PostgreSQL one killed ${when}`,
        expected:
          mostTwice === 0
            ? 'the other sends the rest; none lost, none twice'
            : 'the other sends the rest; none lost, what the gateway may have got twice is named as such',
        seen: `${keys.size} of ${keys.size} sent, ${gateway.doubled().length} twice at the gateway, ${inDoubt.length} named as in doubt`,
      });
    },
    120_000,
  );
});

async function queueTexts(): Promise<Set<string>> {
  for (let number = 0; number < people; number += 1) {
    const person = await rig.person(`person${number}`, { phone: `+44163296${1000 + number}` });
    for (let text = 0; text < textsEach; text += 1) await rig.text(person, await rig.alarm());
  }
  const written = await rig.records.messages.list(rig.yard.id, 1000);
  return new Set(written.map(({ idempotencyKey }) => idempotencyKey));
}

function start(name: string, killAt: DeliveryPoint | null = null, nth = 0): ChildProcess {
  const gatewayUrl = `${gateway.url}?by=${name}`;
  const plan: NotifyProcessPlan = { records: rig.options, gatewayUrl, leaseMs, killAt, nth };
  const child = spawn(process.execPath, [program, JSON.stringify(plan)], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  running.push(child);
  return child;
}

/** How it ended: by which signal, or in order. */
async function ended(child: ChildProcess, signal?: NodeJS.Signals): Promise<string> {
  const gone = child.exitCode === null && child.signalCode === null ? once(child, 'exit') : null;
  if (signal) child.kill(signal);
  await gone;
  return child.signalCode ?? (child.exitCode === 0 ? 'in order' : `exit code ${child.exitCode}`);
}

const emptied = () =>
  eventually(
    'the outbox is empty',
    async () => {
      const { counts } = await rig.records.messages.standing();
      return counts.waiting + counts.sending === 0;
    },
    90_000,
    100,
  );

const sentBy = (name: string) => gateway.taken.filter(({ path }) => path.endsWith(`by=${name}`)).length;
