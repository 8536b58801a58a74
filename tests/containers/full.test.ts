/**
 * Everything in containers of its own, started by compose as its README says: Mosquitto, InfluxDB, PostgreSQL and each
 * service of the yard. The same journey as in one box, then several of them are killed and come back by themselves.
 */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { PilePage } from '../../shared/api/types.ts';
import type { ApiClient } from '../helpers/apiClient.ts';
import { eventually } from '../helpers/eventually.ts';
import { noteFault } from '../helpers/faultTable.ts';
import { coolingDown, type HotPile, phoneNumber, throughTheCeiling } from '../helpers/hotPile.ts';
import { describeIf } from '../helpers/requirement.ts';
import { becomeHealthy, type Project } from './rig/compose.ts';
import { askPostgres, makeOlderRecords, markOfOlderRecords, newestStep } from './rig/olderRecords.ts';
import { prepare } from './rig/prepared.ts';
import { run } from './rig/run.ts';
import {
  ceilingAlarm,
  ceilingTexts,
  prepareYard,
  publishCores,
  type Sending,
  setUpByLog,
  type YardInContainers,
} from './rig/yardInContainers.ts';

const prepared = await prepare();
const missing = 'missing' in prepared ? prepared.missing : '';
const slowMs = 600_000;
const minuteMs = 60_000;
const parts = ['ingest', 'series', 'rules', 'notify', 'web'];
const servers = ['mosquitto', 'influxdb', 'postgres'];
const passwords = ['broker-password', 'probes-password', 'influxdb-password', 'postgres-password'];

describeIf(missing === '', missing)('every service and server in a container of its own', () => {
  let yard: YardInContainers;
  let project: Project;
  let pile: HotPile & { readonly client: ApiClient };
  let probes: Sending;
  const secret = (name: string) => readFile(join(yard.secrets, name), 'utf8');
  const startMs = Date.now() - 240 * minuteMs;

  beforeAll(async () => {
    if ('missing' in prepared) return;
    yard = await prepareYard({ ...prepared, profile: 'full' });
    ({ project } = yard);
    await run('services/containers/makeSecrets.sh', [yard.secrets]);
    await project.build();
    // An upgrade: the five services meet, all at once, records of the version before.
    await project.up('postgres');
    await becomeHealthy(project, 'postgres');
    await makeOlderRecords(project, await secret('postgres-password'));
    await project.up();
    probes = { username: 'probes', password: await secret('probes-password') };
  }, slowMs);
  afterAll(async () => {
    await yard?.remove();
    if ('engine' in prepared) await prepared.engine.release();
  }, slowMs);

  test(
    'a hot core, told over MQTT, is one text at the gateway',
    async () => {
      await becomeHealthy(project, ...servers, ...parts);
      pile = await setUpByLog(yard, 'web');
      await publishCores(yard, pile, probes, throughTheCeiling, startMs);
      await eventually('the text', () => ceilingTexts(yard).length > 0, 120_000);
      expect(ceilingTexts(yard)[0]).toMatchObject({
        to: phoneNumber,
        text: expect.stringContaining(yard.url),
      });
      expect((await ceilingAlarm(pile.client))?.state).toBe('unacknowledged');
    },
    slowMs,
  );

  test(
    'the records of the version before were copied by pg_dump, once, and brought forward',
    async () => {
      expect(await markOfOlderRecords(project)).toBe('kept');
      const dump = `records.before-${newestStep}.dump`;
      const files = (await project.exec('web', 'ls', '/data')).split('\n');
      expect(files.filter((file) => file.startsWith('records'))).toEqual([dump]);
      expect(await project.exec('web', 'pg_restore', '--list', `/data/${dump}`)).toMatch(
        /TABLE DATA public marks/,
      );
    },
    slowMs,
  );

  test(
    'the doctor finds every server and service, and a pg_dump that is new enough',
    async () => {
      const words = ['services/doctor.ts', '--config', '/config/yard.yaml', '--only', 'web'];
      const said = await project.exec('web', 'node', ...words);
      for (const about of ['PostgreSQL', 'pg_dump', 'MQTT broker', 'InfluxDB', 'SMS gateway'])
        expect(said).toMatch(new RegExp(`^ok +${about}: `, 'm'));
      expect(said).toMatch(/processes: 5 alive: ingest 1, notify 1, rules 1, series 1, web 1/);
    },
    slowMs,
  );

  test(
    'the readings were forwarded to InfluxDB',
    async () => {
      const words = ['-username', 'tilthwatch', '-password', await secret('influxdb-password')];
      const question = [
        '-database',
        'tilthwatch',
        '-format',
        'json',
        '-execute',
        'SELECT COUNT(*) FROM /.*/',
      ];
      await eventually(
        'InfluxDB has them',
        async () =>
          new RegExp(`\\b${throughTheCeiling.length}\\b`).test(
            await project.exec('influxdb', 'influx', ...words, ...question),
          ),
        60_000,
      );
    },
    slowMs,
  );

  test(
    'none of them is root, writes where it need not, or is without bounds',
    async () => {
      const facts = await Promise.all([...servers, ...parts].map((service) => project.inspect(service)));
      for (const { Config, HostConfig } of facts) {
        expect(Config.User).toMatch(/^[1-9]\d*:[1-9]\d*$/);
        expect(HostConfig).toMatchObject({ ReadonlyRootfs: true, PidsLimit: 256, CapDrop: ['ALL'] });
        expect(HostConfig.Memory).toBeGreaterThan(0);
      }
      // What the engine tells anybody who may ask it must hold no password.
      const said = JSON.stringify(facts);
      for (const name of passwords) expect(said).not.toContain(await secret(name));
    },
    slowMs,
  );

  test(
    'nobody gets at Mosquitto with a wrong password, nor beyond what is theirs',
    async () => {
      await expect(
        publishCores(yard, pile, { username: 'probes', password: 'guessed' }, coolingDown, startMs),
      ).rejects.toThrow(/not authorized/i);
      const said = project.exec(
        ...(['mosquitto', 'mosquitto_sub', '-u', 'probes', '-P', probes.password] as const),
        ...['-t', 'tilth/+/+/readings', '-C', '1', '-W', '2'],
      );
      await expect(said).rejects.toThrow(/ended with/);
    },
    slowMs,
  );

  test(
    'killed ones come back by themselves, and go on without texting twice',
    async () => {
      const killed = ['rules', 'postgres', 'ingest', 'mosquitto'];
      const fromMs = performance.now();
      for (const service of killed) await project.kill(service);
      const areBack = async () => {
        const facts = await Promise.all(killed.map((service) => project.inspect(service)));
        return facts.every(({ RestartCount }) => RestartCount > 0);
      };
      await eventually('all killed ones were started again', areBack, 120_000, 500);
      await becomeHealthy(project, ...servers, ...parts);
      const seconds = Math.round((performance.now() - fromMs) / 1000);
      const sent = throughTheCeiling.length + coolingDown.length;
      const stored = async () => Number(await askPostgres(project, 'select count(*) from series_reading'));
      // A broker killed so keeps no session, and what comes before ingest has the lease again is nobody's: as probes do
      // after a lost link (firmware-notes), it is sent once more until it is there. What comes twice is stored once.
      const areStored = async () => {
        await publishCores(yard, pile, probes, coolingDown, startMs + 75 * minuteMs);
        return (await stored()) >= sent;
      };
      await eventually('what was sent is stored', areStored, 120_000, 5000);
      const isBack = async () => (await ceilingAlarm(pile.client))?.state !== 'unacknowledged';
      await eventually('the alarm is back to normal', isBack, 180_000, 500);
      expect((await ceilingAlarm(pile.client))?.state).toBe('returned-unacknowledged');
      const page = await pile.client.get<PilePage>(`/api/piles/${pile.pile.id}/page`);
      expect(page.messages.filter(({ text }) => text.includes('core too hot'))).toHaveLength(1);
      expect(ceilingTexts(yard)).toHaveLength(1);
      expect(await stored()).toBe(sent);
      noteFault({
        fault: 'rules, PostgreSQL, ingest and Mosquitto killed (kill -9) in their containers',
        expected: 'started again by the engine; judged on from where it was, no second text, nothing lost',
        seen: `all well again after ${seconds} s; alarm returned, 1 text, ${sent} of ${sent} readings stored once`,
      });
    },
    slowMs,
  );
});
