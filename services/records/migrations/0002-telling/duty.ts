import type { SchemaModule } from 'kysely';

/** Each yard's duty plan with all its versions, and further ways to reach a person. */
export async function createDuty(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('duty_plans')
    .addColumn('yard_id', 'text', (column) => column.notNull().references('yards.id'))
    .addColumn('version', 'bigint', (column) => column.notNull())
    .addColumn('plan', 'text', (column) => column.notNull())
    .addColumn('by', 'text')
    .addColumn('saved_ms', 'bigint', (column) => column.notNull())
    .addPrimaryKeyConstraint('duty_plans_key', ['yard_id', 'version'])
    .execute();
  await schema
    .createTable('contact_ways')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('person_id', 'text', (column) => column.notNull().references('people.id'))
    .addColumn('channel', 'text', (column) => column.notNull())
    .addColumn('address', 'text', (column) => column.notNull())
    .addColumn('told_from', 'text', (column) => column.notNull())
    .addColumn('created_ms', 'bigint', (column) => column.notNull())
    .addColumn('gone_ms', 'bigint')
    .addColumn('gone_detail', 'text')
    .execute();
  await schema
    .createIndex('contact_ways_address')
    .on('contact_ways')
    .columns(['person_id', 'channel', 'address'])
    .unique()
    .execute();
}
