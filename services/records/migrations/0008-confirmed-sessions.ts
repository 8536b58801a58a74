import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** When a person last showed their password in a session; null for sessions older than this column: they are asked. */
export const confirmedSessions: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema.alterTable('sessions').addColumn('confirmed_ms', 'bigint').execute();
  },
};
