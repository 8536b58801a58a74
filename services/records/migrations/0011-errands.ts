import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** What people ask of the channels in a process that sends nothing: to look at one, or to send a test by it. */
export const errands: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema
      .createTable('errands')
      .addColumn('id', 'text', (column) => column.primaryKey())
      .addColumn('channel', 'text', (column) => column.notNull())
      .addColumn('address', 'text')
      .addColumn('created_ms', 'bigint', (column) => column.notNull())
      .addColumn('taken', 'bigint', (column) => column.notNull())
      .addColumn('answer', 'text')
      .execute();
  },
};
