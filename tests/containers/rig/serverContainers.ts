import { randomBytes } from 'node:crypto';
import pg from 'pg';
import { GenericContainer, type StartedTestContainer, Wait } from 'testcontainers';
import type { InfluxSettings } from '../../../services/series/influx/settings.ts';
import { influxStatement, settingsFor } from '../../helpers/influxd.ts';
import type { Engine } from './engine.ts';
import { tryRun } from './run.ts';

const upWithinMs = 120_000;

/** Tells testcontainers which engine to use, and not to start its helper container where its image cannot be had. */
export async function useEngine({ environment }: Engine): Promise<void> {
  Object.assign(process.env, environment);
  const helper = await tryRun('docker', ['images', '-q', 'testcontainers/ryuk'], { environment });
  if (helper.output.trim() === '') process.env.TESTCONTAINERS_RYUK_DISABLED ??= 'true';
}

export interface InfluxContainer {
  /** As the server itself says. */
  readonly version: string;
  /** An empty database or bucket, and how to reach it. */
  newDatabase(): Promise<InfluxSettings>;
  stop(): Promise<unknown>;
}

/** Starts an InfluxDB of version 1 or 2; what makes the first set-up of 2 is nothing to 1. */
export async function startInfluxContainer(image: string): Promise<InfluxContainer> {
  const token = randomBytes(16).toString('hex');
  const org = 'yard';
  const container = await new GenericContainer(image)
    .withEnvironment({
      DOCKER_INFLUXDB_INIT_MODE: 'setup',
      DOCKER_INFLUXDB_INIT_USERNAME: 'tilthwatch',
      DOCKER_INFLUXDB_INIT_PASSWORD: token,
      DOCKER_INFLUXDB_INIT_ORG: org,
      DOCKER_INFLUXDB_INIT_BUCKET: 'first',
      DOCKER_INFLUXDB_INIT_ADMIN_TOKEN: token,
    })
    .withExposedPorts(8086)
    .withWaitStrategy(Wait.forHttp('/ping', 8086).forStatusCode(204))
    .withStartupTimeout(upWithinMs)
    .start();
  const url = `http://${container.getHost()}:${container.getMappedPort(8086)}`;
  const version = (await fetch(`${url}/ping`)).headers.get('x-influxdb-version') ?? 'unknown';
  let made = 0;
  return {
    version,
    async newDatabase() {
      const database = `yard${made++}`;
      if (version.startsWith('1.')) {
        await influxStatement(url, `CREATE DATABASE ${database}`);
        return settingsFor(url, { database });
      }
      await makeBucket(url, token, org, database);
      return settingsFor(url, { version: '2', org, token, database });
    },
    stop: () => container.stop(),
  };
}

async function makeBucket(url: string, token: string, org: string, name: string): Promise<void> {
  const headers = { authorization: `Token ${token}`, 'content-type': 'application/json' };
  const found = await fetch(`${url}/api/v2/orgs?org=${org}`, { headers });
  const { orgs } = (await found.json()) as { orgs: { id: string }[] };
  const body = JSON.stringify({ orgID: orgs[0]!.id, name, retentionRules: [] });
  const answer = await fetch(`${url}/api/v2/buckets`, { method: 'POST', headers, body });
  if (!answer.ok) throw new Error(`no bucket ${name}: ${answer.status} ${await answer.text()}`);
}

export interface PostgresContainer {
  readonly version: string;
  /** Makes an empty database and gives the way to it. */
  createDatabase(): Promise<string>;
  stop(): Promise<unknown>;
}

export async function startPostgresContainer(image: string): Promise<PostgresContainer> {
  const password = randomBytes(16).toString('hex');
  const container = await new GenericContainer(image)
    .withEnvironment({ POSTGRES_USER: 'tilth', POSTGRES_PASSWORD: password, POSTGRES_DB: 'first' })
    .withExposedPorts(5432)
    // The data lives as long as the test: nothing need be forced to the disk.
    .withCommand(['postgres', '-c', 'fsync=off', '-c', 'full_page_writes=off'])
    .withWaitStrategy(Wait.forLogMessage(/ready to accept connections/, 2))
    .withStartupTimeout(upWithinMs)
    .start();
  const addressOf = (database: string) =>
    `postgresql://tilth:${password}@${container.getHost()}:${container.getMappedPort(5432)}/${database}`;
  let made = 0;
  return {
    version: (await ask(addressOf('first'), 'show server_version')).rows[0].server_version,
    async createDatabase() {
      const name = `records_${++made}`;
      await ask(addressOf('first'), `create database ${name}`);
      return addressOf(name);
    },
    stop: () => stopAtOnce(container),
  };
}

/** Its data goes with it: it need not be asked to leave in good order. */
const stopAtOnce = (container: StartedTestContainer) => container.stop({ timeout: 0 });

async function ask(address: string, statement: string): Promise<pg.QueryResult> {
  const client = new pg.Client({ connectionString: address });
  await client.connect();
  try {
    return await client.query(statement);
  } finally {
    await client.end();
  }
}
