/**
 * The contracts of readings and records over real servers in containers, started by testcontainers. Which InfluxDB are run
 * is a list: whoever can have more images names them in INFLUXDB_TEST_IMAGES, e.g. `influxdb:1.8,influxdb:2.7`.
 */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { describeInfluxContract } from '../contract/influxContract.ts';
import { describeRecordsContract } from '../contract/recordsContract.ts';
import { describeIf, noteSkip } from '../helpers/requirement.ts';
import { prepare } from './rig/prepared.ts';
import {
  type InfluxContainer,
  type PostgresContainer,
  startInfluxContainer,
  startPostgresContainer,
  useEngine,
} from './rig/serverContainers.ts';

const prepared = await prepare();
const missing = 'missing' in prepared ? prepared.missing : '';
const slowMs = 300_000;
const named = (process.env.INFLUXDB_TEST_IMAGES ?? '').split(',').filter((image) => image !== '');
const influxImages = named.length > 0 || 'missing' in prepared ? named : [prepared.images.INFLUXDB_IMAGE];
if (named.length === 0)
  noteSkip(
    'InfluxDB 1.8 and 2.x in containers',
    'their images come from a registry; name those you have in INFLUXDB_TEST_IMAGES. The one made here is run',
  );

describeIf(missing === '', missing)('servers in containers', () => {
  beforeAll(async () => {
    if ('engine' in prepared) await useEngine(prepared.engine);
  });
  afterAll(async () => {
    if ('engine' in prepared) await prepared.engine.release();
  }, slowMs);

  describe.each(influxImages)('InfluxDB of %s', (image) => {
    let server: InfluxContainer;
    beforeAll(async () => {
      server = await startInfluxContainer(image);
    }, slowMs);
    afterAll(async () => server?.stop());

    it('says its version', () => expect(server.version).toMatch(/^v?[12]\./));
    describeInfluxContract(`in a container of ${image}`, () => server.newDatabase());
  });

  describe('PostgreSQL', () => {
    let server: PostgresContainer;
    beforeAll(async () => {
      if ('images' in prepared) server = await startPostgresContainer(prepared.images.POSTGRES_IMAGE);
    }, slowMs);
    afterAll(async () => server?.stop());

    it('says its version', () => expect(Number.parseInt(server.version, 10)).toBeGreaterThanOrEqual(13));
    describeRecordsContract('PostgreSQL in a container', async () => ({
      kind: 'postgres',
      connectionString: await server.createDatabase(),
    }));
  });
});
