import { afterAll, beforeAll } from 'vitest';
import { type InfluxServer, influxdProgram, settingsFor, startInfluxd } from '../helpers/influxd.ts';
import { describeIf } from '../helpers/requirement.ts';
import { temporaryFolder } from '../helpers/writePath.ts';
import { describeInfluxContract } from './influxContract.ts';

const why = 'no influxd found; Debian and Ubuntu have it in the package influxdb';

describeIf(influxdProgram !== null, why)('InfluxDB 1.x of the distribution', () => {
  let folder: Awaited<ReturnType<typeof temporaryFolder>>;
  let server: InfluxServer;
  beforeAll(async () => {
    folder = await temporaryFolder();
    server = await startInfluxd(folder.path);
  });
  afterAll(async () => {
    await server.stop();
    await folder.remove();
  });
  let databases = 0;

  describeInfluxContract('1.x, written over /write', async () => {
    const database = `yard${databases++}`;
    await server.execute(`CREATE DATABASE ${database}`);
    return settingsFor(server.url, { database });
  });
});
