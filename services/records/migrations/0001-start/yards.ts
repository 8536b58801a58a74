import { type SchemaModule, sql } from 'kysely';

/** Yards, their piles, and where each channel stands. */
export async function createYards(schema: SchemaModule): Promise<void> {
  await createYardsTable(schema);
  await createPilesTable(schema);
  await createPlacementsTable(schema);
}

async function createYardsTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('yards')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('time_zone', 'text', (column) => column.notNull())
    .addColumn('temperature_unit', 'text', (column) => column.notNull())
    .addColumn('altitude_metres', 'double precision', (column) => column.notNull())
    .execute();
}

async function createPilesTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('piles')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('yard_id', 'text', (column) => column.notNull().references('yards.id'))
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('place', 'text', (column) => column.notNull())
    .addColumn('method', 'text', (column) => column.notNull())
    .addColumn('started_ms', 'bigint', (column) => column.notNull())
    .addColumn('ended_ms', 'bigint')
    .execute();
  await schema.createIndex('piles_yard').on('piles').column('yard_id').execute();
}

async function createPlacementsTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('placements')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('yard_id', 'text', (column) => column.notNull().references('yards.id'))
    .addColumn('pile_id', 'text', (column) => column.references('piles.id'))
    .addColumn('channel', 'text', (column) => column.notNull())
    .addColumn('quantity', 'text', (column) => column.notNull())
    .addColumn('position', 'text', (column) => column.notNull())
    .addColumn('depth_metres', 'double precision')
    .addColumn('from_ms', 'bigint', (column) => column.notNull())
    .addColumn('to_ms', 'bigint')
    .execute();
  await schema.createIndex('placements_yard').on('placements').column('yard_id').execute();
  await schema.createIndex('placements_pile').on('placements').column('pile_id').execute();
  await schema.createIndex('placements_channel').on('placements').column('channel').execute();
  await schema
    .createIndex('placements_standing_channel')
    .on('placements')
    .column('channel')
    .unique()
    .where(sql.ref('to_ms'), 'is', null)
    .execute();
}
