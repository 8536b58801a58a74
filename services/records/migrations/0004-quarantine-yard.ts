import { type Kysely, sql } from 'kysely';
import type { Migration } from 'kysely/migration';

/** Whose each message in quarantine is: it may hold readings, and only the people of its yard may look at it. */
export const quarantineYard: Migration = {
  async up(db: Kysely<unknown>) {
    await db.schema
      .alterTable('quarantine')
      .addColumn('yard_id', 'text', (column) => column.references('yards.id'))
      .execute();
    await db.schema.createIndex('quarantine_yard').on('quarantine').columns(['yard_id', 'id']).execute();
    await sql`update quarantine set yard_id =
      (select probes.yard_id from probes where probes.id = quarantine.probe)`.execute(db);
    await sql`update quarantine set yard_id = (select min(id) from yards)
      where yard_id is null and (select count(*) from yards) = 1`.execute(db);
    await countPerYard(db);
  },
};

/** All there ever were, where there is one yard only; where there are more, those that are still kept. */
async function countPerYard(db: Kysely<unknown>): Promise<void> {
  await sql`insert into counters (name, value)
    select 'quarantine:' || yards.id, counters.value from yards, counters
    where counters.name = 'quarantine' and (select count(*) from yards) = 1`.execute(db);
  await sql`insert into counters (name, value)
    select 'quarantine:' || yard_id, count(*) from quarantine
    where yard_id is not null and (select count(*) from yards) > 1 group by yard_id`.execute(db);
}
