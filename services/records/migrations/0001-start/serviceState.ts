import type { SchemaModule } from 'kysely';

/** What services keep for themselves. */
export async function createServiceState(schema: SchemaModule): Promise<void> {
  await createQuarantineTable(schema);
  await createCountersTable(schema);
  await createMarksTable(schema);
}

async function createQuarantineTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('quarantine')
    .addColumn('id', 'bigint', (column) => column.primaryKey())
    .addColumn('received_ms', 'bigint', (column) => column.notNull())
    .addColumn('topic', 'text', (column) => column.notNull())
    .addColumn('probe', 'text')
    .addColumn('reason', 'text', (column) => column.notNull())
    .addColumn('payload_start', 'bytea', (column) => column.notNull())
    .addColumn('payload_bytes', 'bigint', (column) => column.notNull())
    .execute();
}

async function createCountersTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('counters')
    .addColumn('name', 'text', (column) => column.primaryKey())
    .addColumn('value', 'bigint', (column) => column.notNull())
    .execute();
}

async function createMarksTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('marks')
    .addColumn('name', 'text', (column) => column.primaryKey())
    .addColumn('value', 'text', (column) => column.notNull())
    .execute();
}
