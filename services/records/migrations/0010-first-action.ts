import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** What to do first, kept with each text, so that one that tells several together can say it of the worst. */
export const firstAction: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema.alterTable('messages').addColumn('first_action', 'text').execute();
  },
};
