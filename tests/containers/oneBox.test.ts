/**
 * The whole yard in one container, started by compose as the README says: set up by the link in its log, a hot core
 * becomes a text, and what it knows outlives the container.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { PilePage } from '../../shared/api/types.ts';
import type { ApiClient } from '../helpers/apiClient.ts';
import { eventually } from '../helpers/eventually.ts';
import { noteFault } from '../helpers/faultTable.ts';
import { coolingDown, type HotPile, phoneNumber, throughTheCeiling } from '../helpers/hotPile.ts';
import { describeIf } from '../helpers/requirement.ts';
import { becomeHealthy, type Project } from './rig/compose.ts';
import { prepare } from './rig/prepared.ts';
import {
  ceilingAlarm,
  ceilingTexts,
  prepareYard,
  publishCores,
  setUpByLog,
  type YardInContainers,
} from './rig/yardInContainers.ts';

const prepared = await prepare();
const missing = 'missing' in prepared ? prepared.missing : '';
const slowMs = 600_000;

describeIf(missing === '', missing)('one box in a container', () => {
  let yard: YardInContainers;
  let project: Project;
  let pile: HotPile & { readonly client: ApiClient };

  beforeAll(async () => {
    if ('missing' in prepared) return;
    yard = await prepareYard({ ...prepared, profile: 'one-box' });
    ({ project } = yard);
    await project.build();
    await project.up();
  }, slowMs);
  afterAll(async () => {
    await yard?.remove();
    if ('engine' in prepared) await prepared.engine.release();
  }, slowMs);

  test(
    'a hot core, told over MQTT, is one text at the gateway',
    async () => {
      await becomeHealthy(project, 'yard');
      pile = await setUpByLog(yard, 'yard');
      const { probe, secret } = pile.probe;
      await publishCores(
        yard,
        pile,
        { username: probe.id, password: secret },
        throughTheCeiling,
        Date.now() - 80 * 60_000,
      );
      await eventually('the text', () => ceilingTexts(yard).length > 0, 60_000);
      expect(ceilingTexts(yard)[0]).toMatchObject({
        to: phoneNumber,
        text: expect.stringContaining(yard.url),
      });
      expect((await ceilingAlarm(pile.client))?.state).toBe('unacknowledged');
    },
    slowMs,
  );

  test(
    'runs as nobody of weight, may write to its data only, and is bounded',
    async () => {
      const { Config, HostConfig } = await project.inspect('yard');
      expect(Config.User).toBe('10001:10001');
      expect(HostConfig).toMatchObject({ ReadonlyRootfs: true, Memory: 1024 ** 3, PidsLimit: 256 });
      expect(HostConfig.CapDrop).toEqual(['ALL']);
      const tries = ['/app', '/etc', '/config/yard.yaml', '/data/try']
        .map((path) => `touch ${path} 2>/dev/null && echo ${path}`)
        .join('; ');
      expect(
        (await project.exec('yard', 'sh', '-c', `id -u; ${tries}; true`)).split('\n').slice(0, -1),
      ).toEqual(['10001', '/data/try']);
    },
    slowMs,
  );

  test(
    'carries no developer’s tools and no second Node',
    async () => {
      const { dependencies, devDependencies } = (
        await import('../../package.json', { with: { type: 'json' } })
      ).default;
      const inside = (await project.exec('yard', 'ls', 'node_modules')).split(/\s+/);
      expect(inside).toContain('fastify');
      const needless = [...Object.keys(devDependencies), 'node', 'vite', 'preact', 'uplot'];
      expect(Object.keys(dependencies)).toEqual(expect.arrayContaining(['node', 'vite', 'preact', 'uplot']));
      expect(needless.filter((name) => inside.includes(name))).toEqual([]);
    },
    slowMs,
  );

  test(
    'the commands of the machine room work inside',
    async () => {
      await project.exec('yard', 'node', 'services/backup.ts', '--to', '/data/backups/1');
      const files = (await project.exec('yard', 'ls', '/data/backups/1')).split(/\s+/);
      expect(files).toEqual(expect.arrayContaining(['backup.json', 'records.sqlite', 'series.sqlite']));
      const doctor = await project.exec(
        'yard',
        'node',
        'services/doctor.ts',
        '--config',
        '/config/yard.yaml',
      );
      expect(doctor).toMatch(/text-gateway\.test/);
    },
    slowMs,
  );

  test(
    'what it knows outlives the container, and nobody is texted twice',
    async () => {
      await project.down();
      await project.up();
      await becomeHealthy(project, 'yard');
      expect(await project.logs('yard')).not.toContain('set-up/');
      const { client } = pile;
      const page = await client.get<PilePage>(`/api/piles/${pile.pile.id}/page`);
      expect(page.messages.filter(({ text }) => text.includes('core too hot'))).toHaveLength(1);
      expect((await ceilingAlarm(client))?.state).toBe('unacknowledged');
      const { probe, secret } = pile.probe;
      await publishCores(
        yard,
        pile,
        { username: probe.id, password: secret },
        throughTheCeiling,
        Date.now() - 80 * 60_000,
      );
      expect(ceilingTexts(yard)).toHaveLength(1);
    },
    slowMs,
  );

  test(
    'killed, it comes back by itself and judges on from where it was',
    async () => {
      const fromMs = performance.now();
      await project.kill('yard');
      const isBack = async () => (await project.inspect('yard')).RestartCount > 0;
      await eventually('it was started again', isBack, 120_000, 500);
      await becomeHealthy(project, 'yard');
      const seconds = Math.round((performance.now() - fromMs) / 1000);
      const { probe, secret } = pile.probe;
      const sign = { username: probe.id, password: secret };
      await publishCores(yard, pile, sign, coolingDown, Date.now() - 5 * 60_000);
      const returned = async () => (await ceilingAlarm(pile.client))?.state === 'returned-unacknowledged';
      await eventually('the alarm is back to normal', returned, 60_000, 500);
      expect(ceilingTexts(yard)).toHaveLength(1);
      noteFault({
        fault: 'the whole yard killed (kill -9) in its one container',
        expected: 'started again by the engine; judged on from where it was, no second text',
        seen: `well again after ${seconds} s; alarm returned, 1 text`,
      });
    },
    slowMs,
  );
});
