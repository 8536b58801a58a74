import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** How large a pile was built and of what: evidence for causes, and litres into moisture. */
export const pileBuild: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema.alterTable('piles').addColumn('build', 'text').execute();
  },
};
