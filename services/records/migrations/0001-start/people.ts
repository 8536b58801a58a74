import type { SchemaModule } from 'kysely';

/** People and the trail of what they changed. */
export async function createPeople(schema: SchemaModule): Promise<void> {
  await createPeopleTable(schema);
  await createAuditEntriesTable(schema);
}

async function createPeopleTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('people')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('yard_id', 'text', (column) => column.notNull().references('yards.id'))
    .addColumn('login', 'text', (column) => column.notNull())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('role', 'text', (column) => column.notNull())
    .addColumn('phone', 'text')
    .addColumn('receives_texts', 'integer', (column) => column.notNull())
    .addColumn('texts_from', 'text', (column) => column.notNull())
    .addColumn('disabled', 'integer', (column) => column.notNull())
    .addColumn('password_hash', 'text')
    .execute();
  await schema.createIndex('people_login').on('people').column('login').unique().execute();
  await schema.createIndex('people_yard').on('people').column('yard_id').execute();
}

async function createAuditEntriesTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('audit_entries')
    .addColumn('sequence', 'bigserial', (column) => column.primaryKey())
    .addColumn('yard_id', 'text', (column) => column.references('yards.id'))
    .addColumn('at_ms', 'bigint', (column) => column.notNull())
    .addColumn('by', 'text')
    .addColumn('role', 'text', (column) => column.notNull())
    .addColumn('action', 'text', (column) => column.notNull())
    .addColumn('target', 'text', (column) => column.notNull())
    .addColumn('detail', 'text', (column) => column.notNull())
    .execute();
  await schema.createIndex('audit_yard').on('audit_entries').columns(['yard_id', 'sequence']).execute();
}
