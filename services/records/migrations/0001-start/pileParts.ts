import type { SchemaModule } from 'kysely';

/** What belongs to one pile: limits, journal, last status. */
export async function createPileParts(schema: SchemaModule): Promise<void> {
  await createLimitsVersionsTable(schema);
  await createJournalEntriesTable(schema);
  await createPileStatusesTable(schema);
}

async function createLimitsVersionsTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('limits_versions')
    .addColumn('pile_id', 'text', (column) => column.notNull().references('piles.id'))
    .addColumn('version', 'bigint', (column) => column.notNull())
    .addColumn('overrides', 'text', (column) => column.notNull())
    .addColumn('reason', 'text', (column) => column.notNull())
    .addColumn('by', 'text')
    .addColumn('saved_ms', 'bigint', (column) => column.notNull())
    .addPrimaryKeyConstraint('limits_versions_key', ['pile_id', 'version'])
    .execute();
}

async function createJournalEntriesTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('journal_entries')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('pile_id', 'text', (column) => column.notNull().references('piles.id'))
    .addColumn('time_ms', 'bigint', (column) => column.notNull())
    .addColumn('kind', 'text', (column) => column.notNull())
    .addColumn('value', 'double precision')
    .addColumn('note', 'text', (column) => column.notNull())
    .addColumn('by', 'text')
    .addColumn('recorded_at_ms', 'bigint', (column) => column.notNull())
    .execute();
  await schema.createIndex('journal_pile').on('journal_entries').columns(['pile_id', 'time_ms']).execute();
}

async function createPileStatusesTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('pile_statuses')
    .addColumn('pile_id', 'text', (column) => column.primaryKey().references('piles.id'))
    .addColumn('assessed_ms', 'bigint', (column) => column.notNull())
    .addColumn('stage', 'text')
    .addColumn('core_celsius', 'double precision')
    .addColumn('core_time_ms', 'bigint')
    .addColumn('trend_celsius_per_hour', 'double precision')
    .addColumn('air_celsius', 'double precision')
    .addColumn('moisture_fraction', 'double precision')
    .addColumn('moisture_time_ms', 'bigint')
    .addColumn('hours_above55', 'double precision', (column) => column.notNull())
    .addColumn('sanitisation_progress', 'double precision')
    .addColumn('peak_celsius', 'double precision')
    .execute();
}
