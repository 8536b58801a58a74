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
import { coolingDown, type HotPile, phoneNumber, throughTheCeiling } from '../helpers/hotPile.ts';
import { describeIf } from '../helpers/requirement.ts';
import { becomesHealthy, type Project } from './rig/compose.ts';
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
      for (const service of [...servers, ...parts]) await becomesHealthy(project, service);
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
      for (const service of killed) await project.kill(service);
      for (const service of killed)
        await eventually(
          `${service} was started again`,
          async () => (await project.inspect(service)).RestartCount > 0,
          120_000,
        );
      for (const service of [...servers, ...parts]) await becomesHealthy(project, service);
      await publishCores(yard, pile, probes, coolingDown, startMs + 75 * minuteMs);
      await eventually(
        'the alarm is back to normal',
        async () => (await ceilingAlarm(pile.client))?.state !== 'unacknowledged',
        180_000,
      );
      expect((await ceilingAlarm(pile.client))?.state).toBe('returned-unacknowledged');
      const page = await pile.client.get<PilePage>(`/api/piles/${pile.pile.id}/page`);
      expect(page.messages.filter(({ text }) => text.includes('core too hot'))).toHaveLength(1);
      expect(ceilingTexts(yard)).toHaveLength(1);
    },
    slowMs,
  );
});
