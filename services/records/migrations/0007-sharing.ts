import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** How several processes of one yard share its work: who holds what, who is alive, and what people asked to be done. */
export const sharing: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema
      .createTable('leases')
      .addColumn('name', 'text', (column) => column.primaryKey())
      .addColumn('holder', 'text')
      .addColumn('fence', 'bigint', (column) => column.notNull())
      .addColumn('beat', 'bigint', (column) => column.notNull())
      .execute();
    await db.schema
      .createTable('processes')
      .addColumn('id', 'text', (column) => column.primaryKey())
      .addColumn('standing', 'text', (column) => column.notNull())
      .addColumn('beat', 'bigint', (column) => column.notNull())
      .execute();
    await db.schema
      .createTable('deeds')
      .addColumn('id', 'text', (column) => column.primaryKey())
      .addColumn('yard_id', 'text', (column) => column.notNull().references('yards.id'))
      .addColumn('alarm_id', 'text', (column) => column.notNull().references('alarms.id'))
      .addColumn('event', 'text', (column) => column.notNull())
      .addColumn('created_ms', 'bigint', (column) => column.notNull())
      .addColumn('answer', 'text')
      .execute();
  },
};
