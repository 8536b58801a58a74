import pg from 'pg';
import { expect, it } from 'vitest';
import { freePort } from '../../tests/helpers/mosquitto.ts';
import { isDatabaseAway } from './databaseAway.ts';

it('knows a server that is not there, as the driver tells it, also behind another error', async () => {
  const client = new pg.Client({ connectionString: `postgresql://yard@127.0.0.1:${await freePort()}/yard` });
  const error = await client.connect().catch((thrown: unknown) => thrown);
  expect(isDatabaseAway(error)).toBe(true);
  expect(isDatabaseAway(new Error('series store in PostgreSQL', { cause: error }))).toBe(true);
});

it.each([
  [
    'a server that is being stopped',
    Object.assign(new Error('terminating connection'), { code: '57P01' }),
    true,
  ],
  ['a connection that broke', new Error('Connection terminated unexpectedly'), true],
  [
    'one that broke in a transaction',
    new Error('Client has encountered a connection error and is not queryable'),
    true,
  ],
  ['a class of connection faults', Object.assign(new Error('failure'), { code: '08006' }), true],
  ['a broken rule', Object.assign(new Error('duplicate key'), { code: '23505' }), false],
  ['a mistake of ours', new TypeError('x is not a function'), false],
  ['no error', 'ECONNREFUSED', false],
])('%s', (_what, error, expected) => {
  expect(isDatabaseAway(error)).toBe(expected);
});
