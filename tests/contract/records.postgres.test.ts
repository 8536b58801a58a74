import { afterAll, beforeAll } from 'vitest';
import { findPostgres, type PostgresServer, postgresMissing, startPostgres } from '../helpers/postgres.ts';
import { describeIf } from '../helpers/requirement.ts';
import { describeRecordsContract } from './recordsContract.ts';

const installed = findPostgres() !== null;
let server: PostgresServer | null = null;

beforeAll(async () => {
  if (installed) server = await startPostgres();
});
afterAll(() => server?.stop());

describeRecordsContract(
  'PostgreSQL',
  async () => {
    if (server === null) throw new Error('the server is not running');
    return { kind: 'postgres', connectionString: await server.createDatabase() };
  },
  describeIf(installed, postgresMissing),
);
