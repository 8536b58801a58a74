/**
 * A yard's services as eight processes over a real PostgreSQL and a real Mosquitto, some of each kind killed or paused
 * while readings stream in: no reading lost or doubled, each alarm raised once, each text sent once, and work taken over
 * within half a minute.
 */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openRecords } from '../../services/records/openRecords.ts';
import type { Records } from '../../services/records/port.ts';
import { openPostgresSeries, openSeriesPool } from '../../services/series/openPostgresSeries.ts';
import type { SeriesStore } from '../../services/series/port.ts';
import { createSignInLink } from '../../services/web/startWeb.ts';
import { createApiClient } from '../helpers/apiClient.ts';
import { eventually } from '../helpers/eventually.ts';
import { noteFault } from '../helpers/faultTable.ts';
import { openKeyedGateway } from '../helpers/keyedGateway.ts';
import { mosquittoProgram, startMosquitto } from '../helpers/mosquitto.ts';
import { findPostgres, type PostgresServer, postgresMissing, startPostgres } from '../helpers/postgres.ts';
import { describeIf } from '../helpers/requirement.ts';
import { type ServiceProcess, startServices } from '../helpers/serviceProcess.ts';
import { furnishYards, type SplitYard, startStream } from '../helpers/splitYards.ts';
import { temporaryFolder } from '../helpers/writePath.ts';

const minutes = 200;
const takeOverWithinMs = 30_000;
const canRun = findPostgres() !== null && mosquittoProgram !== null;
const reason = findPostgres() === null ? postgresMissing : 'mosquitto is not installed';

let postgres: PostgresServer;
let records: Records;
let series: SeriesStore;
let flags: string[] = [];
let gateway: Awaited<ReturnType<typeof openKeyedGateway>>;
let brokerUrl = '';
let yards: SplitYard[] = [];
const running: ServiceProcess[] = [];
const cleanUp: (() => unknown)[] = [];

async function start(only: string): Promise<ServiceProcess> {
  const process = await startServices(only, flags);
  running.push(process);
  return process;
}

/** How long until every lease that was this process's is held by a living one. */
async function takenOver(holder: string, since: number): Promise<number> {
  await eventually(
    `nothing is held by ${holder} any more`,
    async () => (await records.leases.list()).every((lease) => lease.holder !== holder),
    60_000,
  );
  return performance.now() - since;
}

/** The process that judges a yard. */
async function judgeOf({ yard }: SplitYard, judges: readonly ServiceProcess[]): Promise<ServiceProcess> {
  const lease = (await records.leases.list()).find(({ name }) => name === `rules:${yard.id}`);
  const ids = await Promise.all(judges.map((judge) => judge.processId()));
  return judges[ids.indexOf(lease!.holder!)]!;
}

const ceilingOf = async ({ piles }: SplitYard) =>
  (await Promise.all(piles.map(({ pile }) => records.alarms.forPile(pile.id))))
    .flat()
    .filter(({ condition }) => condition === 'too-hot-ceiling');

describeIf(canRun, reason)('services in processes of their own', () => {
  beforeAll(async () => {
    const folder = await temporaryFolder();
    cleanUp.push(folder.remove);
    postgres = await startPostgres();
    cleanUp.push(() => postgres.stop());
    const address = await postgres.createDatabase();
    const mosquitto = await startMosquitto(folder.path);
    cleanUp.push(() => mosquitto.stop());
    brokerUrl = mosquitto.url;
    gateway = await openKeyedGateway();
    cleanUp.push(gateway.close);
    records = await openRecords({ kind: 'postgres', connectionString: address });
    series = await openPostgresSeries(openSeriesPool({ connectionString: address }));
    cleanUp.push(async () => {
      await series.close();
      await records.close();
    });
    yards = await furnishYards(records, 3, 3);
    flags = [
      ...['--records.postgresUrl', address, '--series.postgresUrl', address],
      ...['--broker.externalUrl', brokerUrl, '--broker.sharedSessions', '4'],
      ...['--sms.url', gateway.url, '--watch.outageMinutes', 'null'],
    ];
  }, 120_000);
  afterAll(async () => {
    await Promise.all(running.map((process) => process.stop('SIGKILL')));
    for (const undo of cleanUp.reverse()) await undo();
  }, 60_000);

  it('lose nothing and double nothing while processes of each kind die', { timeout: 600_000 }, async () => {
    const [web, ingest, ingest2, notify, notify2] = await Promise.all(
      ['series,web', 'ingest', 'ingest', 'notify', 'notify'].map(start),
    );
    const judges = await Promise.all(['rules', 'rules', 'rules'].map(start));
    await eventually(
      'every process has its share: a yard to each judge, two broker sessions to each ingest',
      async () => {
        const leases = (await records.leases.list()).filter(({ holder }) => holder !== null);
        const of = (kind: string) =>
          Map.groupBy(
            leases.filter(({ name }) => name.startsWith(kind)),
            ({ holder }) => holder,
          );
        return of('rules:').size === 3 && of('ingest:').size === 2 && of('notify:').size === 1;
      },
      60_000,
    );
    await eventually(
      'each judge has opened its yard, by its own metrics',
      async () => {
        const all = await Promise.all(judges.map((judge) => judge.metrics()));
        return all.every((metrics) => metrics.get('tilth_judgement_yards') === 1);
      },
      60_000,
    );

    const stream = await startStream(brokerUrl, yards, minutes, 300);
    cleanUp.push(stream.stop);
    const tookOverMs: Record<string, number> = {};

    /** `successor` is started where no other process of that kind lives; the time to start counts. */
    async function kill(process: ServiceProcess, kind: string, successor?: string) {
      const id = await process.processId();
      const atMs = performance.now();
      await process.stop('SIGKILL');
      const started = successor === undefined ? null : await start(successor);
      tookOverMs[kind] = await takenOver(id, atMs);
      return started;
    }

    // While the piles are still warming.
    await eventually('the stream runs', () => stream.minute() > 40, 60_000);
    await kill(ingest!, 'ingest');
    // Before the first alarm is due, the judge of the first yard.
    const victim = await judgeOf(yards[0]!, judges);
    await kill(victim, 'rules');
    await eventually('alarms are being raised', async () => (await ceilingOf(yards[1]!)).length > 0, 120_000);
    await kill(notify!, 'notify');
    const web2 = (await kill(web!, 'series and web', 'series,web'))!;

    // A judge that sleeps through its lease wakes up when another has it.
    const sleeper = judges.find((judge) => judge !== victim)!;
    const sleeperId = await sleeper.processId();
    const asleepAt = performance.now();
    sleeper.signal('SIGSTOP');
    tookOverMs['paused rules'] = await takenOver(sleeperId, asleepAt);
    sleeper.signal('SIGCONT');

    await eventually('everything is acknowledged', () => stream.acknowledged() === stream.total, 120_000);
    await eventually(
      'everything is stored',
      async () => (await series.append([])).lastSequence === stream.total,
      60_000,
    );
    await eventually(
      'every pile has its alarm',
      async () => (await Promise.all(yards.map(ceilingOf))).every((alarms) => alarms.length === 3),
      60_000,
    );
    await eventually(
      'every text has left',
      async () => {
        const { counts } = await records.messages.standing();
        return counts.waiting + counts.sending === 0;
      },
      180_000,
    );

    await expectEachReadingOnce();
    await expectEachAlarmOnce();
    await expectEachTextOnce();
    for (const [kind, ms] of Object.entries(tookOverMs)) expect(ms, kind).toBeLessThan(takeOverWithinMs);
    const seconds = Object.entries(tookOverMs).map(([kind, ms]) => `${kind} ${(ms / 1000).toFixed(1)} s`);
    console.info(
      `${stream.total} readings, 9 ceiling alarms, ${gateway.taken.length} texts: each once; taken over: ${seconds.join(', ')}`,
    );

    const all = `${stream.total} readings stored once, 9 alarms raised once, ${gateway.taken.length} texts, ${gateway.doubled().length} of them twice`;
    noteFault({
      fault:
        'of eight processes of one yard an ingest, a rules, a notify and a series,web killed with kill -9',
      expected: 'taken over within 30 s; no reading lost or doubled, each alarm once, each text once',
      seen: `${all}; taken over after ${seconds.slice(0, 4).join(', ')}`,
    });
    noteFault({
      fault: 'a rules process paused until another had its yard, then woken',
      expected: 'it stores nothing more for that yard; each alarm and text once',
      seen: `taken over after ${seconds[4]}; ${all}`,
    });
    await acknowledgeFromAfar(web2);
    for (const process of [ingest2!, notify2!, web2])
      expect(await process.readiness(), process.only).toMatchObject({ ready: true });
    for (const process of [ingest2!, notify2!, web2, ...judges.filter((judge) => judge !== victim)])
      expect(await process.stop(), process.only).toBe(0);
    const held = (await records.leases.list()).filter(({ holder }) => holder !== null);
    expect(held, 'what stopped in order handed its work back').toEqual([]);
  });
});

async function expectEachReadingOnce(): Promise<void> {
  for (const { channel } of yards.flatMap(({ piles }) => piles)) {
    const stored = await series.range({ channel, fromMs: 0, toMs: 9e12, quality: 'all' });
    expect(stored.length, channel).toBe(minutes);
    const days = await series.rollups(channel, 'day', 0, 9e12);
    expect(
      days.reduce((sum, { countAll }) => sum + countAll, 0),
      channel,
    ).toBe(minutes);
  }
}

async function expectEachAlarmOnce(): Promise<void> {
  for (const yard of yards)
    for (const { id, state, occurrence } of await ceilingOf(yard)) {
      expect([state, occurrence]).toEqual(['unacknowledged', 1]);
      const raised = (await records.alarms.transitions(id)).filter(({ to }) => to === 'unacknowledged');
      expect(raised.length).toBe(1);
    }
}

async function expectEachTextOnce(): Promise<void> {
  const lists = await Promise.all(yards.map(({ yard }) => records.messages.list(yard.id, 1000)));
  const all = lists.flat();
  const told = new Set(all.flatMap(({ alarmId }) => alarmId ?? []));
  for (const { id } of (await Promise.all(yards.map(ceilingOf))).flat()) expect(told.has(id)).toBe(true);
  const sent = all.filter(({ state }) => state === 'sent').map(({ idempotencyKey }) => idempotencyKey);
  expect(new Set(gateway.taken.map(({ id }) => id))).toEqual(new Set(sent));
  // A notifier killed between the gateway's yes and the record of it sends once more: then the records say so.
  const inDoubt = all.filter(({ maybeSent }) => maybeSent > 0).map(({ idempotencyKey }) => idempotencyKey);
  expect(inDoubt).toEqual(expect.arrayContaining(gateway.doubled()));
  expect(gateway.doubled().length).toBeLessThanOrEqual(1);
}

/** A person presses a button in the process with the screens; the one that judges the yard does it. */
async function acknowledgeFromAfar(web: ServiceProcess): Promise<void> {
  const { ownerId } = yards[0]!;
  const link = await createSignInLink(records, ownerId, { nowMs: Date.now }, web.url);
  const api = createApiClient(web.url);
  await api.post('/api/links/sign-in', { token: link.split('/').at(-1) });
  const [alarm] = await ceilingOf(yards[0]!);
  const answer = await api.post<{ state: string }>(`/api/alarms/${alarm!.id}/acknowledge`, {});
  expect(answer.state).toBe('acknowledged');
  const transitions = await records.alarms.transitions(alarm!.id);
  expect(transitions.at(-1)).toMatchObject({ event: 'acknowledge', by: ownerId });
}
