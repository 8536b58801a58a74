import type { SchemaModule } from 'kysely';

/** Sessions and links; tokens only as hashes. */
export async function createSignIn(schema: SchemaModule): Promise<void> {
  await createSessionsTable(schema);
  await createSetupLinksTable(schema);
  await createWallLinksTable(schema);
}

async function createSessionsTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('sessions')
    .addColumn('token_hash', 'text', (column) => column.primaryKey())
    .addColumn('person_id', 'text', (column) => column.notNull().references('people.id'))
    .addColumn('created_ms', 'bigint', (column) => column.notNull())
    .addColumn('last_used_ms', 'bigint', (column) => column.notNull())
    .addColumn('expires_ms', 'bigint', (column) => column.notNull())
    .execute();
  await schema.createIndex('sessions_person').on('sessions').column('person_id').execute();
}

async function createSetupLinksTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('setup_links')
    .addColumn('token_hash', 'text', (column) => column.primaryKey())
    .addColumn('purpose', 'text', (column) => column.notNull())
    .addColumn('person_id', 'text', (column) => column.references('people.id'))
    .addColumn('expires_ms', 'bigint', (column) => column.notNull())
    .execute();
}

async function createWallLinksTable(schema: SchemaModule): Promise<void> {
  await schema
    .createTable('wall_links')
    .addColumn('id', 'text', (column) => column.primaryKey())
    .addColumn('yard_id', 'text', (column) => column.notNull().references('yards.id'))
    .addColumn('token_hash', 'text', (column) => column.notNull().unique())
    .addColumn('label', 'text', (column) => column.notNull())
    .addColumn('created_ms', 'bigint', (column) => column.notNull())
    .addColumn('created_by', 'text', (column) => column.notNull())
    .addColumn('revoked_ms', 'bigint')
    .execute();
}
