import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** What may be said of a pile's sanitisation record, so that a core record alone is never shown as complete. */
export const sanitisationOutcome: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema.alterTable('pile_statuses').addColumn('sanitisation_outcome', 'text').execute();
  },
};
