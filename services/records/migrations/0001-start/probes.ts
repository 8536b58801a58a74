import type { SchemaModule } from 'kysely';

/** Probe credentials and calibrations. */
export async function createProbes(schema: SchemaModule): Promise<void> {
  await createProbesTable(schema);
  await createCalibrationsTable(schema);
}

async function createProbesTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('probes')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('yard_id', 'text', (column) => column.notNull().references('yards.id'))
    .addColumn('label', 'text', (column) => column.notNull())
    .addColumn('created_ms', 'bigint', (column) => column.notNull())
    .addColumn('revoked_ms', 'bigint')
    .addColumn('expected_interval_seconds', 'double precision')
    .addColumn('secret_hash', 'text', (column) => column.notNull())
    .execute();
  await schema.createIndex('probes_yard').on('probes').column('yard_id').execute();
}

async function createCalibrationsTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('calibrations')
    .addColumn('channel', 'text', (column) => column.notNull())
    .addColumn('gain', 'double precision', (column) => column.notNull())
    .addColumn('offset', 'double precision', (column) => column.notNull())
    .addColumn('calibrated_ms', 'bigint', (column) => column.notNull())
    .addColumn('due_ms', 'bigint')
    .addPrimaryKeyConstraint('calibrations_key', ['channel', 'calibrated_ms'])
    .execute();
}
