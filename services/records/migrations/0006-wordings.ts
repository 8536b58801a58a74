import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** The language each person is texted in, and what a yard says in its own words, with all its versions. */
export const wordings: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema
      .alterTable('people')
      .addColumn('language', 'text', (column) => column.notNull().defaultTo('en'))
      .execute();
    await db.schema
      .createTable('wordings')
      .addColumn('yard_id', 'text', (column) => column.notNull().references('yards.id'))
      .addColumn('version', 'bigint', (column) => column.notNull())
      .addColumn('overrides', 'text', (column) => column.notNull())
      .addColumn('by', 'text')
      .addColumn('saved_ms', 'bigint', (column) => column.notNull())
      .addPrimaryKeyConstraint('wordings_key', ['yard_id', 'version'])
      .execute();
  },
};
